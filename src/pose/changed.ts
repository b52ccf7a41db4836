import type { ReachedPose } from './types'

/**
 * A pose with some of its parts replaced. Not by `{ ...pose }`: a reached pose makes some of its parts only when
 * they are asked for, and copying its own fields alone would leave those out.
 */
export const changedPose = (pose: ReachedPose, changes: Partial<ReachedPose>): ReachedPose => ({
  asked: pose.asked,
  reached: pose.reached,
  joints: pose.joints,
  segments: pose.segments,
  pads: pose.pads,
  com: pose.com,
  mass: pose.mass,
  limits: pose.limits,
  ...changes,
})
