import { resized } from '../../body/builds'
import { BODY_LIMITS } from '../../body/spec'
import { CHANNELS, isAngle } from '../../document/channels'
import type { Plan, Take } from '../../document/plan'
import { scale } from '../../space/vec'
import { PLAN_FORM } from '../plan-form'
import { clamp, withinLimits } from '../within-limits'
import { changeChannels } from './keys'

/**
 * The same plan for the same build at another stature: every place, box and offset grows with the body, so
 * that each pose stays the same drawing; mass goes with the cube, carried loads too, frames stay.
 * @param stature m, brought within BODY_LIMITS
 */
export function resizePlan(plan: Plan, stature: number): Plan {
  const s = clamp(stature, BODY_LIMITS.stature) / plan.body.stature
  if (s === 1) return plan
  return withinLimits(PLAN_FORM, {
    ...plan,
    body: resized(plan.body, plan.body.stature * s),
    scene: { ...plan.scene, root: scale(plan.scene.root, s) },
    ground: {
      ...plan.ground,
      boxes: plan.ground.boxes.map((box) => ({
        ...box,
        position: scale(box.position, s),
        size: scale(box.size, s),
      })),
    },
    takes: plan.takes.map((take) => resizedTake(take, s)),
  })
}

function resizedTake(take: Take, s: number): Take {
  const places = CHANNELS.filter((channel) => !isAngle(channel))
  return {
    ...changeChannels(take, places, (keys) => keys.map((key) => ({ ...key, value: key.value * s }))),
    contacts: take.contacts.map((span) => ({ ...span, position: scale(span.position, s) })),
    loads: take.loads.map((load) => ({
      ...load,
      mass: load.mass * s ** 3,
      offset: scale(load.offset, s),
    })),
  }
}
