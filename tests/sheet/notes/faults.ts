import { makeBody } from '../../../src/body/model'
import { CHANNELS, type ChannelId, type Key } from '../../../src/document/channels'
import { limbOf } from '../../../src/document/contacts'
import type { Plan, Take } from '../../../src/document/plan'
import { scaleTime } from '../../../src/plan/edit/frames'
import { setControls } from '../../../src/plan/edit/keys'
import { makeMotion } from '../../../src/pose/between'
import { channelAt } from '../../../src/pose/curve'
import { notesOf } from '../../../src/sheet/notes/notes'
import type { Note } from '../../../src/sheet/notes/types'
import type { ShiftOption } from '../../../src/shift/planner/types'
import { multiply, toAngles, transpose } from '../../../src/space/rotation'
import { distance } from '../../../src/space/vec'
import { type DynamicFrame, weighMotion } from '../../../src/weigh/dynamic'

/*
 * Good takes, which are the planner's options, with one deliberate fault each. Frames that a fault names hold for
 * a body of 1.8 m at 24 frames a second and go with √(H / 1.8 m), as the times of the rules do.
 */

/** A plan of one take, which is an option of the planner. */
export interface Good {
  readonly plan: Plan
  readonly option: Pick<ShiftOption, 'id' | 'leaves' | 'touches'>
}

export interface Fault {
  readonly name: string
  /** The rules that have to name it: any of them. */
  readonly rules: readonly string[]
  /** The take with the fault in it, and the frames that a note on it has to meet; null where it can’t be made. */
  readonly make: (good: Good) => Faulty | null
}

export interface Faulty {
  readonly plan: Plan
  readonly from: number
  readonly to: number
}

export const FAULTS: readonly Fault[] = [
  { name: 'the knee leaves 6 frames early', rules: ['lifts-early'], make: early },
  { name: 'the lean is taken out', rules: ['turns', 'lifts-early'], make: withoutLean },
  { name: 'the pelvis only turns', rules: ['turns'], make: onlyTurned },
  { name: 'half its time', rules: ['push', 'small'], make: halved },
  { name: 'the head stays in the air', rules: ['head'], make: headStays },
  { name: 'all parts stop at once', rules: ['dead'], make: stopped },
]

/** Weighs a plan's only take, all of it. */
function weighedOf(plan: Plan): readonly DynamicFrame[] {
  const take = onlyTake(plan)
  const body = makeBody(plan.body)
  const { ground, gravity } = plan
  const problem = {
    body,
    ground,
    gravity,
    take,
    motion: makeMotion(body, take),
    fps: plan.rate.num / plan.rate.den,
  }
  const frames: DynamicFrame[] = []
  for (const one of weighMotion(problem, { mover: take.mover })) frames[one.frame] = one
  return frames
}

function notesIn(plan: Plan): readonly Note[] {
  const take = onlyTake(plan)
  const frames = weighedOf(plan)
  const motion = makeMotion(makeBody(plan.body), take)
  return notesOf({ plan, take, motion, weighed: (frame) => frames[frame] }).notes
}

export const breaking = (plan: Plan): readonly Note[] =>
  notesIn(plan).filter(({ level }) => level === 'breaks')

/** Whether a note of the right rule meets the fault's frames. */
export const isNamed = ({ rules }: Fault, { plan, from, to }: Faulty): boolean =>
  notesIn(plan).some((note) => rules.includes(note.rule) && note.from <= to && note.to >= from)

const onlyTake = ({ takes }: Plan): Take => takes[0] as Take
const withChannels = (plan: Plan, channels: Partial<Record<ChannelId, readonly Key[]>>): Plan => {
  const take = onlyTake(plan)
  return withTake(plan, { ...take, channels: { ...take.channels, ...channels } })
}
const withTake = (plan: Plan, take: Take): Plan => ({ ...plan, takes: [take] })

/** Frames of 24 a second at this body’s size. */
const framesFor = (plan: Plan, frames: number): number =>
  Math.round(frames * Math.sqrt(plan.body.stature / 1.8))

/** W: less is a part that peels off. */
const PEELS = 0.1

/** The mover’s keys and touches come earlier: it leaves 6 frames before it has little left to bear. */
function early({ plan, option }: Good): Faulty | null {
  const take = onlyTake(plan)
  const { limb } = take.mover
  const bears = weighedOf(plan).map(({ body, weighing }) => {
    const least = weighing.limbs.find(({ id }) => id === limb)?.least ?? 0
    return least > PEELS * body.mass * body.gravity
  })
  const free = bears.lastIndexOf(true, option.leaves) + 1
  const leaves = free - framesFor(plan, 6)
  const by = option.leaves - leaves
  if (leaves < 2 || by < 1) return null
  const earlier = (frame: number) => (frame >= option.leaves ? frame - by : Math.min(frame, leaves))
  const contacts = take.contacts.map((span) => {
    if (limbOf(span.part) !== limb) return span
    const to = span.to === take.length - 1 ? span.to : earlier(span.to)
    return { ...span, from: span.from === 0 ? 0 : earlier(span.from), to }
  })
  const channels: Record<ChannelId, readonly Key[]> = { ...take.channels }
  for (const id of CHANNELS.filter((channel) => channel.startsWith(limb)))
    channels[id] = channels[id]
      .filter(({ frame }) => frame < leaves || frame > option.leaves)
      .map((key) => (key.frame < leaves ? key : { ...key, frame: key.frame - by }))
  return { plan: withTake(plan, { ...take, contacts, channels }), from: leaves - 2, to: leaves + 1 }
}

/** Pelvis and chest stay where they began. No fault where a hand takes the weight: then no lean is owed. */
function withoutLean({ plan, option }: Good): Faulty | null {
  if (option.id.startsWith('hand')) return null
  const take = onlyTake(plan)
  const channels: Record<ChannelId, readonly Key[]> = { ...take.channels }
  for (const id of CHANNELS.filter((channel) => /^(pelvis\.(x|z|list)|chest\.(list|tilt))$/.test(channel))) {
    const value = channels[id][0]?.value ?? 0
    channels[id] = channels[id].map((key) => ({ ...key, value }))
  }
  return { plan: withTake(plan, { ...take, channels }), from: option.leaves - 2, to: option.leaves + 1 }
}

function onlyTurned(good: Good): Faulty | null {
  const still = withoutLean(good)
  if (!still) return null
  const take = onlyTake(still.plan)
  return { ...still, plan: setControls(still.plan, take.id, good.option.leaves, { 'pelvis.turn': 0.25 }) }
}

function halved({ plan }: Good): Faulty {
  const fast = scaleTime(plan, onlyTake(plan).id, 0.5)
  return { plan: fast, from: 0, to: onlyTake(fast).length - 1 }
}

/** The chest bows 35° in 7 frames, and the head takes all of it back, frame by frame and a little longer. */
function headStays({ plan, option }: Good): Faulty {
  const take = onlyTake(plan)
  const quick = framesFor(plan, 7)
  const from = Math.max(1, option.leaves - 2 * quick)
  const last = from + framesFor(plan, 11)
  const bow = channelAt(take.channels['chest.tilt'], from)
  const tilt = take.channels['chest.tilt'].filter(({ frame }) => frame <= from)
  const bent = setControls(withChannels(plan, { 'chest.tilt': tilt }), take.id, from, { 'chest.tilt': bow })
  const bowed = setControls(bent, take.id, from + quick, { 'chest.tilt': bow + (35 * Math.PI) / 180 })
  const motion = makeMotion(makeBody(plan.body), onlyTake(bowed))
  const head = motion.poseAt(from).segments.head.rotation
  const still = withChannels(
    bowed,
    Object.fromEntries(
      HEAD.map((id) => [id, take.channels[id].filter(({ frame }) => frame < from || frame > last)]),
    ),
  )
  let made = still
  for (let frame = from; frame <= last; frame++) {
    const chest = motion.poseAt(frame).segments.upperTrunk.rotation
    const { turn, list, tilt: nod } = toAngles(multiply(transpose(chest), head))
    made = setControls(made, take.id, frame, { 'head.turn': turn, 'head.list': list, 'head.tilt': nod })
  }
  return { plan: made, from, to: from + quick }
}

const HEAD = ['head.turn', 'head.list', 'head.tilt'] as const

/** Where the pelvis is quickest on its way over, everything stops within a drawing, and stands for a second. */
function stopped({ plan, option }: Good): Faulty {
  const take = onlyTake(plan)
  const motion = makeMotion(makeBody(plan.body), take)
  const hips = Array.from({ length: option.leaves }, (_, frame) => motion.poseAt(frame).joints.midHip)
  const speeds = hips.map((at, frame) => distance(at, hips[frame - 1] ?? at))
  const stop = speeds.indexOf(Math.max(...speeds))
  const length = stop + framesFor(plan, 24)
  const asked = motion.askedAt(stop)
  const channels = Object.fromEntries(
    CHANNELS.map((id) => [
      id,
      [
        ...take.channels[id].filter(({ frame }) => frame < stop),
        { frame: stop, value: asked[id], in: 0, out: 1 },
        { frame: stop + 1, value: asked[id], in: 1, out: 1 },
      ],
    ]),
  ) as unknown as Record<ChannelId, readonly Key[]>
  const contacts = take.contacts
    .filter(({ from }) => from <= stop)
    .map((span) => (span.to >= stop ? { ...span, to: length - 1 } : span))
  const made = { ...take, length, channels, contacts, phases: [] }
  return { plan: withTake(plan, made), from: stop - 2, to: stop + 4 }
}
