import { leastFramesSteps } from '../shift/least-frames'
import { readsAs } from '../shift/reads-as'
import { gravitySpans } from '../shift/reads-spans'
import { type DynamicFrame, weighMotion } from '../weigh/dynamic'
import type { ReadsPiece, ReadsProblem, SpanReading } from './protocol'
import { motionProblem } from './weigh-motion'

/** What the timing of a plan's only take reads as: a stretch chosen by hand, and every span that gravity times. */
export function* readsAsOf({ plan, chosen }: ReadsProblem): Generator<ReadsPiece | undefined> {
  const { problem, take, motion } = motionProblem(plan)
  yield* motion.prepared()
  const frames: DynamicFrame[] = []
  for (const frame of weighMotion(problem, { ranges: false, region: false })) {
    frames[frame.frame] = frame
    yield undefined
  }
  const loadAt = (limb: string, frame: number) =>
    frames[frame]?.weighing.limbs.find(({ id }) => id === limb)?.load
  const timed = gravitySpans(take, loadAt)
  const spans: SpanReading['span'][] = timed.map((span, i) => ({
    ...span,
    turn: timed.slice(0, i + 1).filter(({ limb }) => limb === span.limb).length,
  }))
  if (chosen) spans.unshift({ ...chosen, kind: 'chosen', limb: null, turn: 1 })
  const readings: SpanReading[] = []
  for (const span of spans) {
    const least = yield* leastFramesSteps(problem, span)
    const seconds = (span.to - span.from) / problem.fps
    const reading = least.ok ? readsAs({ seconds, least: least.seconds }, plan.body) : null
    readings.push({ span, least, reading })
  }
  yield readings
}
