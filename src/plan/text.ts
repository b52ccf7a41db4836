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

/** Adds a fault where the text would make a value that is too deep or too large for any file of ours. */
function withinBounds(text: string, faults: Faults): boolean {
  const { depth, parts, values, fields } = measure(text)
  if (depth > LIMITS.fileDepth)
    faults.add(
      'too-deep',
      undefined,
      `its lists lie more than ${LIMITS.fileDepth} deep in one another`,
      'this is no plan file',
    )
  else if (parts > LIMITS.fileParts || values > LIMITS.fileValues || fields > LIMITS.fileFields)
    faults.add(
      'too-many-parts',
      undefined,
      fields > LIMITS.fileFields
        ? `it has an object of ${fields} fields or more`
        : `it has ${parts} lists and objects with ${values} values`,
      'no plan has so many, so this is no plan file, or takes must go out of it',
    )
  return faults.count === 0
}

interface Measure {
  /** How deep lists and objects lie in one another. */
  depth: number
  /** Lists and objects. */
  parts: number
  /** Values, give or take the empty lists. */
  values: number
  /** Fields of the object that has most. */
  fields: number
}

/** Measures JSON without building anything; stops at the first object that is too deep or too wide. */
function measure(text: string): Measure {
  const size: Measure = { depth: 0, parts: 0, values: 1, fields: 0 }
  const fieldsAt: number[] = [0]
  let depth = 0
  for (let i = 0; i < text.length; i++) {
    switch (text.charCodeAt(i)) {
      case 0x22: // "
        i = endOfString(text, i)
        break
      case 0x5b: // [
      case 0x7b: // {
        depth += 1
        size.parts += 1
        fieldsAt[depth] = 0
        if (depth > size.depth) size.depth = depth
        if (depth > LIMITS.fileDepth) return size
        break
      case 0x5d: // ]
      case 0x7d: // }
        depth = Math.max(0, depth - 1)
        break
      case 0x2c: // ,
        size.values += 1
        break
      case 0x3a: {
        // :
        const fields = (fieldsAt[depth] ?? 0) + 1
        fieldsAt[depth] = fields
        if (fields > size.fields) size.fields = fields
        if (fields > LIMITS.fileFields) return size
      }
    }
  }
  return size
}

/** Index of the quotation mark that ends a string. */
function endOfString(text: string, start: number): number {
  for (let end = text.indexOf('"', start + 1); end >= 0; end = text.indexOf('"', end + 1)) {
    let backslashes = 0
    while (text[end - 1 - backslashes] === '\\') backslashes += 1
    if (backslashes % 2 === 0) return end
  }
  return text.length
}
