import type { Rate } from '../document/plan'
import { toAngles } from '../space/rotation'
import { cross, dot, sub } from '../space/vec'
import { judge } from '../weigh/verdict'
import { type Contact, weigh } from '../weigh/weigh'
import { type TippingAxis, tippingAxis } from './axis'
import { BAND, DECIDES, EVEN, FOLLOWED, FOLLOWED_FOR, LIFT_HZ, TIPPED, UNDECIDED_AFTER } from './constants'
import { PinnedBody } from './pinned'
import { type FrozenPose, sliceAt } from './slice'
import { type Way, wayOf } from './way'

/**
 * Tries a lift: takes the mover's contacts away and lets the frozen pose go in matter-js, as one rigid body
 * pinned at the nearest edge of the pads that remain. The same input gives the same bits.
 *
 * Yields the turn at every frame, rad, outward > 0, so that it can be dropped between two of them; returns
 * what came of it.
 */
export function* tryLift(problem: LiftProblem): Generator<number, LiftTrial, void> {
  const { frozen, contacts, mover, gravity } = problem
  const { stature } = frozen.body
  const rest = contacts.filter(({ id }) => !mover.has(id))
  if (rest.length === 0) return { outcome: 'falls' }
  const short = shortOf(problem)
  const axis = tippingAxis(rest, frozen.pose.com, stature)
  if (axis === null)
    return short === 0
      ? { outcome: 'holds', by: 'friction', edge: null, loose: null }
      : { outcome: 'slips', edge: null }
  const edge = { axis, way: wayOf(axis.outward, toAngles(frozen.pose.segments.lowerTrunk.rotation).turn) }
  const turn = yield* letGo(new PinnedBody(sliceAt(axis, frozen, gravity)), problem.rate)
  if (turn === null)
    return short < BAND * stature ? { outcome: 'holds', by: 'pads', edge } : { outcome: 'slips', edge }
  if (short === 0 && canGrip(rest, stature)) return { outcome: 'holds', by: 'friction', edge, loose: turn }
  if (blocked(rest, axis, stature)) return { outcome: 'slips', edge }
  return { outcome: 'tips', edge, ...turn }
}

export interface LiftProblem {
  readonly frozen: FrozenPose
  /** All that touches, the mover too. */
  readonly contacts: readonly Contact[]
  /** Ids of the contacts that are taken away. */
  readonly mover: ReadonlySet<string>
  /** m/s² */
  readonly gravity: number
  readonly rate: Rate
}

/** All plain data. */
export type LiftTrial =
  /** Nothing else touches. */
  | { readonly outcome: 'falls' }
  /** The pads under it hold it. */
  | { readonly outcome: 'holds'; readonly by: 'pads'; readonly edge: Edge }
  /**
   * It is past the edge, but friction holds it. That is decided by statics, as the verdict has it, since
   * matter-js can't be trusted with friction. Statics says that forces exist which balance it, and not that they
   * come by themselves: most such poses must be braced, and go over where they are let go loosely, as `loose`
   * does (null where nothing faces up).
   */
  | {
      readonly outcome: 'holds'
      readonly by: 'friction'
      readonly edge: Edge | null
      readonly loose: Turn | null
    }
  /** Statics finds no balance, but it doesn't go over an edge: no grip, a load limit, or a wall in its way. */
  | { readonly outcome: 'slips'; readonly edge: Edge | null }
  | ({ readonly outcome: 'tips'; readonly edge: Edge } & Turn)

/** The nearest edge: the one it tips over, or would first. */
export interface Edge {
  readonly axis: TippingAxis
  /** Which way that is, in his own words. */
  readonly way: readonly Way[]
}

export interface Turn {
  /** Time from letting go to 5°, s and frames of the plan's rate, not rounded; null where it never gets there. */
  readonly seconds: number | null
  readonly frames: number | null
  /** The turn about the axis at every frame from the first, rad, to 15° or as far as it goes. */
  readonly angles: readonly number[]
}

/** How far the weight is, by statics, from where the contacts that remain can hold it, m. */
function shortOf({ frozen, contacts, mover, gravity }: LiftProblem): number {
  const { mass, com } = frozen.pose
  const body = { mass, com, stature: frozen.body.stature, gravity }
  const weighing = weigh(contacts, body, { ranges: false })
  const { kind, empty } = judge(contacts, body, weighing, mover)
  if (kind === 'off') return Math.max(0, -weighing.room)
  return empty?.distance ?? Number.POSITIVE_INFINITY
}

/** Follows the turn; null where it starts inward, onto the pads. */
function* letGo(body: PinnedBody, { num, den }: Rate): Generator<number, Turn | null, void> {
  const second = LIFT_HZ * body.step
  const angles = [0]
  let seconds: number | null = null
  let decided = false
  for (;;) {
    body.advance()
    const { angle, time } = body
    if (!decided && (Math.abs(angle) >= DECIDES || time >= UNDECIDED_AFTER * second)) {
      if (angle <= 0) return null
      decided = true
    }
    seconds ??= body.passed(TIPPED)
    for (let due = (angles.length * den) / num; due <= time; due = (angles.length * den) / num) {
      angles.push(body.angleAt(due))
      yield angle
    }
    const over = angle >= FOLLOWED || body.turnsBack || time >= FOLLOWED_FOR * second
    if (decided && over) return { seconds, frames: seconds === null ? null : (seconds * num) / den, angles }
  }
}

/** Whether friction could matter: not between level pads that face straight up, where it has no lever. */
function canGrip(contacts: readonly Contact[], stature: number): boolean {
  const heights = contacts.flatMap(({ vertices }) => vertices.map(([, y]) => y))
  const even = Math.max(...heights) - Math.min(...heights) <= EVEN * stature
  return !even || contacts.some(({ normal }) => normal[1] < 1 - EVEN)
}

/** Whether a contact stands in the way of the turn: its vertices would go into what they touch. */
function blocked(contacts: readonly Contact[], { point, direction }: TippingAxis, stature: number): boolean {
  return contacts.some(({ vertices, normal }) =>
    vertices.some((vertex) => dot(cross(direction, sub(vertex, point)), normal) < -EVEN * stature),
  )
}
