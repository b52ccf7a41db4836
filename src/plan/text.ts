import { LIMITS } from '../document/limits'
import { Faults, shown } from './faults'

// Every engine has it, but the language's own library does not name it.
declare const TextDecoder: new (
  label: 'utf-8',
  options: { fatal: boolean },
) => { decode(bytes: Uint8Array): string }

/**
 * The JSON value in a file, or why there is none. The size, the number of parts and the depth are looked
 * at before anything is built, so that noise costs neither time nor memory.
 * @param text text, or bytes in UTF-8, with or without a byte order mark
 */
export function parseText(
  text: string | Uint8Array,
): { ok: true; value: unknown } | { ok: false; faults: Faults } {
  const faults = new Faults()
  const whole = decode(text, faults)
  if (whole === undefined) return { ok: false, faults }
  if (whole.trim() === '') {
    faults.add(
      'empty',
      undefined,
      'there is nothing in it',
      'choose another file, or an older copy of this one',
    )
    return { ok: false, faults }
  }
  if (!withinBounds(whole, faults)) return { ok: false, faults }
  try {
    return { ok: true, value: JSON.parse(whole) }
  } catch (error) {
    const reason = error instanceof Error ? shown(error.message) : 'no reason given'
    faults.add(
      'not-json',
      undefined,
      `it is not JSON (${reason})`,
      'choose a plan file, or mend it in a text editor',
    )
    return { ok: false, faults }
  }
}

function decode(text: string | Uint8Array, faults: Faults): string | undefined {
  if (text.length > LIMITS.fileBytes) {
    const megabytes = (size: number) => `${Math.ceil(size / 1e5) / 10} MB`
    faults.add(
      'too-big',
      undefined,
      `it has ${megabytes(text.length)}`,
      `a plan has ${megabytes(LIMITS.fileBytes)} at most, so this is no plan file, or takes must go out of it`,
    )
    return undefined
  }
  if (typeof text === 'string') return text.charCodeAt(0) === BYTE_ORDER_MARK ? text.slice(1) : text
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(text)
  } catch {
    faults.add(
      'not-utf8',
      undefined,
      'it is not text in UTF-8',
      'choose a plan file (its name ends in .json)',
    )
    return undefined
  }
}

const BYTE_ORDER_MARK = 0xfeff
const QUOTE = 0x22
const BACKSLASH = 0x5c
const OPENING = [0x5b, 0x7b]
const CLOSING = [0x5d, 0x7d]

/** Counts the arrays and objects and how deep they lie, without building them. */
function withinBounds(text: string, faults: Faults): boolean {
  let depth = 0
  let parts = 0
  let quoted = false
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i)
    if (quoted) {
      if (c === BACKSLASH) i += 1
      else if (c === QUOTE) quoted = false
    } else if (c === QUOTE) quoted = true
    else if (c === OPENING[0] || c === OPENING[1]) {
      depth += 1
      parts += 1
      if (depth > LIMITS.fileDepth) {
        faults.add(
          'too-deep',
          undefined,
          `its lists lie more than ${LIMITS.fileDepth} deep in one another`,
          'this is no plan file',
        )
        return false
      }
    } else if (c === CLOSING[0] || c === CLOSING[1]) depth -= 1
  }
  if (parts <= LIMITS.fileParts) return true
  faults.add(
    'too-many-parts',
    undefined,
    `it has ${parts} lists and objects`,
    `a plan has ${LIMITS.fileParts} at most, so this is no plan file, or takes must go out of it`,
  )
  return false
}
