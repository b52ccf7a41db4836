// @vitest-environment jsdom
import { afterEach, describe, expect, it, vi } from 'vitest'
import { browserFiles, type PickerPage } from '../../src/keep/browser-files'
import { browserCopyBoard, type CopyPage } from '../../src/keep/clipboard'
import { memoryCopyBoard } from '../../src/keep/fakes/clipboard'
import { memoryFiles } from '../../src/keep/fakes/files'
import { memoryLocks } from '../../src/keep/fakes/locks'
import { type FileKind, fileName, readFile } from '../../src/keep/files'
import { browserLocks } from '../../src/keep/locks'

const PLAN: FileKind = { description: 'Plan', type: 'application/json', extensions: ['.json'], most: 1000 }
const file = (content: string, name = 'plan.json') => new File([content], name)
const textOf = (bytes: Uint8Array) => new TextDecoder().decode(bytes)

/** A file of the disk as a browser hands it out; what is written to it is in `written`. */
function handleOf(content: string, wrong?: DOMException) {
  const written: unknown[] = []
  const handle = {
    name: 'plan.json',
    getFile: async () => file(content),
    createWritable: async () => {
      if (wrong) throw wrong
      return {
        write: async (data: unknown) => void written.push(data),
        close: async () => void written.push('closed'),
      }
    },
  }
  return { handle: handle as unknown as FileSystemFileHandle, written }
}

const cancelled = () => Promise.reject(new DOMException('', 'AbortError'))

afterEach(() => {
  vi.restoreAllMocks()
  document.body.replaceChildren()
})

describe('files by picker', () => {
  it('are opened, and saved again to the same place without asking', async () => {
    const { handle, written } = handleOf('{"a": 1}')
    const pick = vi.fn(async () => [handle])
    const files = browserFiles({ document, showOpenFilePicker: pick })
    const opened = await files.open(PLAN)
    if (opened.kind !== 'opened') throw new Error(opened.kind)
    expect(textOf(opened.file.bytes)).toBe('{"a": 1}')
    expect(pick).toHaveBeenCalledWith({
      types: [{ description: 'Plan', accept: { 'application/json': ['.json'] } }],
    })
    const saved = await files.save({ name: 'other.json', content: 'new' }, PLAN, opened.place)
    expect(saved).toMatchObject({ kind: 'saved', place: { name: 'plan.json' } })
    expect(written).toEqual(['new', 'closed'])
  })

  it('are saved where the user picks', async () => {
    const { handle, written } = handleOf('')
    const pick = vi.fn(async () => handle)
    const saved = await browserFiles({ document, showSaveFilePicker: pick }).save(
      { name: 'x.json', content: 'new' },
      PLAN,
    )
    expect(saved.kind).toBe('saved')
    expect(pick).toHaveBeenCalledWith(expect.objectContaining({ suggestedName: 'x.json' }))
    expect(written).toEqual(['new', 'closed'])
  })

  it('may be cancelled, refused or broken', async () => {
    const page: PickerPage = { document, showOpenFilePicker: cancelled, showSaveFilePicker: cancelled }
    expect(await browserFiles(page).open(PLAN)).toEqual({ kind: 'cancelled' })
    expect(await browserFiles(page).save({ name: 'x', content: '' }, PLAN)).toEqual({ kind: 'cancelled' })
    const broken = handleOf('', new DOMException('the disk is full', 'QuotaExceededError'))
    const files = browserFiles({ document, showSaveFilePicker: async () => broken.handle })
    expect(await files.save({ name: 'x', content: '' }, PLAN)).toEqual({
      kind: 'refused',
      message: 'plan.json could not be written: the disk is full',
    })
  })
})

describe('files without a picker', () => {
  /** Answers the next file input as a user would. */
  const answer = (act: (input: HTMLInputElement) => void) =>
    vi.spyOn(HTMLInputElement.prototype, 'click').mockImplementation(function (this: HTMLInputElement) {
      act(this)
    })

  it('are opened by an input', async () => {
    answer((input) => {
      expect(input.accept).toBe('application/json,.json')
      // Held by the page until it is answered.
      expect(input.isConnected).toBe(true)
      Object.defineProperty(input, 'files', { value: [file('text')] })
      input.dispatchEvent(new Event('change'))
    })
    const opened = await browserFiles({ document }).open(PLAN)
    expect(opened).toMatchObject({ kind: 'opened', file: { name: 'plan.json' }, place: undefined })
  })

  it('may be cancelled', async () => {
    answer((input) => input.dispatchEvent(new Event('cancel')))
    expect(await browserFiles({ document }).open(PLAN)).toEqual({ kind: 'cancelled' })
  })

  it('are saved as a download', async () => {
    const blobs: Blob[] = []
    URL.createObjectURL = (blob) => {
      blobs.push(blob as Blob)
      return 'blob:1'
    }
    const clicked: string[] = []
    vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
      clicked.push(`${this.href} ${this.download}`)
    })
    const saved = await browserFiles({ document }).save({ name: 'x.json', content: 'text' }, PLAN)
    expect(saved).toEqual({ kind: 'downloaded', name: 'x.json' })
    expect(clicked).toEqual(['blob:1 x.json'])
    expect(blobs[0]).toMatchObject({ size: 4, type: 'application/json' })
    expect(document.querySelector('a')).toBeNull()
  })

  it('are a download too where the picker refuses inside a frame', async () => {
    URL.createObjectURL = () => 'blob:2'
    vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(() => {})
    const refused = () => Promise.reject(new DOMException('cross-origin', 'SecurityError'))
    const saved = await browserFiles({ document, showSaveFilePicker: refused }).save(
      { name: 'x', content: '' },
      PLAN,
    )
    expect(saved.kind).toBe('downloaded')
  })
})

describe('a file', () => {
  it('that is too large is refused before it is read', async () => {
    const large = file('x'.repeat(1001))
    const read = vi.spyOn(large, 'arrayBuffer')
    expect(await readFile(large, PLAN)).toEqual({
      kind: 'refused',
      message: 'plan.json has 0.1 MB; a file of this kind has 0.1 MB at most.',
    })
    expect(read).not.toHaveBeenCalled()
  })

  it('that cannot be read is refused', async () => {
    const gone = file('x')
    gone.arrayBuffer = () => Promise.reject(new DOMException('', 'NotFoundError'))
    expect((await readFile(gone, PLAN)).kind).toBe('refused')
  })

  it.each([
    ['Over the stile', 'Over the stile.json'],
    ['  a/b\\c:d*?"<>| ', 'a-b-c-d.json'],
    ['../../etc', 'etc.json'],
    ['', 'plan.json'],
    ['con', 'con-.json'],
    ['é'.repeat(80), `${'é'.repeat(50)}.json`],
  ])('named after the title %j is called %j', (title, name) => {
    expect(fileName(title, PLAN)).toBe(name)
  })
})

describe('the clipboard', () => {
  const png = new Blob(['png'], { type: 'image/png' })
  class Item {
    constructor(readonly data: Record<string, unknown>) {}
  }
  const page = (clipboard?: Partial<Clipboard>): CopyPage => ({
    document,
    navigator: clipboard === undefined ? {} : { clipboard: clipboard as Clipboard },
    ClipboardItem: Item as unknown as typeof ClipboardItem,
  })
  const selected: string[] = []
  const execCommand = (works: boolean) => {
    document.execCommand = () => {
      selected.push((document.activeElement as HTMLTextAreaElement | null)?.value ?? '')
      return works
    }
  }

  it('takes text and pictures where the browser has one', async () => {
    const written: unknown[] = []
    const board = browserCopyBoard(
      page({
        writeText: async (text) => void written.push(text),
        write: async (items) => void written.push(...items),
      }),
    )
    expect(await board.copyText('text')).toEqual({ kind: 'copied' })
    expect(await board.copyPicture(png)).toEqual({ kind: 'copied' })
    expect(written).toEqual(['text', new Item({ 'image/png': png })])
  })

  it('takes text by a selection on plain http, and says that pictures do not go', async () => {
    execCommand(true)
    const board = browserCopyBoard(page())
    expect(await board.copyText('text')).toEqual({ kind: 'copied' })
    expect(document.querySelector('textarea')).toBeNull()
    expect(await board.copyPicture(png)).toMatchObject({
      kind: 'refused',
      message: /save the picture to a file/,
    })
  })

  it('says so when the browser refuses', async () => {
    execCommand(false)
    const no = () => Promise.reject(new DOMException('', 'NotAllowedError'))
    const board = browserCopyBoard(page({ writeText: no, write: no }))
    expect((await board.copyText('text')).kind).toBe('refused')
    expect((await board.copyPicture(png)).kind).toBe('refused')
  })
})

describe('claims on a plan', () => {
  /** Locks as a browser gives them: one holder a name, until its promise is settled. */
  function lockManager(): LockManager {
    const held = new Set<string>()
    const request = async (name: string, _: object, run: (lock: object | null) => unknown) => {
      if (held.has(name)) {
        run(null)
        return
      }
      held.add(name)
      await run({ name })
      held.delete(name)
    }
    return { request } as unknown as LockManager
  }

  it.each([
    ['by Web Locks', () => browserLocks(lockManager())],
    ['in memory', () => memoryLocks()],
  ])('%s are one page’s until released', async (_, make) => {
    const locks = make()
    const mine = await locks.claim('p')
    expect(mine.kind).toBe('mine')
    expect(await locks.claim('p')).toEqual({ kind: 'elsewhere' })
    expect((await locks.claim('q')).kind).toBe('mine')
    if (mine.kind === 'mine') mine.release()
    await Promise.resolve()
    await Promise.resolve()
    expect((await locks.claim('p')).kind).toBe('mine')
  })

  it('are said to be unguarded where there are no locks', async () => {
    expect(await browserLocks(undefined).claim('p')).toMatchObject({
      kind: 'unguarded',
      message: /another tab/,
    })
    const broken = {
      request: () => Promise.reject(new DOMException('', 'SecurityError')),
    } as unknown as LockManager
    expect((await browserLocks(broken).claim('p')).kind).toBe('unguarded')
  })
})

it('the fakes remember what was given to them', async () => {
  const board = memoryCopyBoard()
  await board.copyText('text')
  expect(board.text).toBe('text')
  const files = memoryFiles()
  expect(await files.open(PLAN)).toEqual({ kind: 'cancelled' })
  await files.save({ name: 'x.json', content: 'text' }, PLAN)
  expect([...files.saved]).toEqual([['x.json', 'text']])
})
