import type { Controls } from '../../document/channels'
import { CHANNELS } from '../../document/channels'
import type { Plan, Take } from '../../document/plan'
import { oneOf } from '../../plan/edit/change'
import { setControls } from '../../plan/edit/keys'
import type { FrameSpan } from '../../plan/edit/retime'
import { keyPosesOf } from '../../plan/key-poses'
import { channelAt } from '../../pose/curve'
import type { DynamicFrame } from '../../weigh/dynamic'
import { liftIn } from './lift'

/** What a lean needs and what it uses: the way of the weight from the span's start to the lift, m. */
export interface LeanUse {
  /** Where the span starts, the key pose in which the lean is greatest before the lift, and the lift. */
  readonly start: number
  readonly key: number
  readonly lift: number
  readonly needed: number
  /** Along the needed way. */
  readonly used: number
}

/**
 * How far the weight has to go before the mover leaves, from the key pose at which it still stood, and how far it
 * goes. Null where nothing leaves in the span, where nothing is needed, or while it is not weighed.
 */
export function leanUse(
  take: Take,
  span: FrameSpan,
  frames: ReadonlyMap<number, DynamicFrame>,
): LeanUse | null {
  const lift = liftIn(take, span)
  if (lift === null) return null
  const keys = keyPosesOf(take).filter((key) => key <= lift)
  const key = keys.at(-1)
  const start = keys.findLast((frame) => (frames.get(frame)?.verdict?.still.empty?.distance ?? 0) > 0)
  if (key === undefined || start === undefined || start === key) return null
  const [before, at] = [frames.get(start), frames.get(lift)]
  const empty = before?.verdict?.still.empty
  if (!before || !at || !empty) return null
  const [x, z] = empty.move
  const gone = [at.body.com[0] - before.body.com[0], at.body.com[2] - before.body.com[2]] as const
  const used = (gone[0] * x + gone[1] * z) / empty.distance
  return used > 0 ? { start, key, lift, needed: empty.distance, used } : null
}

/**
 * The plan with the lean at its key pose scaled so that the weight goes `push` times what it needs: pelvis and
 * chest go further, or less far, from the start of the lean by one factor.
 * @param push 1 … 2
 */
export function pushLean(plan: Plan, takeId: string, use: LeanUse, push: number): Plan {
  const take = oneOf(plan.takes, takeId)
  const factor = (push * use.needed) / use.used
  const values: Partial<Record<keyof Controls, number>> = {}
  for (const id of CHANNELS) {
    if (!LEANS.test(id)) continue
    const [from, to] = [channelAt(take.channels[id], use.start), channelAt(take.channels[id], use.key)]
    values[id] = from + (to - from) * factor
  }
  return setControls(plan, takeId, use.key, values)
}

/** What a lean is made of, its drop included. */
const LEANS = /^(pelvis\.(x|y|z|list|tilt)|chest\.(list|tilt))$/
