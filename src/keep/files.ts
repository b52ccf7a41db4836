/** Files that the user picks, drops or is given. Every way may be cancelled or refused. */
export interface Files {
  /** Lets the user pick one file. Must be called from a click or a key press. */
  readonly open: (kind: FileKind) => Promise<Opened>
  /**
   * Gives the user a file: where the browser can, in a place of their choice, else among the downloads.
   * Must be called from a click or a key press.
   * @param place where it was opened from or saved to before; it is written there again without asking
   */
  readonly save: (file: NewFile, kind: FileKind, place?: FilePlace) => Promise<Saved>
}

export interface FileKind {
  /** As the picker names it: 'Plan'. */
  readonly description: string
  /** 'application/json' */
  readonly type: string
  /** With the dot; the first is put after a name that has none. */
  readonly extensions: readonly `.${string}`[]
  /** Bytes; a larger file is refused before it is read. */
  readonly most: number
}

export interface NewFile {
  readonly name: string
  readonly content: string | Blob
}

/** A place on the user's disk that the browser may write again. */
export interface FilePlace {
  readonly name: string
  readonly write: (content: string | Blob) => Promise<void>
}

export interface OpenedFile {
  readonly name: string
  readonly bytes: Uint8Array
}

export type Opened =
  | { readonly kind: 'opened'; readonly file: OpenedFile; readonly place: FilePlace | undefined }
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'refused'; readonly message: string }

export type Saved =
  | { readonly kind: 'saved'; readonly place: FilePlace }
  /** The browser put it among its downloads, under this name or one like it. */
  | { readonly kind: 'downloaded'; readonly name: string }
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'refused'; readonly message: string }

/** Reads a picked or dropped file, unless it is too large or cannot be read. */
export async function readFile(file: File, kind: FileKind, place?: FilePlace): Promise<Opened> {
  if (file.size > kind.most) {
    const megabytes = (bytes: number) => `${Math.ceil(bytes / 1e5) / 10} MB`
    const message = `${file.name} has ${megabytes(file.size)}; a file of this kind has ${megabytes(kind.most)} at most.`
    return { kind: 'refused', message }
  }
  try {
    const bytes = new Uint8Array(await file.arrayBuffer())
    return { kind: 'opened', file: { name: file.name, bytes }, place }
  } catch {
    return { kind: 'refused', message: `${file.name} could not be read: is it a folder, or was it moved?` }
  }
}

/** A title as a file name: what some disk forbids becomes a hyphen, and the kind's extension follows. */
export function fileName(title: string, kind: FileKind): string {
  const base = title
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Cf}<>:"/\\|?*]+/gu, '-')
    .replace(/^[\s.-]+|[\s.-]+$/gu, '')
  const safe = /^(?:con|prn|aux|nul|com\d|lpt\d)$/i.test(base) ? `${base}-` : base
  return `${[...safe].slice(0, LONGEST_NAME).join('') || 'plan'}${kind.extensions[0] ?? ''}`
}

/** Characters before the extension; disks take 255 bytes, and a character may need four. */
const LONGEST_NAME = 50
