import type { BodyModel, SegmentId, Side } from '../body/model'
import type { LimbId } from '../document/contacts'
import type { Placement } from '../pose/types'
import { apply, type Mat3 } from '../space/rotation'
import { add, type Vec3 } from '../space/vec'

/** A limb, or the trunk, or the head (its neck included). */
export type BodyPart = LimbId | 'trunk' | 'head'

export interface Volume {
  readonly name: string
  readonly part: BodyPart
  /** Middle volumes are toned on both sides of the body's midplane. */
  readonly side: Side | 'M'
  /** x, y, z, r of each sphere, flat, m. */
  readonly spheres: readonly number[]
  /** Volumes it grows out of or into: no outline is drawn inside them at the same depth. */
  readonly joins: readonly string[]
  /** How the part of the outline that lies inside a join is drawn. */
  readonly seam: 'none' | 'soft'
  /** For middle volumes: the frame whose x is the midplane's normal. */
  readonly frame?: Mat3
  /** So many of the first spheres sit in the joint: their outline is left out inside a join at any depth. */
  readonly root: number
  /** For ridges of the face: inside a join only the edge on this side is drawn, a direction in the world. */
  readonly pull?: Vec3
  /** Added to the depth by which volumes are sorted, m: > 0 is drawn later. */
  readonly bias: number
  /** Line width over the body's own. */
  readonly pen: number
}

export interface VolumeOptions {
  readonly joins?: readonly string[]
  readonly seam?: 'none' | 'soft'
  readonly frame?: Mat3
  readonly root?: number
  readonly pull?: Vec3
  readonly bias?: number
  readonly pen?: number
}

export function volume(
  name: string,
  part: BodyPart,
  side: Side | 'M',
  spheres: readonly (readonly [Vec3, number])[],
  { joins = [], seam = 'none', root = 0, bias = 0, pen = 1, ...given }: VolumeOptions = {},
): Volume {
  const flat: number[] = []
  for (const [c, r] of spheres) flat.push(c[0], c[1], c[2], r)
  return { name, part, side, spheres: flat, joins, seam, root, bias, pen, ...given }
}

/** A place in a segment's own frame, in the world. */
export const placed = ({ origin, rotation }: Placement, local: Vec3): Vec3 =>
  add(origin, apply(rotation, local))

/** Half breadth and half depth of a segment, m. */
export const halves = (body: BodyModel, id: SegmentId) => {
  const [x, , z] = body.segments[id].spread
  return { x: 2 * x, z: 2 * z }
}

/** Two spheres at x and −x of a segment's frame. */
export const pair = (
  at: Placement,
  x: number,
  y: number,
  z: number,
  r: number,
): (readonly [Vec3, number])[] => [
  [placed(at, [x, y, z]), r],
  [placed(at, [-x, y, z]), r],
]

/** +1 to the body's left, −1 to its right. */
export const out = (side: Side) => (side === 'L' ? 1 : -1)
export const mean = ({ x, z }: { x: number; z: number }) => (x + z) / 2
export const axisX = (r: Mat3): Vec3 => [r[0], r[3], r[6]]
export const axisY = (r: Mat3): Vec3 => [r[1], r[4], r[7]]
export const axisZ = (r: Mat3): Vec3 => [r[2], r[5], r[8]]
