import type { BodySpec } from '../../body/spec'
import { BODY_LIMITS } from '../../body/spec'
import { LIMITS } from '../../document/limits'
import type { Plan } from '../../document/plan'
import { BODY_FORM, HEADER_FORM, type Header } from '../plan-form'
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
