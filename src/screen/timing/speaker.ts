import { centimetres } from '../../sheet/format'
import { headingOf } from '../../sheet/measures'
import type { MotionSpeaker } from '../../sheet/motion-words'
import type { Desk } from '../desk.svelte'

/** What sentences about the desk's moving body need to know of it. */
export const speakerOf = ({ plan, take, body, pose }: Desk): MotionSpeaker => ({
  firstFrame: plan.firstFrame,
  contacts: take.contacts,
  mass: pose.mass,
  unit: centimetres(body.stature),
  heading: headingOf(pose),
})
