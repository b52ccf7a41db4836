import { makeBody } from '../body/model'
import type { Take } from '../document/plan'
import { loadsAt, makeMotion } from '../pose/between'
import { type LiftTrial, tryLift } from '../trial/lift'
import { type Opinion, secondOpinions } from '../trial/rest'
import { moverPads, weighPose } from '../weigh/pose'
import type { FrameProblem } from './protocol'

/** Tries the lift of the take's mover at a frame: one piece. */
export function* tryLiftAt({ plan, frame }: FrameProblem): Generator<LiftTrial> {
  const { take, body, pose, weighed } = at({ plan, frame })
  const trial = tryLift({
    frozen: { body, pose, loads: loadsAt(take, frame) },
    contacts: weighed.contacts,
    mover: moverPads(pose.pads, take.mover),
    gravity: plan.gravity,
    rate: plan.rate,
  })
  let step = trial.next()
  while (!step.done) step = trial.next()
  yield step.value
}

/** What matter-js thinks of a frame's loads: one piece. */
export function* secondOpinionsAt(problem: FrameProblem): Generator<readonly Opinion[]> {
  const { contacts, body, weighing } = at(problem).weighed
  yield secondOpinions(contacts, body, weighing)
}

function at({ plan, frame }: FrameProblem) {
  const take = plan.takes[0] as Take
  const body = makeBody(plan.body)
  const pose = makeMotion(body, take).poseAt(frame)
  return { take, body, pose, weighed: weighPose(plan.ground, plan.gravity, body.stature, pose, plan) }
}
