import { limbOf } from '../../document/contacts'
import type { Take } from '../../document/plan'
import type { FrameSpan } from '../../plan/edit/retime'
import { type LiftPace, paceAtLift } from '../../shift/capture'
import { ADMISSIBLE_PUSH } from '../../shift/constants'
import type { DynamicFrame } from '../../weigh/dynamic'

/** The last frame in a span at which the mover touches before it is off; null where it doesn't leave in it. */
export function liftIn(take: Take, { from, to }: FrameSpan): number | null {
  const own = take.contacts.filter(({ part }) => limbOf(part) === take.mover.limb)
  const touches = (frame: number) => own.some((span) => span.from <= frame && frame <= span.to)
  for (let frame = from; frame < to; frame++) if (touches(frame) && !touches(frame + 1)) return frame
  return null
}

/** How the body is at that lift; null while it is not weighed. */
export function liftPace(
  take: Take,
  span: FrameSpan,
  frames: ReadonlyMap<number, DynamicFrame>,
): (LiftPace & { readonly frame: number }) | null {
  const frame = liftIn(take, span)
  const lift = frame === null ? undefined : frames.get(frame)
  if (frame === null || !lift?.verdict) return null
  let admissible = true
  for (let f = span.from; f <= span.to; f++)
    if ((frames.get(f)?.weighing.push.size ?? 0) > ADMISSIBLE_PUSH) admissible = false
  return { ...paceAtLift(lift, admissible), frame }
}
