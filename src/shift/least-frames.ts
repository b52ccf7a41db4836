import type { Vec3 } from '../space/vec'
import { LENGTH_PER_STATURE } from '../weigh/constants'
import type { MotionProblem } from '../weigh/dynamic'
import { type BestLeast, bestLeast } from './best-least'
import { ADMISSIBLE_PUSH, FIRST_LOOK, LONGEST, RETIMINGS } from './constants'
import { type Hold, holdOf, paceOf } from './pace'
import { type Retimed, retimed, type Span } from './retime'

/**
 * The fewest frames a span can do with: this curve's, found from how fast each of its frames may go (`paceOf`);
 * weighed again at the whole number of frames it comes to, since a frame of a slower motion is a smaller part
 * of it; beside it the best that any curve could do, and the frame that limits and why.
 */
export function leastFrames(problem: MotionProblem, span: Span): LeastFrames {
  const steps = leastFramesSteps(problem, span)
  for (;;) {
    const { done, value } = steps.next()
    if (done) return value
  }
}

/** The same, a frame's work at each step. */
export function* leastFramesSteps(problem: MotionProblem, span: Span): Generator<undefined, LeastFrames> {
  const present = span.to - span.from
  if (!(present >= 1)) throw new TypeError(`a span of ${present} frames has no pace`)
  const best = bestOf(problem, span)
  // Few frames would hide what happens between them, so the first look is not at fewer than these.
  const first = yield* pacesOf(problem, span, Math.max(present, FIRST_LOOK))
  if (first.never !== null) return { ok: false, best, limit: first.never, fall: null }
  if (first.fastest.value < first.slowest.value) return conflict(best, first)
  const longest = LONGEST * problem.fps
  let paces = first
  let found: Paces | null = null
  let [tooFew, tooMany] = [0, longest + 1]
  for (let round = 1; round < RETIMINGS; round++) {
    const { frames, fastest, slowest, never } = paces
    if (never !== null || fastest.value < 1) tooFew = Math.max(tooFew, frames)
    else if (slowest.value > 1) tooMany = frames
    else found = paces
    const enough = never === null ? Math.ceil(frames / Math.sqrt(fastest.value)) : 0
    // One frame fewer than enough is tried too: fewer frames are larger parts, and show less of a peak.
    const next = Math.max(tooFew + 1, Math.min(enough, (found?.frames ?? tooMany) - 1))
    if (enough > longest || next >= (found?.frames ?? tooMany)) break
    paces = yield* pacesOf(problem, span, next)
  }
  return found === null ? conflict(best, first) : concluded(problem, best, found)
}

export type LeastFrames =
  | {
      readonly ok: true
      /** Whole frames, found admissible. */
      readonly frames: number
      /** Unrounded, s. */
      readonly seconds: number
      /** By how much the forces of motion could be greater at `frames`: the smallest of all frames' greatest λ. */
      readonly hardest: number
      readonly best: BestFrames
      /** The frame that can go no faster; null where every frame is still. */
      readonly limit: Limiting | null
      /** Most frames, and the frame at which he would fall if it were slower; null where it may be slowed. */
      readonly fall: { readonly frames: number; readonly frame: number } | null
    }
  /**
   * No even pace will do: at one frame none at all, or only a slower one than another frame, at which he would
   * then fall, can be given.
   */
  | { readonly ok: false; readonly best: BestFrames; readonly limit: Limiting; readonly fall: number | null }

export interface Limiting {
  /** As the frames are counted now. */
  readonly frame: number
  readonly why: Hold
}

/**
 * The best that any curve from rest to rest could do at the lowest height of this one, with an admissible push
 * and with every pad of the span to stand on all the time; see `bestLeast`.
 */
export type BestFrames =
  | { readonly ok: true; readonly frames: number; readonly seconds: number }
  | Extract<BestLeast, { readonly ok: false }>

/** How fast and how slowly the frames of a span may go when it lasts `frames`. */
interface Paces {
  readonly frames: number
  readonly retimed: Retimed
  readonly fastest: { readonly value: number; readonly frame: number }
  readonly slowest: { readonly value: number; readonly frame: number }
  readonly never: Limiting | null
}

function* pacesOf(problem: MotionProblem, span: Span, frames: number): Generator<undefined, Paces> {
  const take = retimed(problem, span, frames)
  let fastest = { value: Number.POSITIVE_INFINITY, frame: take.start }
  let slowest = { value: 0, frame: take.start }
  for (let frame = take.start; frame <= take.start + frames; frame++) {
    const { contacts, body } = take.dynamics.at(frame)
    const pace = paceOf(contacts, body)
    if (pace === null) return { frames, retimed: take, fastest, slowest, never: limiting(take, frame) }
    if (pace.most < fastest.value) fastest = { value: pace.most, frame }
    if (pace.least > slowest.value) slowest = { value: pace.least, frame }
    yield undefined
  }
  return { frames, retimed: take, fastest, slowest, never: null }
}

function concluded({ fps }: MotionProblem, best: BestFrames, paces: Paces): LeastFrames {
  const { frames, retimed: take, fastest, slowest } = paces
  const fall =
    slowest.value === 0
      ? null
      : { frames: Math.floor(frames / Math.sqrt(slowest.value)), frame: shown(take, slowest.frame) }
  return {
    ok: true,
    frames,
    seconds: frames / Math.sqrt(fastest.value) / fps,
    hardest: fastest.value,
    best,
    limit: Number.isFinite(fastest.value) ? limiting(take, fastest.frame) : null,
    fall,
  }
}

function conflict(best: BestFrames, { retimed: take, fastest, slowest }: Paces): LeastFrames {
  return {
    ok: false,
    best,
    limit: limiting(take, fastest.frame),
    fall: slowest.value === 0 ? null : shown(take, slowest.frame),
  }
}

function limiting(take: Retimed, frame: number): Limiting {
  const { contacts, body } = take.dynamics.at(frame)
  return { frame: shown(take, frame), why: holdOf(contacts, body) }
}

/** The whole frame of the take that a retimed one shows. */
const shown = (take: Retimed, frame: number): number => Math.round(take.earlier(frame))

function bestOf({ body, motion, gravity, fps }: MotionProblem, { from, to }: Span): BestFrames {
  const poses = Array.from({ length: to - from + 1 }, (_, i) => motion.poseAt(from + i))
  const [start, end] = [motion.poseAt(from).com, motion.poseAt(to).com]
  const way = Math.hypot(end[0] - start[0], end[2] - start[2])
  if (way === 0) return { ok: true, frames: 0, seconds: 0 }
  const along = (p: Vec3) =>
    ((p[0] - start[0]) * (end[0] - start[0]) + (p[2] - start[2]) * (end[2] - start[2])) / way
  const corners = poses.flatMap(({ pads }) => pads.flatMap(({ vertices }) => vertices))
  if (corners.length === 0) return { ok: false, why: 'starts at the edge' }
  const floor = Math.min(...corners.map((corner) => corner[1]))
  const height = Math.max(Number.MIN_VALUE, Math.min(...poses.map(({ com }) => com[1])) - floor)
  // An admissible push moves the body as if the support were this much wider.
  const spare = ADMISSIBLE_PUSH * Math.hypot(height, LENGTH_PER_STATURE * body.stature)
  const fore = Math.max(...corners.map(along)) + spare
  const hind = Math.min(...corners.map(along)) - spare
  const least = bestLeast({ from: 0, to: way, support: [hind, fore], leading: fore, height, gravity })
  // Rounding must not turn a time of whole frames into one frame more.
  return least.ok
    ? { ok: true, frames: Math.ceil(least.seconds * fps - 1e-9), seconds: least.seconds }
    : least
}
