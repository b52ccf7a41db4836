/**
 * Vectors of three numbers. World frame as in glTF 2.0: right-handed, +Y up, +Z forward,
 * +X to the body's left. Every function returns a new vector and leaves its arguments alone.
 */
export type Vec3 = readonly [number, number, number]

export const ZERO: Vec3 = [0, 0, 0]
export const UP: Vec3 = [0, 1, 0]

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
export const sub = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
export const scale = (a: Vec3, s: number): Vec3 => [a[0] * s, a[1] * s, a[2] * s]
/** a + b·s */
export const addScaled = (a: Vec3, b: Vec3, s: number): Vec3 => [
  a[0] + b[0] * s,
  a[1] + b[1] * s,
  a[2] + b[2] * s,
]
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]
/** Lengths here are between 1e-100 and 1e100, so that squares neither vanish nor overflow; `Math.hypot` is ten times slower. */
export const norm = (a: Vec3): number => Math.sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2])
export function distance(a: Vec3, b: Vec3): number {
  const x = a[0] - b[0]
  const y = a[1] - b[1]
  const z = a[2] - b[2]
  return Math.sqrt(x * x + y * y + z * z)
}
/** Shorter than this a vector has no direction. */
export const SHORT = 1e-12

/** The unit vector along `a`, or `fallback` where `a` is too `SHORT` to have a direction. */
export function unit(a: Vec3, fallback: Vec3 = UP): Vec3 {
  const n = norm(a)
  return n < SHORT ? fallback : [a[0] / n, a[1] / n, a[2] / n]
}
/** a at t = 0, b at t = 1. */
export const lerp = (a: Vec3, b: Vec3, t: number): Vec3 => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
]
/** `a` without its part along the unit vector `n`. */
export const reject = (a: Vec3, n: Vec3): Vec3 => addScaled(a, n, -dot(a, n))
/** The mirror image in the body's midplane x = 0. */
export const mirrorX = (a: Vec3): Vec3 => [-a[0], a[1], a[2]]
