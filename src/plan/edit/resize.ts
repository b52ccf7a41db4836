import { resized } from '../../body/builds'
import { BODY_LIMITS } from '../../body/spec'
import { CHANNELS, isAngle } from '../../document/channels'
import type { Camera, Plan, Take } from '../../document/plan'
import { scale } from '../../space/vec'
import { PLAN_FORM } from '../plan-form'
import { clamp, withinLimits } from '../within-limits'
import { hasAim } from './head'
import { changeChannels } from './keys'

/**
 * The same plan for the same build at another stature: every place, box, arc and offset grows with the body,
 * the camera moves away from it, so that each pose stays the same drawing; mass goes with the cube, carried loads too, frames stay.
 * @param stature m, brought within BODY_LIMITS
 */
export function resizePlan(plan: Plan, stature: number): Plan {
  const s = clamp(stature, BODY_LIMITS.stature) / plan.body.stature
  if (s === 1) return plan
  const fitted = withinLimits(PLAN_FORM, {
    ...plan,
    body: resized(plan.body, plan.body.stature * s),
    scene: { ...plan.scene, root: scale(plan.scene.root, s) },
    camera: plan.camera && resizedCamera(plan.camera, s),
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
  // Far from the body the limits of places may bring a camera and its aim together.
  return fitted.camera !== null && !hasAim(fitted.camera) ? { ...fitted, camera: null } : fitted
}

const resizedCamera = (camera: Camera, s: number): Camera => ({
  ...camera,
  position: scale(camera.position, s),
  aim: scale(camera.aim, s),
})

function resizedTake(take: Take, s: number): Take {
  const places = CHANNELS.filter((channel) => !isAngle(channel))
  return {
    ...changeChannels(take, places, (keys) => keys.map((key) => ({ ...key, value: key.value * s }))),
    contacts: take.contacts.map((span) => ({ ...span, position: scale(span.position, s) })),
    arcs: take.arcs.map((arc) => ({ ...arc, height: arc.height * s, side: arc.side * s })),
    loads: take.loads.map((load) => ({
      ...load,
      mass: load.mass * s ** 3,
      offset: scale(load.offset, s),
    })),
  }
}
