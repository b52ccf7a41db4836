import type { Key } from '../document/channels'

/**
 * The value of a channel at a frame (fractions allowed): its keys joined by quintic curves that are
 * smooth to the second slope where a key stops the motion. Before the first and after the last key the
 * value holds. A channel without keys reads 0.
 */
export function channelAt(keys: readonly Key[], frame: number): number {
  const last = keys.length - 1
  if (last < 0) return 0
  const after = keys.findIndex((key) => key.frame > frame)
  if (after === 0) return (keys[0] as Key).value
  if (after < 0) return (keys[last] as Key).value
  const a = keys[after - 1] as Key
  const b = keys[after] as Key
  const t = (frame - a.frame) / (b.frame - a.frame)
  return a.value + (b.value - a.value) * easeBetween(t, a.out, b.in)
}

/**
 * The share of the way done at the share t of the time, both 0 … 1: the quintic with no acceleration
 * at its ends that leaves at (1 − out) and arrives at (1 − in) times the mean speed.
 */
export function easeBetween(t: number, out: number, into: number): number {
  const m0 = 1 - out
  const m1 = 1 - into
  const t3 = t * t * t
  return (
    m0 * t +
    t3 * (10 - 6 * m0 - 4 * m1) +
    t3 * t * (-15 + 8 * m0 + 7 * m1) +
    t3 * t * t * (6 - 3 * m0 - 3 * m1)
  )
}
