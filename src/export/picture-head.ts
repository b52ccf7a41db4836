/** How large a picture may be: a decoded one takes four bytes a pixel. */
export const PICTURE_LIMITS = {
  /** Bytes of the file. */
  bytes: 64_000_000,
  /** Bytes of its beginning that are enough: a JPEG may carry profiles and a small copy of itself first. */
  head: 4_000_000,
  /** Either side, px: what graphics cards draw at once. */
  side: 16_384,
  /** 192 MB decoded; a photograph of a good camera has about half as many. */
  pixels: 48_000_000,
} as const

/**
 * What a picture's first bytes say of it, before anything is decoded: a small file can hold a picture that fills the
 * memory. PNG (W3C PNG, third edition, 11.2.1), JPEG (ITU-T T.81, annex B), GIF (GIF89a, 18), WebP (RFC 9649).
 * @param bytes the file, or its first `PICTURE_LIMITS.head` bytes
 * @param size of the whole file, bytes
 * @returns its kind and size as stored, px, or why it is refused; a picture that breaks off later is for the
 *   decoder to find
 */
export function pictureHead(bytes: Uint8Array, size = bytes.length): PictureHead {
  if (size > PICTURE_LIMITS.bytes) return refused('too-big')
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  for (const [kind, read] of READERS) {
    const size = read(view)
    if (size === null) continue
    if (size === 'broken') return refused('broken')
    const [width, height] = size
    if (width < 1 || height < 1) return refused('broken')
    const { side, pixels } = PICTURE_LIMITS
    if (width > side || height > side || width * height > pixels) return refused('too-many-pixels')
    return { ok: true, kind, width, height }
  }
  return refused('not-a-picture')
}

export type PictureHead =
  | { readonly ok: true; readonly kind: PictureKind; readonly width: number; readonly height: number }
  | { readonly ok: false; readonly code: keyof typeof MESSAGES; readonly message: string }

export type PictureKind = 'png' | 'jpeg' | 'gif' | 'webp'

const MESSAGES = {
  'too-big': 'it has more than 64 MB: save it smaller',
  'too-many-pixels': 'it has more than 48 million pixels: save it smaller',
  'not-a-picture': 'it is no PNG, JPEG, WebP or GIF',
  broken: 'it is damaged: save it again',
} as const

const refused = (code: keyof typeof MESSAGES): PictureHead => ({ ok: false, code, message: MESSAGES[code] })

/** Width and height, px; null where it is no picture of this kind. */
type Reader = (view: DataView) => readonly [number, number] | 'broken' | null

const tag = (view: DataView, at: number, signs: string): boolean =>
  view.byteLength >= at + signs.length &&
  [...signs].every((sign, i) => view.getUint8(at + i) === sign.charCodeAt(0))

const png: Reader = (view) => {
  if (!tag(view, 0, '\x89PNG\r\n\x1a\n')) return null
  if (view.byteLength < 24 || !tag(view, 12, 'IHDR')) return 'broken'
  return [view.getUint32(16), view.getUint32(20)]
}

const gif: Reader = (view) => {
  if (!tag(view, 0, 'GIF87a') && !tag(view, 0, 'GIF89a')) return null
  return view.byteLength < 10 ? 'broken' : [view.getUint16(6, true), view.getUint16(8, true)]
}

const webp: Reader = (view) => {
  if (!tag(view, 0, 'RIFF') || !tag(view, 8, 'WEBP')) return null
  if (view.byteLength < 30) return 'broken'
  const of24 = (at: number) => view.getUint16(at, true) + view.getUint8(at + 2) * 0x10000
  if (tag(view, 12, 'VP8X')) return [of24(24) + 1, of24(27) + 1]
  if (tag(view, 12, 'VP8 ') && view.getUint16(23) === 0x9d01 && view.getUint8(25) === 0x2a)
    return [view.getUint16(26, true) & 0x3fff, view.getUint16(28, true) & 0x3fff]
  if (tag(view, 12, 'VP8L') && view.getUint8(20) === 0x2f) {
    const bits = view.getUint32(21, true)
    return [(bits & 0x3fff) + 1, ((bits >>> 14) & 0x3fff) + 1]
  }
  return 'broken'
}

/** Walks the marker segments, each of which says its length, to the start of a frame. */
const jpeg: Reader = (view) => {
  if (!tag(view, 0, '\xff\xd8')) return null
  for (let at = 2; at + 9 < view.byteLength; ) {
    if (view.getUint8(at) !== 0xff) return 'broken'
    const marker = view.getUint8(at + 1)
    // Fill bytes, and markers that stand alone.
    if (marker === 0xff) at += 1
    else if (marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7)) at += 2
    else if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker))
      return [view.getUint16(at + 7), view.getUint16(at + 5)]
    else {
      const length = view.getUint16(at + 2)
      if (length < 2) return 'broken'
      at += 2 + length
    }
  }
  return 'broken'
}

const READERS: readonly (readonly [PictureKind, Reader])[] = [
  ['png', png],
  ['jpeg', jpeg],
  ['webp', webp],
  ['gif', gif],
]
