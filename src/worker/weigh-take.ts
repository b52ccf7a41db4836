import { makeBody } from '../body/model'
import type { Take } from '../document/plan'
import { makeMotion } from '../pose/between'
import { sheetSteps } from '../sheet/sheet'
import { weighPose } from '../weigh/pose'
import type { FrameWeighing, TakePiece, TakeProblem } from './protocol'

/**
 * Weighs every frame of a plan's only take, the nearest to `near` first, one at each step; the last step gives
 * the timing sheet.
 */
export function* weighTake({ plan, near }: TakeProblem): Generator<TakePiece | undefined> {
  const take = plan.takes[0] as Take
  const body = makeBody(plan.body)
  const motion = makeMotion(body, take)
  yield* motion.prepared()
  const weighed: FrameWeighing[] = []
  for (const frame of outwards(near, take.length)) {
    const { weighing, judge } = weighPose(plan.ground, plan.gravity, body.stature, motion.poseAt(frame), plan)
    const one = { frame, weighing, verdict: judge(take.mover) }
    weighed[frame] = one
    yield one
  }
  yield { sheet: yield* sheetSteps(plan, take, motion, (frame) => weighed[frame]) }
}

/** 0 … length − 1, beginning at `near` and going on to the nearest not yet named. */
export function* outwards(near: number, length: number): Generator<number> {
  const start = Math.min(length - 1, Math.max(0, Math.round(near)))
  for (let away = 0; away < length; away++) {
    if (start + away < length) yield start + away
    if (away > 0 && start - away >= 0) yield start - away
  }
}
