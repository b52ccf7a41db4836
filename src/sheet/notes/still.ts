import { contactOf } from '../../weigh/pose'
import type { Weighing } from '../../weigh/types'
import { weigh } from '../../weigh/weigh'
import type { Measured } from './types'

/** A drawn frame weighed as if it were held still, without ranges; null where nothing touches. */
export function stillOf({ plan, poses, stature }: Measured, i: number): Weighing | null {
  const pose = poses[i]
  if (!pose || pose.pads.length === 0) return null
  const body = { mass: pose.mass, com: pose.com, stature, gravity: plan.gravity }
  return weigh(
    pose.pads.map((pad) => contactOf(plan.ground, pad, plan.stiffness)),
    body,
    { ranges: false },
  )
}
