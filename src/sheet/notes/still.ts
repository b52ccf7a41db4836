import { contactOf } from '../../weigh/pose'
import type { Weighing } from '../../weigh/types'
import { weigh } from '../../weigh/weigh'
import type { Measured } from './types'

/**
 * A drawn frame weighed as if it were held still, without ranges; null where nothing touches. Several rules ask:
 * each frame is weighed once.
 */
export function stillOf(measured: Measured, i: number): Weighing | null {
  let known = stills.get(measured)
  if (known === undefined) {
    known = []
    stills.set(measured, known)
  }
  const found = known[i]
  if (found !== undefined) return found
  const made = weighStill(measured, i)
  known[i] = made
  return made
}

const stills = new WeakMap<Measured, (Weighing | null | undefined)[]>()

function weighStill({ plan, poses, stature }: Measured, i: number): Weighing | null {
  const pose = poses[i]
  if (!pose || pose.pads.length === 0) return null
  const body = { mass: pose.mass, com: pose.com, stature, gravity: plan.gravity }
  return weigh(
    pose.pads.map((pad) => contactOf(plan.ground, pad, plan.stiffness)),
    body,
    { ranges: false },
  )
}
