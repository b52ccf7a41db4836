import {
  type FileKind,
  type FilePlace,
  type Files,
  type NewFile,
  type Opened,
  readFile,
  type Saved,
} from './files'

/**
 * Files by the File System Access API where the page has it (Chromium on https), else by a file input and a
 * download.
 */
export function browserFiles(page: PickerPage = window as unknown as PickerPage): Files {
  return {
    open: (kind) =>
      page.showOpenFilePicker ? openByPicker(page.showOpenFilePicker, kind) : openByInput(page, kind),
    save: async (file, kind, place) => {
      if (place !== undefined) return saveAgain(file, place)
      return page.showSaveFilePicker
        ? saveByPicker(page, page.showSaveFilePicker, file, kind)
        : download(page, file, kind)
    },
  }
}

/** What is used of a window; the two pickers are in no browser on plain http. */
export interface PickerPage {
  readonly document: Document
  readonly showOpenFilePicker?: (options: PickerOptions) => Promise<FileSystemFileHandle[]>
  readonly showSaveFilePicker?: (
    options: PickerOptions & { suggestedName: string },
  ) => Promise<FileSystemFileHandle>
}

interface PickerOptions {
  readonly types: { readonly description: string; readonly accept: Record<string, readonly string[]> }[]
}

const typesOf = ({ description, type, extensions }: FileKind): PickerOptions => ({
  types: [{ description, accept: { [type]: extensions } }],
})

const placeOf = (handle: FileSystemFileHandle): FilePlace => ({
  name: handle.name,
  write: async (content) => {
    const stream = await handle.createWritable()
    await stream.write(content)
    await stream.close()
  },
})

const isCancelled = (error: unknown): boolean => error instanceof DOMException && error.name === 'AbortError'
const reason = (error: unknown): string =>
  error instanceof Error || error instanceof DOMException ? error.message : String(error)

async function openByPicker(
  pick: NonNullable<PickerPage['showOpenFilePicker']>,
  kind: FileKind,
): Promise<Opened> {
  try {
    const [handle] = await pick(typesOf(kind))
    if (handle === undefined) return { kind: 'cancelled' }
    return await readFile(await handle.getFile(), kind, placeOf(handle))
  } catch (error) {
    if (isCancelled(error)) return { kind: 'cancelled' }
    return { kind: 'refused', message: `The file could not be opened: ${reason(error)}` }
  }
}

function openByInput({ document }: PickerPage, kind: FileKind): Promise<Opened> {
  return new Promise((resolve) => {
    const input = document.createElement('input')
    input.type = 'file'
    input.accept = [kind.type, ...kind.extensions].join(',')
    input.hidden = true
    const answered = (opened: Opened | Promise<Opened>) => {
      input.remove()
      resolve(opened)
    }
    input.addEventListener('cancel', () => answered({ kind: 'cancelled' }))
    input.addEventListener('change', () => {
      const file = input.files?.[0]
      answered(file === undefined ? { kind: 'cancelled' } : readFile(file, kind))
    })
    // In the page until it is answered: nothing else holds it, and a browser may drop it with the file that is picked.
    document.body.append(input)
    input.click()
  })
}

async function saveByPicker(
  page: PickerPage,
  pick: NonNullable<PickerPage['showSaveFilePicker']>,
  file: NewFile,
  kind: FileKind,
): Promise<Saved> {
  let handle: FileSystemFileHandle
  try {
    handle = await pick({ ...typesOf(kind), suggestedName: file.name })
  } catch (error) {
    // Inside a frame of another site the picker is there but refuses; a download may still do.
    return isCancelled(error) ? { kind: 'cancelled' } : download(page, file, kind)
  }
  return saveAgain(file, placeOf(handle))
}

async function saveAgain({ content }: NewFile, place: FilePlace): Promise<Saved> {
  try {
    await place.write(content)
    return { kind: 'saved', place }
  } catch (error) {
    return { kind: 'refused', message: `${place.name} could not be written: ${reason(error)}` }
  }
}

/** How long a downloaded file's address stays good, ms; browsers give no sign when they are done with it. */
const ADDRESS_LASTS = 60_000

function download({ document }: PickerPage, { name, content }: NewFile, kind: FileKind): Saved {
  const blob = typeof content === 'string' ? new Blob([content], { type: kind.type }) : content
  const address = URL.createObjectURL(blob)
  const link = document.createElement('a')
  link.href = address
  link.download = name
  document.body.append(link)
  link.click()
  link.remove()
  setTimeout(() => URL.revokeObjectURL(address), ADDRESS_LASTS)
  return { kind: 'downloaded', name }
}
