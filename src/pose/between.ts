import type { BodyModel } from '../body/model'
import { CHANNELS, type ChannelId, type Controls, type Key } from '../document/channels'
import type { ContactSpan } from '../document/contacts'
import type { CarriedLoad, Take } from '../document/plan'
import { LAG_PARTS } from '../document/take'
import { Curve, knotsOf } from './curve'
import { bowed, isMannered, laggedFrame, lagPartOf } from './manner'
import { reach, settledWith } from './reach'
import { slidTo } from './sliding'
import { PelvisCurves } from './switches'
import type { ReachedPose } from './types'

/**
 * A take in motion: the pose of every frame. In-betweens run through the reached key poses, smooth to
 * the second slope, and every in-between is reached again, so that planted contacts stay exactly still
 * and limbs keep their lengths. Frames may be fractions; nothing is shared between motions.
 */
export function makeMotion(body: BodyModel, take: Take): Motion {
  const keys = once(() => curvesFrom(take.channels))
  const asked = (frame: number) => mapChannels((id) => keys()[id].at(frame))
  const keyed = once(() => keyedFrames(take))
  const pose = (controls: Controls, frame: number) =>
    reach(body, controls, contactsAt(take, frame), loadsAt(take, frame))
  const poses = new Map<number, ReachedPose>()
  const askedPoses = new Map<number, ReachedPose>()
  const askedPose = (frame: number) => {
    const known = askedPoses.get(frame)
    if (known) return known
    const made = pose(asked(frame), frame)
    askedPoses.set(frame, made)
    return made
  }
  // Key poses don't need the curves, so a drag on one never waits for them.
  const between = once(() => curvesOf(body, take, askedPose, pose))
  return {
    length: take.length,
    askedAt: asked,
    *prepared() {
      for (const frame of keyed().keys()) {
        void askedPose(frame).reached
        yield
      }
      void between()
      yield
    },
    poseAt(frame) {
      const known = poses.get(frame)
      if (known) return known
      const exact = keyed().get(frame) === CHANNELS.length && !isMannered(take, frame)
      const made = exact ? askedPose(frame) : pose(between()(frame), frame)
      // Fractions are read once, for momentum; keeping them would only fill the memory.
      if (Number.isInteger(frame)) poses.set(frame, made)
      return made
    },
  }
}

export interface Motion {
  /** Number of frames. */
  readonly length: number
  /** What the keys alone ask for at a frame, before reach. */
  askedAt(frame: number): Controls
  poseAt(frame: number): ReachedPose
  /** Makes what all in-betweens need, a key at each step: the first of them is then made as quickly as the others. */
  prepared(): Generator<undefined, void>
}

/** The contacts that hold at a frame, first and last frame included; sliding ones where they have slid to. */
export const contactsAt = (take: Take, frame: number): ContactSpan[] =>
  take.contacts
    .filter((c) => c.from <= frame && frame <= c.to)
    .map((c) => (c.state === 'sliding' ? slidTo(take, c, frame) : c))

export const loadsAt = (take: Take, frame: number): CarriedLoad[] =>
  take.loads.filter((c) => c.from <= frame && frame <= c.to)

type PoseOf = (controls: Controls, frame: number) => ReachedPose
type Channels = Readonly<Record<ChannelId, readonly Key[]>>

/** Every frame with a key, and how many channels have one there: all of them at a key pose. */
function keyedFrames({ channels }: Take): ReadonlyMap<number, number> {
  const counts = new Map<number, number>()
  for (const id of CHANNELS)
    for (const { frame } of channels[id]) counts.set(frame, (counts.get(frame) ?? 0) + 1)
  return counts
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null
  return () => {
    made ??= { value: make() }
    return made.value
  }
}

/** What to ask for at any frame so that the motion runs through the reached keys. */
function curvesOf(
  body: BodyModel,
  take: Take,
  askedPose: (frame: number) => ReachedPose,
  pose: PoseOf,
): (frame: number) => Controls {
  const keyed = reachedChannels(take, askedPose)
  const trunk = curvesFrom(keyed)
  const pelvis = new PelvisCurves(
    take,
    mapChannels((id) => trunk[id].knots),
    (frame, contactsOf) => settledWith(body, pose(at(frame), frame), contactsAt(take, contactsOf)),
  )
  let limbs = trunk
  const lags = LAG_PARTS.some((part) => take.lags[part] !== 0)
  const at = (frame: number): Controls => {
    const frames = lags ? new Map(LAG_PARTS.map((part) => [part, laggedFrame(take, part, frame)])) : null
    const read = mapChannels((id) => {
      const part = frames && lagPartOf(id)
      return limbs[id].at(part ? (frames.get(part) as number) : frame)
    })
    return bowed(take, Object.assign(read, pelvis.at(frame)), frame)
  }
  // What a contact holds doesn't depend on the limbs' own curves, so these can be read before they are whole.
  const freed = withTransitions(take, keyed, (frame) => pose(at(frame), frame))
  limbs = mapChannels((id) => (freed[id] === keyed[id] ? trunk[id] : new Curve(knotsOf(freed[id]))))
  return at
}

const curvesFrom = (channels: Channels): Record<ChannelId, Curve> =>
  mapChannels((id) => new Curve(knotsOf(channels[id])))

/** The take's channels with every key's value replaced by what is reached there. */
function reachedChannels(take: Take, poseAt: (frame: number) => ReachedPose): Channels {
  return mapChannels((id) =>
    take.channels[id].map((key) => ({ ...key, value: poseAt(key.frame).reached[id] })),
  )
}

/**
 * Where a part is freed, its own curve starts from where its contact held it, at rest; where it is
 * planted, the curve ends at rest where the contact holds it.
 */
function withTransitions(take: Take, channels: Channels, poseAt: (frame: number) => ReachedPose): Channels {
  const marks = new Map<ChannelId, Set<number>>()
  const frames = new Set<number>()
  for (const contact of take.contacts) {
    for (const [edge, outside] of [
      [contact.from, contact.from - 1],
      [contact.to, contact.to + 1],
    ] as const) {
      if (edge < 0 || edge >= take.length || outside < 0 || outside >= take.length) continue
      for (const id of heldBy(contact, take, edge)) {
        if (take.contacts.some((c) => c.part === contact.part && c.from <= outside && outside <= c.to))
          continue
        frames.add(edge)
        marks.set(id, (marks.get(id) ?? new Set()).add(edge))
      }
    }
  }
  const reached = new Map([...frames].map((frame) => [frame, poseAt(frame).reached]))
  return mapChannels((id) => {
    const at = marks.get(id)
    if (!at) return channels[id]
    const own = channels[id].filter((key) => !at.has(key.frame))
    const added = [...at].map((frame) => ({
      frame,
      value: (reached.get(frame) as Controls)[id],
      in: 1,
      out: 1,
    }))
    return [...own, ...added].sort((a, b) => a.frame - b.frame)
  })
}

/** The channels that a contact fixes while it holds. */
function heldBy(contact: ContactSpan, take: Take, frame: number): ChannelId[] {
  const side = contact.part.endsWith('L') ? 'L' : 'R'
  const axes = ['x', 'y', 'z'] as const
  if (contact.part.startsWith('hand'))
    return [...axes.map((a) => `arm${side}.hand.${a}` as const), `arm${side}.wrist`]
  if (contact.part.startsWith('knee')) return axes.map((a) => `leg${side}.knee.${a}` as const)
  const kneeling = contactsAt(take, frame).some((c) => c.part === `knee${side}`)
  const turns: ChannelId[] =
    contact.kind === 'sole' || kneeling ? [`leg${side}.pitch`, `leg${side}.turn`] : []
  return [...axes.map((a) => `leg${side}.ankle.${a}` as const), ...turns]
}

function mapChannels<T>(f: (id: ChannelId) => T): Record<ChannelId, T> {
  const out = {} as Record<ChannelId, T>
  for (const id of CHANNELS) out[id] = f(id)
  return out
}
