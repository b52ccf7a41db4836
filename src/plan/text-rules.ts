/** What text and ids in a file may be. The same patterns stand in the JSON Schemas. */

/** One line: no control characters, no line or paragraph separators, no half of a surrogate pair. */
export const LINE_RULE = /^[^\p{Cc}\p{Cs}\p{Zl}\p{Zp}]*$/u

/** Any number of lines, with tabs. */
export const LINES_RULE = /^(?:[^\p{Cc}\p{Cs}]|[\n\t])*$/u

export const ID_RULE = /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/

/** In words. */
export const idRule = 'a letter or digit, then up to 63 letters, digits, dots, hyphens or underscores'

/** Names that every object has already: as ids they would be found where nothing was put. */
export const FORBIDDEN_IDS: ReadonlySet<string> = new Set(Object.getOwnPropertyNames(Object.prototype))

export const isText = (text: string, rule: RegExp): boolean => rule.test(text)

export const isId = (text: string): boolean => ID_RULE.test(text) && !FORBIDDEN_IDS.has(text)

/** Typed or pasted text as a file may hold it: other characters go, what is too long is cut. */
export function tidyText(text: string, longest: number, layout: 'line' | 'lines'): string {
  const unified = text.replace(/\r\n?|[\u2028\u2029]/g, '\n')
  const kept =
    layout === 'lines'
      ? unified.replace(/(?![\n\t])[\p{Cc}\p{Cs}]/gu, '')
      : unified.replace(/[\n\t]+/g, ' ').replace(/[\p{Cc}\p{Cs}]/gu, '')
  return kept.length <= longest ? kept : [...kept].slice(0, longest).join('')
}
