import { expect, test } from 'vitest'
import { makeBody } from '../../src/body/model'
import type { ContactSpan } from '../../src/document/contacts'
import type { Take } from '../../src/document/plan'
import { contactsAt, makeMotion } from '../../src/pose/between'
import { slidTo } from '../../src/pose/sliding'
import { slippingPlan } from '../support/slipping'

const plan = slippingPlan()
const take = plan.takes[0] as Take
const knee = take.contacts.find(({ part }) => part === 'kneeL') as ContactSpan

test('a sliding pad goes along its surface as far as its keys go: at rest before, a quarter metre after', () => {
  const ahead = (frame: number) => slidTo(take, knee, frame).position[2] - knee.position[2]
  expect([0, 2, 4].map(ahead)).toEqual([0, 0, 0])
  expect(ahead(7)).toBeCloseTo(0.125, 9)
  expect([10, 14].map(ahead)).toEqual([ahead(10), ahead(10)])
  expect(ahead(10)).toBeCloseTo(0.25, 9)
  expect(slidTo(take, knee, 3)).toBe(knee)
})

test('it stays on its surface however far its keys rise', () => {
  const raised = take.channels['legL.knee.y'].map((key) => ({ ...key, value: key.value + key.frame / 20 }))
  const slid = slidTo({ channels: { ...take.channels, 'legL.knee.y': raised } }, knee, 10)
  expect(slid.position[1]).toBe(0)
})

test('the pose goes with it: the knee on its pad in every frame, the other one where it was', () => {
  const motion = makeMotion(makeBody(plan.body), take)
  const start = motion.poseAt(0)
  for (let frame = 0; frame < take.length; frame++) {
    const { joints, limits } = motion.poseAt(frame)
    const gone = slidTo(take, knee, frame).position[2] - knee.position[2]
    expect(joints.kneeL[2] - start.joints.kneeL[2]).toBeCloseTo(gone, 6)
    expect(joints.kneeR).toEqual(start.joints.kneeR)
    expect(limits).toEqual([])
  }
})

test('planted contacts come back as they are', () => {
  expect(contactsAt(take, 7)).toContain(take.contacts.find(({ part }) => part === 'kneeR'))
})
