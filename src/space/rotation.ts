import { cross, dot, reject, unit, type Vec3 } from './vec'

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

/** The product a·b: first b, then a. */
export function multiply(a: Mat3, b: Mat3): Mat3 {
  const out: number[] = []
  for (let i = 0; i < 9; i += 3)
    for (let j = 0; j < 3; j++)
      out.push(
        (a[i] as number) * (b[j] as number) +
          (a[i + 1] as number) * (b[j + 3] as number) +
          (a[i + 2] as number) * (b[j + 6] as number),
      )
  return out as unknown as Mat3
}

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
  const sine = Math.hypot(...w) / 2
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
  const v = unit(y)
  const spare: Vec3 = Math.abs(v[2]) < 0.9 ? [0, 0, 1] : [0, -1, 0]
  const w = unit(reject(z, v), unit(reject(spare, v)))
  const u = cross(v, w)
  return [u[0], v[0], w[0], u[1], v[1], w[1], u[2], v[2], w[2]]
}

/** The mirror image of a rotation in the midplane x = 0: turn and list change sign. */
export const mirrorRotation = (r: Mat3): Mat3 => [r[0], -r[1], -r[2], -r[3], r[4], r[5], -r[6], r[7], r[8]]
