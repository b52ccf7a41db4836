import { expect, test } from 'vitest'
import { makeBody } from '../../src/body/model'
import type { Take } from '../../src/document/plan'
import { makeMotion } from '../../src/pose/between'
import { weighPose } from '../../src/weigh/pose'
import { capstone } from '../support/capstone'

const plan = capstone()
const body = makeBody(plan.body)
const pose = makeMotion(body, plan.takes[0] as Take).poseAt(0)
const weighed = (options = {}) => weighPose(plan.ground, plan.gravity, body.stature, pose, options)
const shareOf = (one: ReturnType<typeof weighed>, part: string) =>
  one.weighing.contacts.find(({ id }) => pose.pads.find((pad) => pad.id === id)?.part === part)
    ?.share as number

test('a plan’s own stiffness moves loads between pads, and not what could be carried', () => {
  const table = weighed()
  const soft = weighed({ stiffness: { fist: 0.05 } })
  expect(shareOf(soft, 'handL')).toBeLessThan(shareOf(table, 'handL') - 0.01)
  for (const [i, limb] of soft.weighing.limbs.entries())
    expect(limb.least).toBeCloseTo(table.weighing.limbs[i]?.least as number, 3)
  expect(soft.weighing.room).toBe(table.weighing.room)
})

test('a stiffness that is the table’s own changes nothing', () => {
  expect(weighed({ stiffness: { kneecap: 1, fist: 0.5 } }).weighing).toEqual(weighed().weighing)
})
