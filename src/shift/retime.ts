import type { Motion } from '../pose/between'
import type { MotionProblem } from '../weigh/dynamic'
import { type Dynamics, dynamicsOf } from '../weigh/dynamics'
import { type Touch, touchesOf } from '../weigh/take-up'

/** Frames from one key to another, both whole and in the take; `to` > `from`. */
export interface Span {
  readonly from: number
  readonly to: number
}

/** A take run through evenly slower or faster. */
export interface Retimed {
  readonly dynamics: Dynamics
  /** The frame at which the span now begins. */
  readonly start: number
  readonly frames: number
  /** The frame of the take, fractions allowed, that a retimed frame shows. */
  earlier(frame: number): number
}

/**
 * The dynamics of a take when a span of it lasts another number of frames. The curves stay what they are; the
 * motion around the span goes at the span's pace, so that nothing jumps where it begins and ends.
 * @param frames whole, ≥ 1
 */
export function retimed(problem: MotionProblem, span: Span, frames: number): Retimed {
  const { take, motion } = problem
  const stretch = frames / (span.to - span.from)
  const start = Math.ceil(span.from * stretch)
  const last = take.length - 1
  const later = (frame: number) => start + (frame - span.from) * stretch
  const earlier = (frame: number) => span.from + (frame - start) / stretch
  const slower: Pick<Motion, 'poseAt'> = {
    poseAt: (frame) => motion.poseAt(Math.max(0, Math.min(last, earlier(frame)))),
  }
  const end = Math.ceil(later(last))
  const touches = new Map<string, Touch>()
  for (const [id, { from, to }] of touchesOf(take)) touches.set(id, { from: later(from), to: later(to) })
  const contacts = take.contacts.map((one) => ({ ...one, from: later(one.from), to: later(one.to) }))
  const loads = take.loads.map((load) => ({
    ...load,
    from: load.from <= 0 ? 0 : later(load.from),
    to: load.to >= last ? end : later(load.to),
  }))
  const dynamics = dynamicsOf(
    { ...problem, motion: slower, take: { length: end + 1, contacts, loads } },
    touches,
  )
  return { dynamics, start, frames, earlier }
}
