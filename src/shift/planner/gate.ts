import type { ContactPart } from '../../document/contacts'
import { contactsAt, makeMotion } from '../../pose/between'
import type { ReachedPose } from '../../pose/types'
import { COULD_LET_GO } from '../../weigh/constants'
import { weighFrame } from '../../weigh/dynamic'
import { dynamicsOf, type FrameDynamics, type MotionProblem } from '../../weigh/dynamics'
import type { Weighing } from '../../weigh/types'
import { GATE } from './constants'
import type { Keys } from './key-pose'
import { fleshOf, fleshStop, hipLineOf, hipLineStop, missedPad } from './sound'
import type { Layout } from './take'
import type { Scene, ShiftLimit } from './types'

/** What a laid-out shift measures, and where it fails. */
export interface Checked {
  /** The worst failure; null where it may be shown. */
  readonly limit: ShiftLimit | null
  /** Spans that want more time: transfer and key that the span leads to. */
  readonly slow: readonly (readonly [stage: number, key: number, over: number])[]
  /** Transfers whose mover still carries as it leaves, and by which share of the span it was empty earlier. */
  readonly early: readonly (readonly [stage: number, share: number])[]
  readonly push: number
  readonly room: number
  readonly hipLine: number
  readonly load: { readonly limb: string; readonly share: number }
  /** The mover's share of the weight, frame by frame from `layout.from`. */
  readonly mover: readonly number[]
}

/**
 * Checks a laid-out shift frame by frame, in motion: push, room, what the mover carries as it leaves, contacts
 * missed, hip line, flesh. Yields after every frame.
 * @param allowed push that is meant, W
 * @param press how much the mover's load may rise before it falls, W
 */
export function* check(
  scene: Scene,
  layout: Layout,
  chain: readonly Keys[],
  allowed: number,
  press: number,
): Generator<null, Checked> {
  const { take, from, to } = layout
  const motion = makeMotion(scene.body, take)
  const problem = {
    body: scene.body,
    ground: scene.ground,
    gravity: scene.gravity,
    stiffness: scene.stiffness,
    take,
    motion,
    fps: scene.fps,
  }
  const dynamics = dynamicsOf(problem)
  const { stature } = scene.body
  const started = fleshOf(motion.poseAt(from))
  const slow = new Map<string, number>()
  const slower = (place: string, by: number) => slow.set(place, Math.max(slow.get(place) ?? 0, by))
  let limit: ShiftLimit | null = null
  let [push, room, hipLine] = [0, Number.POSITIVE_INFINITY, 0]
  let load = { limb: '', share: 0 }
  const mover: number[] = []
  const early: [number, number][] = []
  const empty = new Map<number, number>()
  for (let frame = from; frame <= to; frame++) {
    const at = dynamics.at(frame)
    const still = stillLimit(scene, at.pose, contactsAt(take, frame).length, started)
    if (still) return { limit: still, slow: [], early: [], push, room, hipLine, load, mover }
    const { weighing } = weighFrame(problem, at, { ranges: false, region: true, mover: null })
    const weight = at.body.mass * scene.gravity
    push = Math.max(push, weighing.push.size)
    room = Math.min(room, weighing.room)
    hipLine = Math.max(hipLine, Math.abs(hipLineOf(at.pose)))
    for (const limb of weighing.limbs)
      if (limb.load / weight > load.share) load = { limb: limb.id, share: limb.load / weight }
    mover.push((weighing.limbs.find(({ id }) => id === take.mover.limb)?.load ?? 0) / weight)
    const rise = (mover.at(-1) ?? 0) - (mover[(layout.frames.at(-1)?.[0] ?? from) - from] ?? 1)
    if (rise > press && frame <= (layout.leaves.at(-1) ?? -1)) {
      slower(`${chain.length - 1} ${chain.at(-1)?.leaves ?? 1}`, (rise - press) * PRESS_WEIGHS)
      limit ??= { code: 'motion', by: 0, text: 'The press would slam.' }
    }
    if (weighing.push.size > allowed || (allowed <= GATE.push && weighing.room < GATE.room * stature)) {
      for (const place of spansAt(layout, frame)) slower(place, weighing.push.size - allowed)
      limit = worse(limit, {
        code: 'motion',
        by: weighing.push.size - allowed,
        text: `In motion he would need a push of ${Math.round(weighing.push.size * 100)} % of his weight from nowhere.`,
      })
    }
    for (const [s, { transfer, leaves }] of chain.entries()) {
      const leave = layout.leaves[s]
      const begins = layout.frames[s]?.[leaves - 1]
      if (leave === null || leave === undefined || begins === undefined || frame > leave || frame <= begins)
        continue
      const over = carriedOver(at.pose, weighing, transfer.release, weight, allowed)
      if (over <= -SPARE) empty.set(s, frame)
      if (frame < leave || over <= 0) continue
      if (over <= GATE.trailing - GATE.main && couldLetGo(problem, at, transfer.release)) continue
      const rests = layout.frames[s]?.[leaves] ?? leave
      const span = rests - begins
      const was = empty.get(s)
      if (was !== undefined && rests - was < span * EARLIEST) early.push([s, (rests - was) / span])
      // The lift itself presses back for half a frame: a little earlier the take-up has let go already.
      else if (rests - leave < span * EARLY) early.push([s, (rests - leave + 2) / span])
      else slower(`${s} ${leaves}`, over)
      limit = worse(limit, {
        code: 'motion',
        by: over,
        text: `It still carries ${Math.round((over + GATE.main) * 100)} % of his weight as it leaves.`,
      })
    }
    yield null
  }
  const places = [...slow].map(([place, by]): [number, number, number] => {
    const [s, i] = place.split(' ').map(Number)
    return [s ?? 0, i ?? 1, by]
  })
  return { limit, slow: places, early, push, room, hipLine, load, mover }
}

/** How much the parts that leave carry over what they may, W; negative is to spare. */
function carriedOver(
  { pads }: ReachedPose,
  { contacts }: Weighing,
  release: readonly ContactPart[],
  weight: number,
  allowed: number,
): number {
  let over = Number.NEGATIVE_INFINITY
  for (const { id, load } of contacts) {
    const pad = pads.find((one) => one.id === id)
    if (!pad || !release.includes(pad.part)) continue
    const trails = pad.kind === 'instep' || pad.kind === 'toes'
    const most = Math.max(trails ? GATE.trailing : GATE.main, allowed > GATE.push ? allowed : 0)
    over = Math.max(over, load / weight - most)
  }
  return over
}

/** Whether nothing has to press on the parts that leave, in motion: whether the others could bear it all. */
function couldLetGo(problem: MotionProblem, at: FrameDynamics, release: readonly ContactPart[]): boolean {
  const { weighing } = weighFrame(problem, at, { ranges: true, region: false, mover: null })
  const most = COULD_LET_GO * at.body.mass * problem.gravity
  const whole = at.pose.pads.filter(({ part }) => release.includes(part))
  const limb = whole[0]?.limb
  if (limb !== undefined && at.pose.pads.every((pad) => pad.limb !== limb || release.includes(pad.part)))
    return (weighing.limbs.find(({ id }) => id === limb)?.least ?? 0) <= most
  return whole.every(({ id }) => (weighing.contacts.find((one) => one.id === id)?.least ?? 0) <= most)
}

/** To spare where the mover could have left earlier, W, and how much earlier that may be, over the span. */
const PRESS_WEIGHS = 0.6
const SPARE = 0.008
const EARLIEST = 0.32
const EARLY = 0.09

const worse = (a: ShiftLimit | null, b: ShiftLimit) => (a === null || b.by > a.by ? b : a)

/** The spans a frame lies in or at the edge of. */
function spansAt(layout: Layout, frame: number): string[] {
  const places: string[] = []
  layout.frames.forEach((row, s) => {
    for (let i = 1; i < row.length; i++) {
      const [a, b] = [row[i - 1] as number, row[i] as number]
      if (frame >= a && frame <= b) places.push(`${s} ${i}`)
    }
  })
  if (places.length === 0) {
    const s = layout.frames.length - 1
    places.push(frame > layout.from + 2 ? `${s} ${(layout.frames[s]?.length ?? 1) - 1}` : '0 1')
  }
  return places
}

/** What no amount of time would help. */
const stillLimit = (scene: Scene, pose: ReachedPose, contacts: number, started: number): ShiftLimit | null =>
  missedPad(pose, contacts) ?? hipLineStop(pose) ?? fleshStop(scene, pose, started, ON_THE_WAY)

/** In-betweens may run into each other by this much more than keys. */
const ON_THE_WAY = 1.5
