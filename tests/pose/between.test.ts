import { expect, test } from 'vitest'
import { makeBody, SIDES } from '../../src/body/model'
import type { Take } from '../../src/document/plan'
import { makeMotion } from '../../src/pose/between'
import { channelAt, easeBetween } from '../../src/pose/ease'
import { distance } from '../../src/space/vec'
import { capstone } from '../support/capstone'

const plan = capstone()
const body = makeBody(plan.body)
const take = plan.takes[0] as Take
const motion = makeMotion(body, take)
const frames = Array.from({ length: take.length }, (_, i) => i)

test('planted contacts are exactly still over their whole span', () => {
  for (const contact of take.contacts)
    for (let frame = contact.from; frame <= contact.to; frame++) {
      const pad = motion.poseAt(frame).pads.find((p) => p.id === contact.id)
      expect(pad?.centre).toEqual(contact.position)
    }
})

test('limbs keep their lengths in every in-between', () => {
  for (const frame of frames) {
    const { joints: j } = motion.poseAt(frame)
    for (const s of SIDES) {
      expect(distance(j[`hip${s}`], j[`knee${s}`])).toBeCloseTo(body.lengths.thigh, 9)
      expect(distance(j[`knee${s}`], j[`ankle${s}`])).toBeCloseTo(body.lengths.shank, 9)
      expect(distance(j[`shoulder${s}`], j[`elbow${s}`])).toBeCloseTo(body.lengths.upperArm, 9)
    }
  }
})

test('no joint jumps from one frame to the next, where contacts begin and end included', () => {
  for (const frame of frames.slice(1)) {
    const [a, b] = [motion.poseAt(frame - 1).joints, motion.poseAt(frame).joints]
    for (const joint of [
      'midHip',
      'kneeL',
      'ankleL',
      'toeL',
      'kneeR',
      'knuckleL',
      'elbowL',
      'crown',
    ] as const)
      expect(distance(a[joint], b[joint])).toBeLessThan(0.16)
  }
})

test('a part that is freed starts from where its contact held it, at rest', () => {
  const lift = take.contacts.find((c) => c.part === 'kneeL')?.to as number
  const [held, first, second] = [lift, lift + 0.02, lift + 1].map((f) => motion.poseAt(f).joints.ankleL)
  expect(distance(held as never, first as never)).toBeLessThan(1e-4)
  expect(distance(held as never, second as never)).toBeLessThan(0.03)
})

test('the eased share starts at 0, ends at 1, and stops softly where a key asks for it', () => {
  for (const [out, into] of [
    [0, 0],
    [1, 1],
    [0.5, 1],
    [1, 0],
  ] as const) {
    expect(easeBetween(0, out, into)).toBe(0)
    expect(easeBetween(1, out, into)).toBeCloseTo(1, 12)
    expect(easeBetween(1e-6, out, into) / 1e-6).toBeCloseTo(1 - out, 4)
    expect((1 - easeBetween(1 - 1e-6, out, into)) / 1e-6).toBeCloseTo(1 - into, 4)
  }
  expect(easeBetween(0.37, 0, 0)).toBeCloseTo(0.37, 12)
})

test('a channel holds before its first key and after its last', () => {
  const keys = [
    { frame: 2, value: 1, in: 1, out: 1 },
    { frame: 6, value: 3, in: 1, out: 1 },
  ]
  expect([0, 2, 4, 6, 9].map((f) => channelAt(keys, f))).toEqual([1, 1, 2, 3, 3])
  expect(channelAt([], 3)).toBe(0)
})
