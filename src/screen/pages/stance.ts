import { CHANNELS } from '../../document/channels'
import { CONTACT_PARTS } from '../../document/contacts'
import type { Plan } from '../../document/plan'
import { addContact, liftPart } from '../../plan/edit/contacts'
import { deleteKeys, setControls } from '../../plan/edit/keys'
import { keyedFramesOf } from '../../plan/key-poses'
import type { Stance } from '../../pose/stances'

/**
 * The plan whose take is in a stance from a frame to its end: the frame is a key pose, its contacts hold to
 * the last frame, and the keys after it are gone.
 */
export function withStance(plan: Plan, takeId: string, frame: number, stance: Stance): Plan {
  const take = plan.takes.find(({ id }) => id === takeId)
  if (take === undefined) return plan
  const end = take.length - 1
  const posed = setControls(plan, takeId, frame, stance.controls)
  const later = keyedFramesOf(take).filter((keyed) => keyed.frame > frame)
  const stopped = later.reduce((made, keyed) => deleteKeys(made, takeId, keyed.frame, CHANNELS), posed)
  const freed = CONTACT_PARTS.reduce((made, part) => liftPart(made, takeId, part, frame, end), stopped)
  return stance.contacts.reduce((made, { id: _, ...contact }) => {
    return addContact(made, takeId, { ...contact, from: frame, to: end })
  }, freed)
}
