/**
 * A seeded source of numbers in [0, 1): sfc32 (Doty-Humphrey, PractRand; public domain algorithm,
 * constants from memory), seeded by splitmix32. Same seed, same numbers, on every engine.
 */
export function random(seed: number): () => number {
  let s = seed | 0
  const split = () => {
    s = (s + 0x9e3779b9) | 0
    let t = s ^ (s >>> 16)
    t = Math.imul(t, 0x21f0aaad)
    t ^= t >>> 15
    t = Math.imul(t, 0x735a2d97)
    return (t ^ (t >>> 15)) | 0
  }
  let a = split()
  let b = split()
  let c = split()
  let d = 1
  const next = () => {
    const t = (((a + b) | 0) + d) | 0
    d = (d + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = ((c << 21) | (c >>> 11)) + t
    c |= 0
    return (t >>> 0) / 4294967296
  }
  for (let i = 0; i < 12; i++) next()
  return next
}

/** A number in [low, high) from a source in [0, 1). */
export const between = (next: () => number, low: number, high: number): number => low + (high - low) * next()
