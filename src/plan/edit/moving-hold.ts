import { CHANNELS, type Controls } from '../../document/channels'
import type { Plan } from '../../document/plan'
import { HOLD_DRIFT } from '../constants'
import { controlsAtKey, keyPosesOf } from '../key-poses'
import { oneOf } from './change'
import { setControls, setEase } from './keys'
import type { FrameSpan } from './retime'

/**
 * Lets a hold move: its second key goes a little on the way by which the body came into it, or, where it comes from
 * nowhere, a little on the way that follows. Pelvis, chest, head and arms drift; the legs stay. The same plan where
 * the span isn't one from key pose to key pose, or nothing comes before and nothing after.
 */
export function movingHold(plan: Plan, takeId: string, { from, to }: FrameSpan): Plan {
  const take = oneOf(plan.takes, takeId)
  const keys = keyPosesOf(take)
  const [before, after] = [keys.findLast((key) => key < from), keys.find((key) => key > to)]
  const [start, end] = before === undefined ? [to, after] : [before, from]
  const held = controlsAtKey(take, from)
  const [a, b] = [controlsAtKey(take, start), end === undefined ? undefined : controlsAtKey(take, end)]
  if (!held || !a || !b || !keys.includes(to)) return plan
  const drifting = CHANNELS.filter((id) => !id.startsWith('leg') && b[id] !== a[id])
  const values = Object.fromEntries(drifting.map((id) => [id, held[id] + HOLD_DRIFT * (b[id] - a[id])]))
  // It comes to rest in the hold's own drift, not in its first frame.
  const eased = setEase(plan, takeId, from, { out: 0 }, drifting)
  return setControls(eased, takeId, to, values as Partial<Controls>)
}
