/** What can be put on the clipboard; reading it is left to the paste event. */
export interface CopyBoard {
  readonly copyText: (text: string) => Promise<Copied>
  /** @param png a picture, or the promise of one: some browsers want to be asked within the click */
  readonly copyPicture: (png: Blob | Promise<Blob>) => Promise<Copied>
}

export type Copied =
  | { readonly kind: 'copied' }
  /** The browser does not allow it here; `message` says what to do instead. */
  | { readonly kind: 'refused'; readonly message: string }

/**
 * The browser's clipboard. On plain http there is none to write to: text goes by way of a selection, a
 * picture cannot go at all.
 */
export function browserCopyBoard(page: CopyPage = window as unknown as CopyPage): CopyBoard {
  const { clipboard } = page.navigator
  return {
    copyText: async (text) => {
      try {
        if (clipboard !== undefined) {
          await clipboard.writeText(text)
          return { kind: 'copied' }
        }
      } catch {
        // Refused, perhaps because the page is not in front; the older way may still do.
      }
      return copyBySelection(page.document, text)
    },
    copyPicture: async (png) => {
      if (clipboard?.write === undefined || page.ClipboardItem === undefined) return NO_PICTURES
      try {
        await clipboard.write([new page.ClipboardItem({ 'image/png': png })])
        return { kind: 'copied' }
      } catch {
        return NO_PICTURES
      }
    },
  }
}

/** What is used of a window. */
export interface CopyPage {
  readonly document: Document
  readonly navigator: { readonly clipboard?: Pick<Clipboard, 'writeText' | 'write'> }
  readonly ClipboardItem?: typeof ClipboardItem
}

const NO_PICTURES: Copied = {
  kind: 'refused',
  message:
    'The browser does not let this page copy pictures (it does on https addresses): save the picture to a file instead.',
}

function copyBySelection(document: Document, text: string): Copied {
  const area = document.createElement('textarea')
  area.value = text
  area.readOnly = true
  document.body.append(area)
  area.select()
  const copied = document.execCommand('copy')
  area.remove()
  if (copied) return { kind: 'copied' }
  return {
    kind: 'refused',
    message: 'The browser does not let this page copy: select the text and copy it by hand.',
  }
}
