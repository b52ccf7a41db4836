import { expect, test } from 'vitest'
import { makeBody } from '../../src/body/model'
import type { Take } from '../../src/document/plan'
import { loadsAt, makeMotion } from '../../src/pose/between'
import { moverPads, weighPose } from '../../src/weigh/pose'
import { capstone } from '../support/capstone'
import { tried } from './poses'

const plan = capstone()
const take = plan.takes[0] as Take
const body = makeBody(plan.body)
const motion = makeMotion(body, take)

function tryAt(frame: number) {
  const pose = motion.poseAt(frame)
  const { contacts } = weighPose(plan.ground, plan.gravity, body.stature, pose)
  return tried({
    frozen: { body, pose, loads: loadsAt(take, frame) },
    contacts,
    mover: moverPads(pose.pads, take.mover),
    gravity: plan.gravity,
    rate: plan.rate,
  })
}

test('the mason tips to his left at the first key, and soon', () => {
  const trial = tryAt(0)
  expect(trial).toMatchObject({ outcome: 'tips', edge: { way: ['left'], axis: { overCorner: false } } })
  expect(trial.outcome === 'tips' && trial.frames).toBeLessThan(12)
})

test('at the end of the sink he holds on his right leg and fist', () => {
  const sink = take.phases.find(({ name }) => name === 'sink')
  expect(tryAt(sink?.to as number)).toMatchObject({ outcome: 'holds', by: 'pads' })
})
