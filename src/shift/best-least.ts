/**
 * The least time in which any curve could bring a body from rest to rest sideways while its centre of
 * pressure stays on its supports: pushed off from the support's hind end first, caught at its fore end after.
 * The body's weight stays at one height and does not turn about itself: the inverted pendulum
 * ẍ = (x − p) g / z, whose least-time course is bang-bang.
 *
 * With a = x₀ − p₋, b = p₊ − x₁, W = p₊ − p₋, ω = √(g/z): cosh ωt₁ = (W² + a² − b²) / (2aW),
 * cosh ωt₂ = (W² + b² − a²) / (2bW), T = t₁ + t₂. Derived from p = p₋ and p = p₊ meeting in place and speed;
 * the pendulum as in Pratt et al. (2006).
 *
 * The trailing support may be empty once the capture point x + ẋ/ω is over the leading one's near edge q,
 * earliest at ln((q − p₋) / a) / ω.
 */
export function bestLeast(shift: LevelShift): BestLeast {
  if (shift.to < shift.from) return bestLeast(mirrored(shift))
  const { from, to, support, leading, height, gravity } = shift
  const [hind, fore] = support
  const [a, b, width] = [from - hind, fore - to, fore - hind]
  if (from === to) return { ok: true, seconds: 0, off: 0, caught: 0, empty: 0 }
  if (!(a > 0)) return { ok: false, why: 'starts at the edge' }
  if (!(b > 0)) return { ok: false, why: 'ends at the edge' }
  const omega = Math.sqrt(gravity / height)
  const off = Math.acosh(Math.max(1, (width ** 2 + a ** 2 - b ** 2) / (2 * a * width))) / omega
  const caught = Math.acosh(Math.max(1, (width ** 2 + b ** 2 - a ** 2) / (2 * b * width))) / omega
  const empty = Math.max(0, Math.log(Math.max(1e-300, leading - hind) / a) / omega)
  return { ok: true, seconds: off + caught, off, caught, empty }
}

/** Along one level line; m, m/s². */
export interface LevelShift {
  /** Where the centre of mass is at rest before and after. */
  readonly from: number
  readonly to: number
  /** The least and the greatest place at which the contacts can bear. */
  readonly support: readonly [number, number]
  /** Near edge of what bears in the end; for a point support its place. */
  readonly leading: number
  /** Of the centre of mass over the contacts. */
  readonly height: number
  readonly gravity: number
}

export type BestLeast =
  | {
      readonly ok: true
      /** T: how long it takes, s. */
      readonly seconds: number
      /** t₁ and t₂: how long it is pushed off, and how long caught, s. */
      readonly off: number
      readonly caught: number
      /** Earliest moment at which the trailing support may be empty, s after the start. */
      readonly empty: number
    }
  /** From the very edge nothing pushes it further; at the very edge nothing catches it; beyond, neither. */
  | { readonly ok: false; readonly why: 'starts at the edge' | 'ends at the edge' }

const mirrored = ({ from, to, support, leading, ...same }: LevelShift): LevelShift => ({
  ...same,
  from: -from,
  to: -to,
  support: [-support[1], -support[0]],
  leading: -leading,
})
