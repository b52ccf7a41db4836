import { describe, expect, test } from 'vitest'
import { makeBody } from '../../src/body/model'
import type { Take } from '../../src/document/plan'
import { makeMotion } from '../../src/pose/between'
import { laggedFrame } from '../../src/pose/manner'
import { distance } from '../../src/space/vec'
import { capstone } from '../support/capstone'

const plan = capstone()
const body = makeBody(plan.body)
const take = plan.takes[0] as Take
const plain = makeMotion(body, take)
const lagging = (lags: Partial<Take['lags']>): Take => ({ ...take, lags: { ...take.lags, ...lags } })

describe('lead and lag', () => {
  test('a lagging head is where the head was those frames before, a leading one where it will be', () => {
    for (const lag of [3, -2, 1.5]) {
      const motion = makeMotion(body, lagging({ head: lag }))
      for (const frame of [12, 26, 37])
        expect(motion.poseAt(frame).reached['head.turn']).toBeCloseTo(
          makeMotion(body, lagging({ head: lag * 1e-9 })).poseAt(frame - lag).reached['head.turn'],
          6,
        )
    }
  })

  test('a limb between two contacts lags on the way and is on time at both ends', () => {
    const motion = makeMotion(body, lagging({ legL: 3 }))
    for (const frame of [20, 33, 85, 105])
      expect(distance(motion.poseAt(frame).joints.ankleL, plain.poseAt(frame).joints.ankleL)).toBeLessThan(
        1e-6,
      )
    const [late, there] = [motion.poseAt(62).joints.ankleL, plain.poseAt(62).joints.ankleL]
    expect(late[2]).toBeLessThan(there[2] - 0.05)
  })

  test('never turns time back', () => {
    for (const lag of [-12, -3, 3, 12]) {
      const lagged = lagging({ legL: lag })
      let last = Number.NEGATIVE_INFINITY
      for (let frame = 33; frame <= 85; frame += 0.25) {
        const at = laggedFrame(lagged, 'legL', frame)
        expect(at).toBeGreaterThan(last)
        last = at
      }
    }
  })
})

describe('arcs', () => {
  test('bow a free limb up and to the left in the middle, and not at their ends', () => {
    const arcs = [{ id: 'arc-1', limb: 'legL' as const, from: 40, to: 66, height: 0.12, side: 0.08 }]
    const motion = makeMotion(body, { ...take, arcs })
    const off = (frame: number) => {
      const [a, b] = [motion.poseAt(frame).joints.ankleL, plain.poseAt(frame).joints.ankleL]
      return [a[0] - b[0], a[1] - b[1]] as const
    }
    expect(off(40)[1]).toBeCloseTo(0, 6)
    expect(off(66)[1]).toBeCloseTo(0, 6)
    expect(off(53)[0]).toBeGreaterThan(0.05)
    expect(off(53)[1]).toBeGreaterThan(0.08)
  })

  test('leave planted limbs alone', () => {
    const arcs = [{ id: 'arc-1', limb: 'legR' as const, from: 10, to: 40, height: 0.3, side: 0 }]
    const motion = makeMotion(body, { ...take, arcs })
    expect(distance(motion.poseAt(25).joints.kneeR, plain.poseAt(25).joints.kneeR)).toBeLessThan(1e-9)
  })
})
