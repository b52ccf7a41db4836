import type { Key } from '../document/channels'

/**
 * A channel as a function of the frame, fractions allowed: smooth to the second slope everywhere.
 * Between knots it is the quintic with their values, slopes and second slopes; before the first and
 * after the last knot the value holds. A channel without knots reads 0.
 */
export class Curve {
  /** The span that was read last: the next reading is mostly in it. */
  private low = 0

  constructor(readonly knots: readonly Knot[]) {}

  at(frame: number): number {
    const { knots } = this
    const last = knots.length - 1
    if (last < 0) return 0
    const first = knots[0] as Knot
    if (frame <= first.frame) return first.value
    const final = knots[last] as Knot
    if (frame >= final.frame) return final.value
    const { low } = this
    if (!((knots[low] as Knot).frame <= frame && frame < (knots[low + 1] as Knot).frame))
      this.low = this.spanAt(frame)
    const a = knots[this.low] as Knot
    const b = knots[this.low + 1] as Knot
    return stands(a, b) ? a.value : quintic(a, b, frame)
  }

  /** The last knot that is not after a frame between the first and the last. */
  private spanAt(frame: number): number {
    let low = 0
    let high = this.knots.length - 1
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if ((this.knots[middle] as Knot).frame <= frame) low = middle
      else high = middle
    }
    return low
  }
}

/** Slopes in value per frame, and per frame². */
export interface Knot {
  readonly frame: number
  readonly value: number
  readonly slope: number
  readonly bend: number
  /** How far the middle of the way to the next knot runs ahead (> 0) or lags, over the way. */
  readonly skew?: number
}

/**
 * Knots through keys. A key passes at the speed that its neighbours suggest, slowed by its eases: fully
 * eased it comes to rest, and so it does where the motion turns back, begins and ends. Where a span's
 * slow-out is stronger than its slow-in, its middle lags, and the other way round.
 */
export function knotsOf(keys: readonly Key[]): Knot[] {
  return keys.map((key, i) => {
    const [before, after] = [keys[i - 1], keys[i + 1]]
    const pace = before && after ? passing(before, key, after) : 0
    return {
      frame: key.frame,
      value: key.value,
      slope: pace * (1 - Math.max(key.in, key.out)),
      bend: 0,
      skew: after ? SKEW * (after.in - key.out) : 0,
    }
  })
}

/** A channel's value at a frame. Makes the curve for one reading; see `Curve` for many. */
export const channelAt = (keys: readonly Key[], frame: number): number => new Curve(knotsOf(keys)).at(frame)

/** The middle runs this far ahead at the most, over the way: still without turning back. */
const SKEW = 0.16

/** Slope through a key that neither overshoots it nor its neighbours: none where the motion turns. */
function passing(before: Key, key: Key, after: Key): number {
  const [h0, h1] = [key.frame - before.frame, after.frame - key.frame]
  const [s0, s1] = [(key.value - before.value) / h0, (after.value - key.value) / h1]
  if (s0 * s1 <= 0) return 0
  const parabola = (s0 * h1 + s1 * h0) / (h0 + h1)
  // A quintic without second slopes at its ends stays monotone up to about 1.5 times the mean slope.
  const limit = 1.5 * Math.min(Math.abs(s0), Math.abs(s1))
  return Math.sign(parabola) * Math.min(Math.abs(parabola), limit)
}

/** Most channels stand still most of the time. */
const stands = (a: Knot, b: Knot): boolean =>
  a.value === b.value && a.slope === 0 && b.slope === 0 && a.bend === 0 && b.bend === 0

function quintic(a: Knot, b: Knot, frame: number): number {
  const h = b.frame - a.frame
  const t = (frame - a.frame) / h
  const way = b.value - a.value
  const [v0, v1] = [a.slope * h, b.slope * h]
  const [a0, a1] = [a.bend * h * h, b.bend * h * h]
  const c3 = 10 * way - 6 * v0 - 4 * v1 - 1.5 * a0 + 0.5 * a1
  const c4 = -15 * way + 8 * v0 + 7 * v1 + 1.5 * a0 - a1
  const c5 = 6 * way - 3 * v0 - 3 * v1 - 0.5 * a0 + 0.5 * a1
  const u = t * (1 - t)
  return (
    a.value + t * (v0 + t * (a0 / 2 + t * (c3 + t * (c4 + t * c5)))) + 64 * (a.skew ?? 0) * way * u * u * u
  )
}
