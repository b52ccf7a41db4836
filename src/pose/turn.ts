import { aboutAxis, apply, multiply } from '../space/rotation'
import { add, sub, type Vec3 } from '../space/vec'
import { changedPose } from './changed'
import type { JointId, Placement, ReachedPose } from './types'

/**
 * A pose turned as one rigid body about an axis: joints, segments and centre of mass. What it stands on
 * stays, so its pads do, and so do the controls it was reached from.
 * @param point on the axis, world, m
 * @param axis unit vector, world
 * @param angle rad, right-handed
 */
export function turnPose(pose: ReachedPose, point: Vec3, axis: Vec3, angle: number): ReachedPose {
  const turn = aboutAxis(axis, angle)
  const moved = (p: Vec3) => add(point, apply(turn, sub(p, point)))
  const placed = ({ rotation, origin, com }: Placement): Placement => ({
    rotation: multiply(turn, rotation),
    origin: moved(origin),
    com: moved(com),
  })
  return changedPose(pose, {
    joints: mapValues(pose.joints, moved) as Record<JointId, Vec3>,
    segments: mapValues(pose.segments, placed),
    com: moved(pose.com),
  })
}

const mapValues = <K extends string, A, B>(
  record: Readonly<Record<K, A>>,
  f: (value: A) => B,
): Record<K, B> =>
  Object.fromEntries(Object.entries(record).map(([key, value]) => [key, f(value as A)])) as Record<K, B>
