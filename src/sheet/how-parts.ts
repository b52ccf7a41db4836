import type { How } from './how'

/** A sentence in pieces: plain words, and figures with how they are worked out. */
export type Part = { readonly text: string; readonly how: How | null }

/**
 * Finds a sentence's figures by how they read. Each explanation is used once, in their order, so that of two
 * equal figures the first is the first explanation's.
 */
export function figureParts(sentence: string, hows: readonly How[]): Part[] {
  const parts: Part[] = []
  const left = hows.filter(({ result }) => result.text !== '')
  let from = 0
  for (;;) {
    let best: { at: number; how: How } | null = null
    for (const how of left) {
      const at = standsAt(sentence, how.result.text, from)
      if (at >= 0 && (best === null || at < best.at)) best = { at, how }
    }
    if (best === null) break
    const { at, how } = best
    if (at > from) parts.push({ text: sentence.slice(from, at), how: null })
    parts.push({ text: how.result.text, how })
    from = at + how.result.text.length
    left.splice(left.indexOf(how), 1)
  }
  if (from < sentence.length) parts.push({ text: sentence.slice(from), how: null })
  return parts
}

/** Where a figure stands whole, not as the end of a longer one; −1 where it doesn't. */
function standsAt(sentence: string, text: string, from: number): number {
  for (let at = sentence.indexOf(text, from); at >= 0; at = sentence.indexOf(text, at + 1)) {
    const before = sentence.charAt(at - 1)
    const after = sentence.charAt(at + text.length)
    if (!/[\p{L}\d.\u202f]/u.test(before) && !/[\p{L}\d½]/u.test(after)) return at
  }
  return -1
}
