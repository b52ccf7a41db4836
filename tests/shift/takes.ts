import { makeBody, type Side } from '../../src/body/model'
import type { ChannelId, Controls } from '../../src/document/channels'
import { sideOf } from '../../src/document/contacts'
import type { Take } from '../../src/document/plan'
import { setControls } from '../../src/plan/edit/keys'
import { makeMotion } from '../../src/pose/between'
import type { StanceId } from '../../src/pose/stances'
import { between } from '../../src/space/random'
import type { MotionProblem } from '../../src/weigh/dynamic'
import { stancePlan } from '../support/plans'

/** Still frames before and after the change. */
export const STILL_BEFORE = 4

export type Change = Partial<Record<ChannelId, number>>

/** From a stance to a changed pose and rest there, in so many frames; all contacts stay, or one side's slide. */
export function twoKeys(
  stance: StanceId,
  change: Change,
  frames: number,
  { slides }: { readonly slides?: Side } = {},
): MotionProblem {
  const start = stancePlan(stance)
  const length = frames + 2 * STILL_BEFORE + 1
  const one = start.takes[0] as Take
  const contacts = one.contacts.map((span) => {
    const state = sideOf(span.part) === slides ? ('sliding' as const) : span.state
    return { ...span, from: 0, to: length - 1, state }
  })
  let plan = { ...start, takes: [{ ...one, length, contacts }] }
  const body = makeBody(plan.body)
  const first = makeMotion(body, plan.takes[0] as Take).askedAt(0)
  const changed = { ...first }
  for (const [id, by] of Object.entries(change)) changed[id as ChannelId] += by
  plan = setControls(plan, one.id, STILL_BEFORE, first) as typeof plan
  plan = setControls(plan, one.id, STILL_BEFORE + frames, changed as Controls) as typeof plan
  const take = plan.takes[0] as Take
  return { body, ground: plan.ground, gravity: plan.gravity, take, motion: makeMotion(body, take), fps: 24 }
}

/** A change of pelvis and trunk by up to `size` of what such a body would do in earnest. */
export function anyChange(next: () => number, size: number): Change {
  const by = (most: number) => between(next, -most, most) * size
  return {
    'pelvis.x': by(0.16),
    'pelvis.y': by(0.05),
    'pelvis.z': by(0.1),
    'pelvis.turn': by(0.2),
    'pelvis.tilt': by(0.2),
    'chest.turn': by(0.5),
    'chest.list': by(0.3),
    'chest.tilt': by(0.4),
    'head.turn': by(0.6),
  }
}

/** Whether every pose of a take is reached as it is asked, but for a rounding: no limb at its limit. */
export function reachable({ motion, take }: MotionProblem): boolean {
  return Array.from({ length: take.length }, (_, frame) => motion.poseAt(frame)).every(({ limits }) =>
    limits.every(({ code }) => code !== 'arm-straight' && code !== 'leg-straight' && code !== 'apart'),
  )
}
