import { type BodyModel, SEGMENTS } from '../body/model'
import type { CarriedLoad } from '../document/plan'
import { loadPlace } from '../pose/mass'
import type { ReachedPose } from '../pose/types'
import { apply, transpose } from '../space/rotation'
import { cross, dot, sub, type Vec3 } from '../space/vec'
import type { TippingAxis } from './axis'

/**
 * The slice square to a tipping axis, in which the frozen pose is one rigid body: only the part of gravity
 * that lies in it turns the body, g·|u_horizontal| for an axis along the unit vector u.
 */
export function sliceAt(axis: TippingAxis, frozen: FrozenPose, gravity: number): Slice {
  const { direction: u, outward, point } = axis
  const up = cross(outward, u)
  const offset = sub(frozen.pose.com, point)
  return {
    stature: frozen.body.stature,
    mass: frozen.pose.mass,
    gravity: gravity * Math.hypot(u[0], u[2]),
    com: [dot(offset, outward), dot(offset, up)],
    inertia: inertiaAlong(frozen, u),
  }
}

/** A pose that keeps its shape, with what it carries. */
export interface FrozenPose {
  readonly body: BodyModel
  readonly pose: ReachedPose
  /** Those carried at this frame. */
  readonly loads: readonly CarriedLoad[]
}

export interface Slice {
  /** m, the scale of lengths. */
  readonly stature: number
  /** kg */
  readonly mass: number
  /** In the slice, m/s². */
  readonly gravity: number
  /** Centre of mass from the axis: outward, and against the slice's gravity, m. */
  readonly com: readonly [number, number]
  /** About the centre of mass, square to the slice, kg m². */
  readonly inertia: number
}

/**
 * uᵀ I u of a frozen pose about its centre of mass, kg m²: every segment's own inertia, turned as the
 * segment is, and m r² of its distance r from the line through the centre of mass. Carried loads are points.
 * @param u unit vector
 */
function inertiaAlong({ body, pose, loads }: FrozenPose, u: Vec3): number {
  let inertia = 0
  const add = (mass: number, at: Vec3) => {
    const across = cross(sub(at, pose.com), u)
    inertia += mass * dot(across, across)
  }
  for (const id of SEGMENTS) {
    const { mass, inertia: own } = body.segments[id]
    const { rotation, com } = pose.segments[id]
    const [x, y, z] = apply(transpose(rotation), u)
    inertia += own[0] * x * x + own[1] * y * y + own[2] * z * z
    add(mass, com)
  }
  for (const load of loads) add(load.mass, loadPlace(load, pose.joints, pose.segments))
  return inertia
}
