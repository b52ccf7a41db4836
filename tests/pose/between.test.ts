import { describe, expect, test } from 'vitest'
import { makeBody, SIDES } from '../../src/body/model'
import type { Take } from '../../src/document/plan'
import { makeMotion } from '../../src/pose/between'
import { Curve, channelAt, knotsOf } from '../../src/pose/curve'
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

describe('curves', () => {
  const keys = [
    { frame: 0, value: 0, in: 0.5, out: 0.5 },
    { frame: 7, value: 1, in: 0, out: 0.4 },
    { frame: 12, value: 4, in: 0.3, out: 1 },
    { frame: 20, value: 2, in: 1, out: 0 },
    { frame: 31, value: 2, in: 0.2, out: 0.2 },
  ]
  const curve = new Curve(knotsOf(keys))

  test('run through their keys and hold before the first and after the last', () => {
    for (const { frame, value } of keys) expect(curve.at(frame)).toBeCloseTo(value, 12)
    expect(curve.at(-5)).toBe(0)
    expect(curve.at(99)).toBe(2)
    expect(channelAt([], 3)).toBe(0)
  })

  test('are smooth to the second slope at every key', () => {
    const h = 1e-3
    for (const { frame } of keys) {
      const slope = (t: number) => (curve.at(t + h) - curve.at(t - h)) / (2 * h)
      expect(Math.abs(slope(frame + 2 * h) - slope(frame - 2 * h))).toBeLessThan(2e-4)
      const bend = (t: number) => (curve.at(t + h) - 2 * curve.at(t) + curve.at(t - h)) / h ** 2
      expect(Math.abs(bend(frame + 2 * h) - bend(frame - 2 * h))).toBeLessThan(0.03)
    }
  })

  test('stay between their keys, and a hold holds', () => {
    for (let frame = 0; frame <= 20; frame += 0.1) {
      const [a, b] = frame < 7 ? [0, 1] : frame < 12 ? [1, 4] : [2, 4]
      expect(curve.at(frame)).toBeGreaterThan(a - 1e-9)
      expect(curve.at(frame)).toBeLessThan(b + 1e-9)
    }
    for (let frame = 20; frame <= 31; frame++) expect(curve.at(frame)).toBeCloseTo(2, 12)
  })

  test('rest at a fully eased key, and lag behind where the way out is slower than the way in', () => {
    const h = 1e-4
    expect(Math.abs(curve.at(12 + h) - curve.at(12)) / h).toBeLessThan(1e-4)
    const middle = (out: number, into: number) =>
      channelAt(
        [
          { frame: 0, value: 0, in: 0, out },
          { frame: 10, value: 1, in: into, out: 0 },
        ],
        5,
      )
    expect(middle(0.5, 0.5)).toBeCloseTo(0.5, 12)
    expect(middle(1, 0)).toBeLessThan(0.4)
    expect(middle(0, 1)).toBeGreaterThan(0.6)
  })
})

describe('switches of contacts', () => {
  // Velocity and acceleration of the weight just before and just after every change of contacts.
  // Where the fist leaves, its wrist swings a centimetre into the arm's own plane: there the pelvis is looked at.
  const com = (frame: number) => motion.poseAt(frame).com
  const hips = (frame: number) => motion.poseAt(frame).joints.midHip
  test.each([
    ['weight', 33, com],
    ['weight', 70, com],
    ['pelvis', 88, hips],
  ] as const)('the %s has one velocity and one acceleration at frame %i', (_, border, place) => {
    const side = (s: 1 | -1, axis: 0 | 1 | 2) => {
      const h = 0.05 * s
      const p = [0, 1, 2, 3].map((k) => place(border + k * h)[axis]) as [number, number, number, number]
      // The border itself belongs to the stretch with more contacts.
      return {
        velocity: (-11 * p[0] + 18 * p[1] - 9 * p[2] + 2 * p[3]) / (6 * h),
        acceleration: (2 * p[0] - 5 * p[1] + 4 * p[2] - p[3]) / (h * h),
      }
    }
    for (const axis of [0, 1, 2] as const) {
      const [before, after] = [side(-1, axis), side(1, axis)]
      // m per frame and m per frame²; at 24 fps 2e-4 m/frame² is 1.2 % of gravity at one instant.
      expect(Math.abs(before.velocity - after.velocity)).toBeLessThan(1e-4)
      expect(Math.abs(before.acceleration - after.acceleration)).toBeLessThan(2e-4)
    }
  })
})
