import { makeBody } from '../body/model'
import type { Plan, Take } from '../document/plan'
import { type Motion, makeMotion } from '../pose/between'
import { sheetSteps } from '../sheet/sheet'
import { leastFramesSteps } from '../shift/least-frames'
import { type DynamicFrame, type MotionProblem, weighMotion } from '../weigh/dynamic'
import type { LeastPiece, MotionPiece, SpanProblem, TakeProblem } from './protocol'

/**
 * Weighs a plan's only take in motion, a frame at each step: every frame's loads and push first, then every one
 * again with ranges, region and verdicts, outwards from `near` both times; last its timing sheet with the loads
 * in motion.
 */
export function* weighMotionOf({ plan, near }: TakeProblem): Generator<MotionPiece | undefined> {
  const { problem, take, motion } = motionProblem(plan)
  yield* motion.prepared()
  const frames: DynamicFrame[] = []
  for (const frame of weighMotion(problem, { near, mover: take.mover })) {
    frames[frame.frame] = frame
    yield frame
  }
  const sheet = yield* sheetSteps(plan, take, motion, (frame) => {
    const one = frames[frame]
    return one?.verdict
      ? { weighing: one.weighing, verdict: one.verdict.moving, mass: one.body.mass }
      : undefined
  })
  yield { sheet: { ...sheet, header: { ...sheet.header, take: `${take.name} (loads in motion)` } } }
}

/** The fewest frames that a span of a plan's only take can do with: nothing at each step but the last. */
export function* leastFramesOf({ plan, from, to }: SpanProblem): Generator<LeastPiece> {
  const steps = leastFramesSteps(motionProblem(plan).problem, { from, to })
  let step = steps.next()
  while (!step.done) {
    yield null
    step = steps.next()
  }
  yield step.value
}

/** A plan's only take as it is weighed in motion. */
export function motionProblem(plan: Plan): { problem: MotionProblem; take: Take; motion: Motion } {
  const take = plan.takes[0] as Take
  const body = makeBody(plan.body)
  const motion = makeMotion(body, take)
  const { ground, gravity, stiffness, rate } = plan
  const fps = rate.num / rate.den
  return { problem: { body, ground, gravity, stiffness, take, motion, fps }, take, motion }
}
