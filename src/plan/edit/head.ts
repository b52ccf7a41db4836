import type { BodySpec } from '../../body/spec'
import { BODY_LIMITS } from '../../body/spec'
import type { ContactKind } from '../../document/contacts'
import { LIMITS } from '../../document/limits'
import type { Camera, Plan } from '../../document/plan'
import { distance } from '../../space/vec'
import { BODY_FORM, CAMERA_FORM, HEADER_FORM, type Header, STIFFNESS_FORM } from '../plan-form'
import { clamp, withinLimits } from '../within-limits'
import { patch } from './change'

/**
 * Changes what stands at the head of the sheet: title, character, rate, first frame, gravity, scene.
 * Frames keep their numbers when the rate changes, so the take gets shorter or longer in seconds.
 */
export function setHeader(plan: Plan, changes: Partial<Header>): Plan {
  const { title, character, rate, firstFrame, gravity, scene } = plan
  const before: Header = { title, character, rate, firstFrame, gravity, scene }
  const after = withinLimits(HEADER_FORM, { ...before, ...changes })
  const [least, most] = LIMITS.rate
  const perSecond = after.rate.num / after.rate.den
  return patch(plan, perSecond < least || perSecond > most ? { ...after, rate } : after)
}

/** Gives the plan another body. Poses and places stay: what the body cannot reach, its limbs will say. */
export const setBody = (plan: Plan, body: BodySpec): Plan => {
  const fitted = withinLimits(BODY_FORM, body)
  const width = [BODY_LIMITS.width[0] * fitted.stature, BODY_LIMITS.width[1] * fitted.stature] as const
  return patch(plan, {
    body: patch(plan.body, {
      ...fitted,
      hipWidth: clamp(fitted.hipWidth, width),
      shoulderWidth: clamp(fitted.shoulderWidth, width),
    }),
  })
}

/** Sets the shot's camera; null takes it away. Nothing changes where it would stand at its aim. */
export function setCamera(plan: Plan, camera: Camera | null): Plan {
  const fitted = withinLimits(CAMERA_FORM, camera)
  return patch(plan, fitted === null || hasAim(fitted) ? { camera: fitted } : {})
}

/** Whether a camera stands far enough from its aim to look anywhere. */
export const hasAim = ({ position, aim }: Camera): boolean => distance(position, aim) >= LIMITS.aimAway

/**
 * Sets how stiff a kind of pad is.
 * @param stiffness on the default table's scale, where a kneecap has 1; undefined goes back to the table's
 */
export function setStiffness(plan: Plan, kind: ContactKind, stiffness: number | undefined): Plan {
  const { [kind]: _, ...others } = plan.stiffness
  const changed = stiffness === undefined ? others : { ...others, [kind]: stiffness }
  return patch(plan, { stiffness: withinLimits(STIFFNESS_FORM, changed) })
}
