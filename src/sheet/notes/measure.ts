import { makeBody } from '../../body/model'
import type { ContactPart } from '../../document/contacts'
import { CONTACT_PARTS, limbOf, sideOf } from '../../document/contacts'
import type { Plan, Take } from '../../document/plan'
import type { Accent, SetAside, Style } from '../../document/take'
import type { Motion } from '../../pose/between'
import type { ReachedPose } from '../../pose/types'
import { distance, scale, type Vec3 } from '../../space/vec'
import type { DynamicFrame } from '../../weigh/dynamic'
import { MOVES, NOTE_STATURE, STEPPED } from './constants'
import { liftsOf } from './lifts'
import { between, relative } from './turns'
import type { DrawnPush, FrameSpan, Measured, PartId, PartTouch } from './types'
import { PARTS } from './types'

/**
 * Measures a take once for all rules: on the drawn frames, from the motion itself and never from its keys.
 * @param weighed a frame weighed in motion with ranges and region; undefined while it is not weighed yet
 */
export function measure({ plan, take, motion, weighed }: NotesProblem, options: NotesOptions = {}): Measured {
  const body = makeBody(plan.body)
  const on = options.on ?? take.exposure
  const fps = plan.rate.num / plan.rate.den
  const dt = on / fps
  const frames = Array.from({ length: Math.ceil(take.length / on) }, (_, i) => i * on)
  const poses = frames.map((frame) => motion.poseAt(frame))
  const size = body.stature / NOTE_STATURE
  const speeds = speedsOf(poses, dt)
  const weighings = frames.map((frame) => weighed(frame) ?? null)
  const touches = touchesOf(take, frames)
  const base = {
    plan,
    take,
    body,
    stature: body.stature,
    root: Math.sqrt(size),
    size,
    style: options.style ?? take.style,
    on,
    dt,
    fps,
    frames,
    poses,
    weighed: weighings,
    pushes: frames.map((frame) => pushOf(weighed, frame, on, fps)),
    com: poses.map((pose, i) => weighings[i]?.body.com ?? pose.com),
    speeds,
    touches,
    stepped: options.stepped ?? isStepped(speeds, Math.sqrt(size)),
    holds: options.holds ?? [],
    gaze: options.gaze ?? [],
    accents: options.accents ?? take.accents,
  }
  return { ...base, lifts: liftsOf(base) }
}

export interface NotesProblem {
  readonly plan: Plan
  readonly take: Take
  /** The take in motion, of the plan's body. */
  readonly motion: Pick<Motion, 'poseAt'>
  readonly weighed: (frame: number) => DynamicFrame | undefined
}

export interface NotesOptions {
  /** In place of the take's own. */
  readonly style?: Style
  readonly on?: number
  readonly accents?: readonly Accent[]
  readonly setAside?: readonly SetAside[]
  /** Whether it is stepped blocking; found from the motion where absent. */
  readonly stepped?: boolean
  /** Holds that are meant to be still. */
  readonly holds?: readonly FrameSpan[]
  /** Where the gaze is kept on something. */
  readonly gaze?: readonly FrameSpan[]
}

/** The mean over the frames of a drawing that are weighed. */
function pushOf(weighed: NotesProblem['weighed'], frame: number, on: number, fps: number): DrawnPush {
  const sums = [0, 0, 0, 0]
  let count = 0
  for (let f = frame; f < frame + on; f++) {
    const one = weighed(f)
    if (!one) continue
    const { push } = one.weighing
    const weight = one.body.mass * one.body.gravity
    count++
    for (let i = 0; i < 3; i++) sums[i] = (sums[i] as number) + (push.force[i] as number) / weight
    sums[3] = (sums[3] as number) + push.size
  }
  const mean = (i: number) => (sums[i] as number) / Math.max(1, count)
  const force: Vec3 = [mean(0), mean(1), mean(2)]
  const gravity = weighed(frame)?.body.gravity ?? 0
  return { size: mean(3), force, velocity: scale(force, (gravity * on) / fps) }
}

/** Of each part's own motion between drawn frames: places in m/s, chest and head against their parent in rad/s. */
function speedsOf(poses: readonly ReachedPose[], dt: number): Record<PartId, Float64Array> {
  const chests = poses.map(({ segments }) =>
    relative(segments.lowerTrunk.rotation, segments.upperTrunk.rotation),
  )
  const heads = poses.map(({ segments }) => relative(segments.upperTrunk.rotation, segments.head.rotation))
  const place = (joint: 'midHip' | 'ankleL' | 'ankleR' | 'knuckleL' | 'knuckleR') =>
    steps(poses, (a, b) => distance(a.joints[joint], b.joints[joint]) / dt)
  return {
    pelvis: place('midHip'),
    chest: steps(chests, (a, b) => between(a, b) / dt),
    head: steps(heads, (a, b) => between(a, b) / dt),
    legL: place('ankleL'),
    legR: place('ankleR'),
    armL: place('knuckleL'),
    armR: place('knuckleR'),
  }
}

function steps<T>(list: readonly T[], of: (a: T, b: T) => number): Float64Array {
  const out = new Float64Array(Math.max(0, list.length - 1))
  for (let i = 0; i < out.length; i++) out[i] = of(list[i] as T, list[i + 1] as T)
  return out
}

function touchesOf(take: Take, frames: readonly number[]): PartTouch[] {
  return CONTACT_PARTS.flatMap((part) => touchesOfPart(take, part, frames))
}

function touchesOfPart(take: Take, part: ContactPart, frames: readonly number[]): PartTouch[] {
  const own = take.contacts.filter((span) => span.part === part).sort((a, b) => a.from - b.from)
  const found: PartTouch[] = []
  for (let i = 0; i < own.length; ) {
    const begun = own[i] as (typeof own)[number]
    let to = begun.to
    i++
    while (i < own.length && (own[i]?.from ?? 0) <= to + 1) to = Math.max(to, own[i++]?.to ?? to)
    const first = frames.findIndex((frame) => frame >= begun.from)
    const last = frames.findLastIndex((frame) => frame <= to)
    // On twos a touch of one frame may fall between two drawings.
    if (first < 0 || last < first) continue
    found.push({
      part,
      limb: limbOf(part),
      side: sideOf(part),
      kind: begun.kind,
      from: begun.from,
      to,
      begins: begun.from > 0,
      ends: to < take.length - 1,
      first,
      last,
    })
  }
  return found
}

/** Least peak speed of a part that counts as moving at all, in its own unit. */
export const leastPeak = (part: PartId, root: number): number =>
  part === 'chest' || part === 'head' ? MOVES.angle / root : MOVES.place * root

/** Poses that stand, and jump from one to the next. */
function isStepped(speeds: Readonly<Record<PartId, Float64Array>>, root: number): boolean {
  const steps = speeds.pelvis.length
  let moving = 0
  let runs = 0
  let before = false
  for (let i = 0; i < steps; i++) {
    const moves = PARTS.some((part) => (speeds[part][i] ?? 0) > leastPeak(part, root))
    if (moves) moving++
    if (moves && !before) runs++
    before = moves
  }
  return runs >= 2 && moving <= STEPPED.moving * steps && moving <= STEPPED.run * runs
}
