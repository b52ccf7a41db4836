import type { Anchor, Rect, TextItem } from './list'

/**
 * Finds places for labels so that none lies on another or on anything that must stay readable. What is
 * placed first has the first choice.
 */
export class Placer {
  readonly #taken: Rect[] = []
  readonly #within: Rect

  /** @param within labels stay inside */
  constructor(within: Rect) {
    this.#within = within
  }

  /** Keeps a part of the drawing clear of labels. */
  block(rect: Rect): void {
    this.#taken.push(rect)
  }

  /**
   * Takes the first of the places that is free, else the one with the least overlap.
   * @returns its index
   */
  take(places: readonly Rect[]): number {
    let best = 0
    let least = Number.POSITIVE_INFINITY
    for (const [i, place] of places.entries()) {
      const cost = this.#cost(place)
      if (cost < least) {
        least = cost
        best = i
      }
      if (cost === 0) break
    }
    const taken = places[best]
    if (taken) this.#taken.push(taken)
    return best
  }

  #cost(place: Rect): number {
    let cost = place.width * place.height - overlap(place, this.#within)
    // Rounding makes a place that just fits seem to stick out.
    if (cost < 1e-6) cost = 0
    for (const other of this.#taken) cost += overlap(place, other)
    return cost
  }
}

/** Area that two rectangles share, px². */
export function overlap(a: Rect, b: Rect): number {
  const width = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x)
  const height = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y)
  return width > 0 && height > 0 ? width * height : 0
}

/**
 * Width of a text, px: an upper bound for the usual system fonts, since a pure drawing can't measure.
 * Widths of letters in em as in DejaVu Sans, the broadest of them, rounded up.
 */
function textWidth(text: string, size: number, bold = false): number {
  let em = 0
  for (const c of text) em += WIDTH.get(c) ?? (/\p{Lu}/u.test(c) ? 0.74 : 0.64)
  return em * size * (bold ? 1.1 : 1)
}

const WIDTH = new Map<string, number>([
  ...[..."ijlI.,:;'’|!·"].map((c) => [c, 0.34] as const),
  ...[...' \u00a0()frt-–'].map((c) => [c, 0.42] as const),
  ...[...'mwMW%'].map((c) => [c, 1] as const),
])

/** The rectangle a text covers. */
export function textBox(
  x: number,
  y: number,
  text: string,
  size: number,
  bold: boolean,
  anchor: Anchor,
): Rect {
  const width = textWidth(text, size, bold)
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2
  return { x: left, y: y - size * 0.8, width, height: size }
}

/** The rectangle a text of a display list covers. */
export function boxOf(t: TextItem): Rect {
  const box = textBox(t.x, t.y, t.text, t.size, t.bold, t.anchor)
  return { ...box, width: box.width + (t.spacing ?? 0) * t.text.length }
}
