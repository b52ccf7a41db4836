import type { ContactPart } from '../../document/contacts'
import { contactsAt, makeMotion } from '../../pose/between'
import type { ReachedPose } from '../../pose/types'
import { COULD_LET_GO, LENGTH_PER_STATURE, PUSH_NONE } from '../../weigh/constants'
import { weighFrame } from '../../weigh/dynamic'
import { dynamicsOf, type FrameDynamics, type MotionProblem } from '../../weigh/dynamics'
import type { Weighing } from '../../weigh/types'
import { coarser, coarseStep, lands, type Problem } from './coarse'
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
 * missed, hip line, flesh. First coarsely: over longer frames, from poses at whole frames alone; only what
 * passes that is looked at frame by frame. Yields after every frame.
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
  const problem: Problem = {
    body: scene.body,
    ground: scene.ground,
    gravity: scene.gravity,
    stiffness: scene.stiffness,
    take,
    motion: makeMotion(scene.body, take),
    fps: scene.fps,
  }
  const exact = dynamicsOf(problem)
  const asked = { scene, layout, chain, allowed, press, problem }
  const first = new Look(asked, false)
  const step = coarseStep(scene)
  const coarse = dynamicsOf(coarser(problem, step))
  const leaves = new Set(layout.leaves)
  for (let frame = from; frame <= to; frame++) {
    const leaving = leaves.has(frame)
    if (!leaving && ((frame - from) % step !== 0 || lands(layout, chain, frame, step))) continue
    first.at(frame, leaving ? exact.at(frame) : { ...coarse.at(frame / step), frame })
    if (first.hopeless) return first.told()
    yield null
  }
  if (first.fails) return first.told()
  const second = new Look(asked, true)
  for (let frame = from; frame <= to; frame++) {
    second.at(frame, exact.at(frame))
    if (second.hopeless) break
    yield null
  }
  return second.told()
}

interface Asked {
  readonly scene: Scene
  readonly layout: Layout
  readonly chain: readonly Keys[]
  readonly allowed: number
  readonly press: number
  readonly problem: Problem
}

/** One look over a layout, frame after frame. */
class Look {
  /** Failed in a way that no amount of time helps. */
  hopeless = false
  private limit: ShiftLimit | null = null
  private readonly slow = new Map<string, number>()
  private readonly early: [number, number][] = []
  /** Of each transfer: the last frame at which the mover had let go. */
  private readonly empty = new Map<number, number>()
  private readonly mover: number[] = []
  private push = 0
  private room = Number.POSITIVE_INFINITY
  private hipLine = 0
  private load = { limb: '', share: 0 }
  private readonly started: number
  /** What the mover carries as the last transfer begins, W. */
  private carried: number | null = null

  /** @param exact whether the room is measured too */
  constructor(
    private readonly asked: Asked,
    private readonly exact: boolean,
  ) {
    const { problem, layout } = asked
    this.started = fleshOf(problem.motion.poseAt(layout.from))
  }

  get fails(): boolean {
    return this.limit !== null
  }

  at(frame: number, dynamics: FrameDynamics): void {
    const { scene, problem, layout, allowed } = this.asked
    const bearing = contactsAt(problem.take, frame).length
    const still = stillLimit(scene, dynamics.pose, bearing, this.started)
    if (still) {
      this.limit = still
      this.hopeless = true
      return
    }
    const plain = weighFrame(problem, dynamics, { ranges: false, region: false, mover: null })
    // Only what is pushed can be outside; of what may be shown the room is measured everywhere.
    const measured = (this.exact && !this.fails) || plain.weighing.push.size > PUSH_NONE
    const { weighing } = measured
      ? weighFrame(problem, dynamics, { ranges: false, region: true, mover: null })
      : plain
    this.push = Math.max(this.push, weighing.push.size)
    if (measured) this.room = Math.min(this.room, weighing.room)
    this.hipLine = Math.max(this.hipLine, Math.abs(hipLineOf(dynamics.pose)))
    const weight = dynamics.body.mass * scene.gravity
    for (const { id, load } of weighing.limbs)
      if (load / weight > this.load.share) this.load = { limb: id, share: load / weight }
    this.pressed(frame, (weighing.limbs.find(({ id }) => id === problem.take.mover.limb)?.load ?? 0) / weight)
    const outside = measured ? this.outside(weighing) : 0
    if (weighing.push.size > allowed || (allowed <= GATE.push && outside > 0)) {
      const over = Math.max(weighing.push.size - allowed, outside)
      for (const place of spansAt(layout, frame)) this.slower(place, over)
      this.fail(
        over,
        `In motion he would need a push of ${Math.round(weighing.push.size * 100)} % of his weight from nowhere.`,
      )
    }
    this.leaving(frame, dynamics, weighing, weight)
  }

  /** How far the weight is beyond the room allowed, as the push that this would take, W; 0 within. */
  private outside({ region, room }: Weighing): number {
    const { stature } = this.asked.scene.body
    if (region.length === 0) return GATE.push
    return Math.max(0, (GATE.room * stature - room) / (LENGTH_PER_STATURE * stature))
  }

  told(): Checked {
    const { slow, early, push, room, hipLine, load, mover, limit } = this
    if (this.hopeless) return { limit, slow: [], early: [], push, room, hipLine, load, mover }
    const places = [...slow].map(([place, by]): [number, number, number] => {
      const [s, i] = place.split(' ').map(Number)
      return [s ?? 0, i ?? 1, by]
    })
    return { limit, slow: places, early, push, room, hipLine, load, mover }
  }

  private fail(by: number, text: string): void {
    if (this.limit === null || by > this.limit.by) this.limit = { code: 'motion', by, text }
  }

  private slower(place: string, by: number): void {
    this.slow.set(place, Math.max(this.slow.get(place) ?? 0, by))
  }

  /** The press may raise the mover's load, but not slam it down. */
  private pressed(frame: number, load: number): void {
    const { chain, layout, press } = this.asked
    this.mover.push(load)
    if (frame >= (layout.frames.at(-1)?.[0] ?? layout.from)) this.carried ??= load
    const rise = load - (this.carried ?? 1)
    if (rise <= press || frame > (layout.leaves.at(-1) ?? -1)) return
    this.slower(`${chain.length - 1} ${chain.at(-1)?.leaves ?? 1}`, (rise - press) * PRESS_WEIGHS)
    this.limit ??= { code: 'motion', by: 0, text: 'The press would slam.' }
  }

  /** What leaves must have let go: in the frames before, or with more time. */
  private leaving(frame: number, dynamics: FrameDynamics, weighing: Weighing, weight: number): void {
    const { chain, layout, allowed, problem } = this.asked
    for (const [s, { transfer, leaves }] of chain.entries()) {
      const leave = layout.leaves[s]
      const begins = layout.frames[s]?.[leaves - 1]
      if (leave === null || leave === undefined || begins === undefined || frame > leave || frame <= begins)
        continue
      const over = carriedOver(dynamics.pose, weighing, transfer.release, weight, allowed)
      if (over <= -SPARE) this.empty.set(s, frame)
      if (frame < leave || over <= 0) continue
      if (over <= GATE.trailing - GATE.main && couldLetGo(problem, dynamics, transfer.release)) continue
      const rests = layout.frames[s]?.[leaves] ?? leave
      const span = rests - begins
      const was = this.empty.get(s)
      if (was !== undefined && rests - was < span * EARLIEST) this.early.push([s, (rests - was) / span])
      // The lift itself presses back for half a frame: a little earlier the take-up has let go already.
      else if (rests - leave < span * EARLY) this.early.push([s, (rests - leave + 2) / span])
      else this.slower(`${s} ${leaves}`, over)
      this.fail(
        over,
        `It still carries ${Math.round((over + GATE.main) * 100)} % of his weight as it leaves.`,
      )
    }
  }
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
