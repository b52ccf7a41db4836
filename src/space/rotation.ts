import { dot, norm, SHORT, UP, unit, type Vec3 } from './vec'

/**
 * Rotations as 3 × 3 matrices, row by row, that take local vectors to world vectors (v_world = R v_local).
 * Angles are radians. The order of the product is turn · list · tilt, R = Ry·Rz·Rx:
 * turn > 0 turns the front to the body's left, list > 0 raises the body's left side,
 * tilt > 0 tips the top forward. Singular only at list = ±90°, lying on the side.
 */
export type Mat3 = readonly [number, number, number, number, number, number, number, number, number]

export interface Angles {
  readonly turn: number
  readonly list: number
  readonly tilt: number
}

export const IDENTITY: Mat3 = [1, 0, 0, 0, 1, 0, 0, 0, 1]

/** The matrix of turn · list · tilt. */
export function fromAngles({ turn, list, tilt }: Angles): Mat3 {
  const cy = Math.cos(turn)
  const sy = Math.sin(turn)
  const cz = Math.cos(list)
  const sz = Math.sin(list)
  const cx = Math.cos(tilt)
  const sx = Math.sin(tilt)
  return [
    cy * cz,
    sy * sx - cy * sz * cx,
    sy * cx + cy * sz * sx,
    sz,
    cz * cx,
    -cz * sx,
    -sy * cz,
    cy * sx + sy * sz * cx,
    cy * cx - sy * sz * sx,
  ]
}

/** The turn, list and tilt of a rotation; at list = ±90° the tilt is taken as 0. */
export function toAngles(r: Mat3): Angles {
  const list = Math.asin(Math.max(-1, Math.min(1, r[3])))
  if (Math.abs(r[3]) > 1 - 1e-12) return { turn: Math.atan2(r[2], r[8]), list, tilt: 0 }
  return { turn: Math.atan2(-r[6], r[0]), list, tilt: Math.atan2(-r[5], r[4]) }
}

export const apply = (r: Mat3, v: Vec3): Vec3 => [
  r[0] * v[0] + r[1] * v[1] + r[2] * v[2],
  r[3] * v[0] + r[4] * v[1] + r[5] * v[2],
  r[6] * v[0] + r[7] * v[1] + r[8] * v[2],
]

/** The product a·b: first b, then a. Written out: poses are made of these. */
export const multiply = (a: Mat3, b: Mat3): Mat3 => [
  a[0] * b[0] + a[1] * b[3] + a[2] * b[6],
  a[0] * b[1] + a[1] * b[4] + a[2] * b[7],
  a[0] * b[2] + a[1] * b[5] + a[2] * b[8],
  a[3] * b[0] + a[4] * b[3] + a[5] * b[6],
  a[3] * b[1] + a[4] * b[4] + a[5] * b[7],
  a[3] * b[2] + a[4] * b[5] + a[5] * b[8],
  a[6] * b[0] + a[7] * b[3] + a[8] * b[6],
  a[6] * b[1] + a[7] * b[4] + a[8] * b[7],
  a[6] * b[2] + a[7] * b[5] + a[8] * b[8],
]

export const transpose = (r: Mat3): Mat3 => [r[0], r[3], r[6], r[1], r[4], r[7], r[2], r[5], r[8]]

/** A turn by `angle` about the unit vector `axis`, right-handed (Rodrigues' formula). */
export function aboutAxis(axis: Vec3, angle: number): Mat3 {
  const [x, y, z] = axis
  const c = Math.cos(angle)
  const s = Math.sin(angle)
  const k = 1 - c
  return [
    c + x * x * k,
    x * y * k - z * s,
    x * z * k + y * s,
    x * y * k + z * s,
    c + y * y * k,
    y * z * k - x * s,
    x * z * k - y * s,
    y * z * k + x * s,
    c + z * z * k,
  ]
}

/** The angle, 0 … π, and the unit axis of a rotation. */
export function toAxisAngle(r: Mat3): { axis: Vec3; angle: number } {
  const w: Vec3 = [r[7] - r[5], r[2] - r[6], r[3] - r[1]]
  const sine = norm(w) / 2
  const cosine = (r[0] + r[4] + r[8] - 1) / 2
  const angle = Math.atan2(sine, cosine)
  if (sine > 1e-9) return { axis: unit(w), angle }
  if (cosine > 0) return { axis: [1, 0, 0], angle: 0 }
  // Half a turn: the axis is the column of R + I that is longest.
  const columns: Vec3[] = [
    [r[0] + 1, r[3], r[6]],
    [r[1], r[4] + 1, r[7]],
    [r[2], r[5], r[8] + 1],
  ]
  const longest = columns.reduce((a, b) => (dot(b, b) > dot(a, a) ? b : a))
  return { axis: unit(longest), angle: Math.PI }
}

/** The rotation that goes the fraction t of the way of `r` about the axis of `r`. */
export function fraction(r: Mat3, t: number): Mat3 {
  const { axis, angle } = toAxisAngle(r)
  return aboutAxis(axis, angle * t)
}

/** The frame whose +Y is `y` and whose +Z lies as near to `z` as that allows. */
export function frameFromYZ(y: Vec3, z: Vec3): Mat3 {
  const long = norm(y)
  if (long < SHORT) return squareTo(UP, z)
  return squareTo([y[0] / long, y[1] / long, y[2] / long], z)
}

/** In plain numbers: poses are made of these, and short-lived vectors cost more than the sums. */
function squareTo(v: Vec3, z: Vec3): Mat3 {
  const [vx, vy, vz] = v
  const k = z[0] * vx + z[1] * vy + z[2] * vz
  const x = z[0] - k * vx
  const y = z[1] - k * vy
  const w = z[2] - k * vz
  const n = Math.sqrt(x * x + y * y + w * w)
  if (n < SHORT) return squareTo(v, Math.abs(vz) < 0.9 ? [0, 0, 1] : [0, -1, 0])
  const [wx, wy, wz] = [x / n, y / n, w / n]
  return [vy * wz - vz * wy, vx, wx, vz * wx - vx * wz, vy, wy, vx * wy - vy * wx, vz, wz]
}

/** The mirror image of a rotation in the midplane x = 0: turn and list change sign. */
export const mirrorRotation = (r: Mat3): Mat3 => [r[0], -r[1], -r[2], -r[3], r[4], r[5], -r[6], r[7], r[8]]
