import { makeBody } from '../../body/model'
import { CHANNELS, type ChannelId, type Controls } from '../../document/channels'
import type { ContactPart, LimbId } from '../../document/contacts'
import type { Plan, Take } from '../../document/plan'
import { oneOf } from '../../plan/edit/change'
import { insertFrames } from '../../plan/edit/frames'
import { deleteKeys, moveKeys, setControls } from '../../plan/edit/keys'
import { keyedFramesOf } from '../../plan/key-poses'
import { contactsAt, loadsAt, type Motion, makeMotion } from '../../pose/between'
import { channelAt } from '../../pose/curve'
import type { ReachedPose } from '../../pose/types'
import { LEAN } from '../../weigh/constants'
import { findLeans } from '../../weigh/lean'
import { inset, nearestIn, roomIn } from '../../weigh/polygon'
import { weighPose } from '../../weigh/pose'

/*
 * The edits that remedies are made of. All of them take a plan and give a plan, and find what they change
 * anew in the plan they are given.
 */

export type Fix = (plan: Plan, takeId: string) => Plan

export const takeOf = (plan: Plan, takeId: string): Take => oneOf(plan.takes, takeId)

export const motionOf = (plan: Plan, takeId: string): Motion =>
  makeMotion(makeBody(plan.body), takeOf(plan, takeId))

/**
 * Brings the weight, by the frame a limb leaves, to where the rest holds it, the pelvis first: from `start` on
 * in one move, later where that leaves it too little time, and kept there while the limb is off.
 */
export function leanBefore(lean: LeanBefore): Fix {
  return (plan, takeId) => {
    const added = Math.max(0, lean.frames - (lean.frame - lean.start))
    const frame = lean.frame + added
    const later = insertFrames(plan, takeId, lean.frame, added)
    const leaned = leanAt(later, takeId, { ...lean, frame })
    if (leaned === later) return plan
    const keyed = (from: number, to: number) =>
      takeOf(leaned, takeId)
        .channels['pelvis.x'].map((key) => key.frame)
        .filter((at) => from < at && at < to)
    const eased = keyed(lean.start, frame).reduce(
      (changing, at) => deleteKeys(changing, takeId, at, PLACES),
      leaned,
    )
    return keyed(frame, lean.until + added + 1).reduce(
      (changing, at) => balanceAt(changing, takeId, at, Math.min(at, lean.until + added - 1)),
      eased,
    )
  }
}

export interface LeanBefore {
  readonly limb: LimbId
  readonly stays: ContactPart | null
  /** Where the shift starts, where the limb leaves, and its next touch or the take's end; frames. */
  readonly start: number
  readonly frame: number
  readonly until: number
  /** Fewest frames that the shift should have. */
  readonly frames: number
}

const PLACES: readonly ChannelId[] = ['pelvis.x', 'pelvis.z']

function leanAt(plan: Plan, takeId: string, { limb, stays, frame }: LeanBefore): Plan {
  const take = takeOf(plan, takeId)
  const start = motionOf(plan, takeId).poseAt(frame).reached
  const leans = findLeans({
    body: makeBody(plan.body),
    ground: plan.ground,
    gravity: plan.gravity,
    stiffness: plan.stiffness,
    controls: start,
    contacts: contactsAt(take, frame),
    loads: loadsAt(take, frame),
    mover: { limb, toesStay: stays?.startsWith('foot') ?? false },
  })
  const lean = leans.find(({ works }) => works)
  return lean ? setControls(plan, takeId, frame, changed(start, lean.controls)) : plan
}

/**
 * Brings the pelvis to where he can be held still, at every key in a span and at those on both sides of it: by
 * what he stands on within the span.
 */
export function balance(from: number, to: number): Fix {
  return (plan, takeId) => {
    const take = takeOf(plan, takeId)
    const [first, last] = keysRound(take, from, to)
    return take.channels['pelvis.x']
      .map(({ frame }) => frame)
      .filter((frame) => first <= frame && frame <= last)
      .reduce(
        (changing, frame) => balanceAt(changing, takeId, frame, Math.max(from, Math.min(to, frame))),
        plan,
      )
  }
}

/**
 * Brings the pelvis at a frame to where the contacts of another (`standing`) can hold the body still, with room
 * to spare; the same plan where they do.
 */
function balanceAt(plan: Plan, takeId: string, frame: number, standing: number): Plan {
  const { ground, gravity, stiffness } = plan
  const { stature } = makeBody(plan.body)
  const still = (pose: ReachedPose) => weighPose(ground, gravity, stature, pose, { stiffness }).weighing
  const { region } = still(motionOf(plan, takeId).poseAt(standing))
  const inner = inset(region, KEPT_ROOM * stature)
  if (inner.length === 0) return plan
  let balanced = plan
  for (let step = 0; step < BALANCING; step++) {
    const { com } = motionOf(balanced, takeId).poseAt(frame)
    if (roomIn(region, [com[0], com[2]]) >= 0.9 * KEPT_ROOM * stature) break
    const to = nearestIn(inner, [com[0], com[2]])
    balanced = addAt(balanced, takeId, frame, {
      'pelvis.x': (to[0] - com[0]) / LEAN.weightPerPelvis,
      'pelvis.z': (to[1] - com[2]) / LEAN.weightPerPelvis,
    })
  }
  return balanced
}

/** Steps until the weight is there; the first goes most of the way. */
const BALANCING = 4
/** Over the stature: twice what a verdict calls safe. */
const KEPT_ROOM = 0.01

/** The controls of `to` that aren't those of `from`. */
function changed(from: Controls, to: Controls): Partial<Record<ChannelId, number>> {
  return Object.fromEntries(
    CHANNELS.filter((id) => Math.abs(to[id] - from[id]) > SAME).map((id) => [id, to[id]]),
  )
}

/** m or rad; below what a file stores. */
const SAME = 1e-9

/** Plays the way between the keys round a stretch of frames `factor` times as long. */
export function stretch(from: number, to: number, factor: number): Fix {
  return (plan, takeId) => {
    const take = takeOf(plan, takeId)
    const [first, last] = keysRound(take, from, to)
    const added = Math.max(1, Math.ceil((last - first) * (factor - 1)))
    let stretched = plan
    // From the end, so that earlier places stay where they are.
    for (let k = added; k >= 1; k--) {
      const at = first + Math.ceil((k * (last - first)) / (added + 1))
      stretched = insertFrames(stretched, takeId, withinTouches(take, at), 1)
    }
    return stretched
  }
}

/** A frame before which frames can be added without a part letting go between one contact and the next. */
function withinTouches({ contacts }: Take, frame: number): number {
  const follows = contacts.some(
    ({ part, from }) =>
      from === frame && contacts.some((other) => other.part === part && other.to === frame - 1),
  )
  return follows ? frame + 1 : frame
}

/** The nearest key frames at or before `from` and at or after `to`; the take's ends where there are none. */
function keysRound(take: Take, from: number, to: number): [number, number] {
  const keys = keyedFramesOf(take).map(({ frame }) => frame)
  const first = keys.findLast((frame) => frame <= from) ?? 0
  const last = keys.find((frame) => frame >= to && frame > first) ?? take.length - 1
  return [first, Math.max(last, first + 1)]
}

/** Adds to some channels what they are at a frame there: as a breakdown, or onto the key. */
export function addAt(
  plan: Plan,
  takeId: string,
  frame: number,
  offsets: Partial<Record<ChannelId, number>>,
): Plan {
  const { channels } = takeOf(plan, takeId)
  const values = Object.fromEntries(
    (Object.keys(offsets) as ChannelId[]).map((id) => [
      id,
      channelAt(channels[id], frame) + (offsets[id] ?? 0),
    ]),
  )
  return setControls(plan, takeId, frame, values)
}

/** Sets some channels at a frame to what they are there: the motion before stays. */
export const pin = (plan: Plan, takeId: string, frame: number, channels: readonly ChannelId[]): Plan =>
  addAt(plan, takeId, frame, Object.fromEntries(channels.map((id) => [id, 0])))

/** Moves the keys of a part at a frame to a later one, keeping short of the next. */
export function delay(
  plan: Plan,
  takeId: string,
  frame: number,
  by: number,
  channels: readonly ChannelId[],
): Plan {
  const take = takeOf(plan, takeId)
  return channels.reduce((changing, id) => {
    const next = take.channels[id].find((key) => key.frame > frame)?.frame ?? take.length
    const to = Math.min(frame + by, next - 1)
    return to > frame ? moveKeys(changing, takeId, frame, to, [id]) : changing
  }, plan)
}

/** The channels of a part: 'head' → head.turn, head.list, head.tilt. */
export const channelsOf = (part: string): ChannelId[] => CHANNELS.filter((id) => id.startsWith(`${part}.`))
