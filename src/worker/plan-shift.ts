import { makeBody } from '../body/model'
import type { Take } from '../document/plan'
import { planShift } from '../shift/planner/plan'
import type { ShiftPiece, ShiftProblem } from './protocol'

/** Plans a shift of weight: how far it is at each step, last the answer. Nothing for null. */
export function* planShiftOf(problem: ShiftProblem | null): Generator<ShiftPiece> {
  if (problem === null) return
  const { plan, wish } = problem
  const { ground, gravity, stiffness, rate } = plan
  const take = plan.takes[0] as Take
  const fps = rate.num / rate.den
  yield yield* planShift({ ...wish, body: makeBody(plan.body), ground, gravity, stiffness, fps, take })
}
