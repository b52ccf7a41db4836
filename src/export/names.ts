/**
 * A file name from titles that every usual file system takes: letters and digits of any script in lower case,
 * hyphens between, at most 100 bytes before the ending.
 * @param ending without the dot
 * @example fileName(['Capstone', 'First pass'], 'csv') // 'capstone-first-pass.csv'
 */
export function fileName(titles: readonly string[], ending: string): string {
  const words = titles
    .join(' ')
    .normalize('NFC')
    .toLowerCase()
    .replace(/['’]/g, '')
    .replace(/[^\p{L}\p{N}\p{M}]+/gu, '-')
  const name = trimmed(cut(trimmed(words), LONGEST)) || UNTITLED
  return `${RESERVED.test(name) ? `${UNTITLED}-${name}` : name}.${ending}`
}

/** Bytes of UTF-8; most file systems allow 255, and somebody may add a copy's number. */
const LONGEST = 100
const UNTITLED = 'weighbridge'
/** Names that Windows keeps for devices, with any ending. */
const RESERVED = /^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])$/

const trimmed = (text: string): string => text.replace(/^-+|-+$/g, '')

function cut(text: string, bytes: number): string {
  let left = bytes
  let kept = ''
  for (const character of text) {
    const code = character.codePointAt(0) as number
    left -= code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4
    if (left < 0) break
    kept += character
  }
  return kept
}
