import {
  BALL_HALF_LENGTH,
  FIST_HALF_LENGTH,
  FOOT_BREADTH,
  HAND_HALF_BREADTH,
  INSTEP_HALF_LENGTH,
  KNEECAP_RADIUS,
  PALM_HALF_LENGTH,
  SOLE_HALF_LENGTH,
  TOES_HALF_LENGTH,
} from '../body/constants'
import type { BodyModel, Side } from '../body/model'
import type { ContactKind } from '../document/contacts'
import { cross, reject, UP, unit, type Vec3 } from '../space/vec'

/**
 * The outline of a pad on its surface: eight corners in order, world, m.
 * @param centre middle of the pad on the surface
 * @param heading see `along`
 */
export function padOutline(
  body: BodyModel,
  kind: ContactKind,
  side: Side,
  centre: Vec3,
  heading: number,
  normal: Vec3,
): Vec3[] {
  const { ahead, left } = along(normal, heading)
  const { halfLength, halfBreadth, outline } = padSize(body, kind, side)
  return outline.map(([u, v]): Vec3 => {
    const [l, a] = [u * halfBreadth, v * halfLength]
    return [
      centre[0] + l * left[0] + a * ahead[0],
      centre[1] + l * left[1] + a * ahead[1],
      centre[2] + l * left[2] + a * ahead[2],
    ]
  })
}

/**
 * The two level directions of a pad: where its heading points, and the one to the left of that.
 * Heading 0 is world +Z on the ground and on tops, and up on the side of a box; it turns about the
 * outward normal, to the body's left > 0.
 */
export function along(normal: Vec3, heading: number): { ahead: Vec3; left: Vec3 } {
  const zero = unit(reject(Math.abs(normal[1]) > 0.9 ? FORWARD : UP, normal))
  const left = cross(normal, zero)
  const [c, s] = [Math.cos(heading), Math.sin(heading)]
  const ahead: Vec3 = [c * zero[0] + s * left[0], c * zero[1] + s * left[1], c * zero[2] + s * left[2]]
  return { ahead, left: cross(normal, ahead) }
}

const FORWARD: Vec3 = [0, 0, 1]

/** The heading on a surface that points nearest to a world direction. */
export function headingOf(normal: Vec3, direction: Vec3): number {
  const { ahead, left } = along(normal, 0)
  const flat = reject(direction, normal)
  return Math.atan2(
    flat[0] * left[0] + flat[1] * left[1] + flat[2] * left[2],
    flat[0] * ahead[0] + flat[1] * ahead[1] + flat[2] * ahead[2],
  )
}

interface PadSize {
  readonly halfLength: number
  readonly halfBreadth: number
  /** Corners in order, left of the heading and along it, each −1 … 1. */
  readonly outline: readonly (readonly [number, number])[]
}

const ROUND: PadSize['outline'] = Array.from({ length: 8 }, (_, i) => {
  const angle = ((i + 0.5) * Math.PI) / 4
  return [Math.cos(angle), Math.sin(angle)] as const
})
/** Heel narrow, ball broad, toes rounded; the same on both sides, so that a mirrored foot is the same foot. */
const SOLE: PadSize['outline'] = [
  [0.45, -1],
  [0.66, -0.7],
  [1, 0.45],
  [0.75, 1],
  [-0.75, 1],
  [-1, 0.45],
  [-0.66, -0.7],
  [-0.45, -1],
]

/** Half length along the heading, half breadth across it, m. */
export function padSize(body: BodyModel, kind: ContactKind, side: Side): PadSize {
  const foot = body.lengths.foot
  const footBreadth = (foot * FOOT_BREADTH) / 2
  const hand = body.lengths.hand
  const handBreadth = body.segments[`hand${side}`].spread[0] * HAND_HALF_BREADTH
  switch (kind) {
    case 'kneecap': {
      const radius = 2 * body.segments[`shank${side}`].spread[0] * KNEECAP_RADIUS
      return { halfLength: radius, halfBreadth: radius, outline: ROUND }
    }
    case 'sole':
      return { halfLength: foot * SOLE_HALF_LENGTH, halfBreadth: footBreadth, outline: SOLE }
    case 'ball':
      return { halfLength: foot * BALL_HALF_LENGTH, halfBreadth: footBreadth, outline: ROUND }
    case 'toes':
      return { halfLength: foot * TOES_HALF_LENGTH, halfBreadth: footBreadth, outline: ROUND }
    case 'instep':
      return {
        halfLength: foot * INSTEP_HALF_LENGTH,
        halfBreadth: footBreadth * 0.8,
        outline: ROUND,
      }
    case 'palm':
      return { halfLength: hand * PALM_HALF_LENGTH, halfBreadth: handBreadth, outline: ROUND }
    case 'fist':
      return { halfLength: hand * FIST_HALF_LENGTH, halfBreadth: handBreadth, outline: ROUND }
  }
}
