import { describe, expect, test } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { type BodyModel, makeBody, SEGMENTS, type SegmentId } from '../../src/body/model'
import type { BodySpec } from '../../src/body/spec'
import { DE_LEVA } from '../../src/body/tables'
import { reach } from '../../src/pose/reach'
import { makeStance } from '../../src/pose/stances'
import type { Vec3 } from '../../src/space/vec'

// de Leva (1996), J Biomech 29(9):1223–1230, Table 4: mean subjects.
const MEAN = { male: { stature: 1.741, mass: 73.0 }, female: { stature: 1.735, mass: 61.9 } }

function meanBody(sex: 'male' | 'female'): BodyModel {
  const spec = BUILDS.find((b) => b.id === 'adult')?.spec as BodySpec
  return makeBody({ ...spec, ...MEAN[sex], blend: sex === 'male' ? 1 : 0 })
}

const massOf = (body: BodyModel, ids: readonly SegmentId[]) =>
  ids.reduce((sum, id) => sum + body.segments[id].mass, 0)

/** Centre of some segments, from their centres along one axis. */
function centreOf(body: BodyModel, at: Partial<Record<SegmentId, Vec3>>): Vec3 {
  const ids = Object.keys(at) as SegmentId[]
  const total = massOf(body, ids)
  const axis = (i: 0 | 1 | 2) =>
    ids.reduce((sum, id) => sum + body.segments[id].mass * (at[id] as Vec3)[i], 0) / total
  return [axis(0), axis(1), axis(2)]
}

describe('segment table', () => {
  test('mass fractions add up as published (de Leva 1996: 100.00 % male, 99.99 % female; read)', () => {
    const total = (sex: 'male' | 'female') =>
      SEGMENTS.reduce(
        (sum, id) => sum + DE_LEVA[id.replace(/[LR]$/, '') as keyof typeof DE_LEVA][sex].mass,
        0,
      )
    expect(total('male')).toBeCloseTo(100.0, 6)
    expect(total('female')).toBeCloseTo(99.99, 6)
  })

  test('a body of the mean subject has the mean subject’s segment lengths and masses', () => {
    const body = meanBody('male')
    expect(body.lengths.thigh).toBeCloseTo(0.4222, 9)
    expect(body.lengths.shank).toBeCloseTo(0.4403, 9)
    expect(body.segments.thighL.mass).toBeCloseTo(0.1416 * 73, 9)
    // Radii of gyration of the thigh 32.9, 32.9 and 14.9 % of its length.
    const radius = Math.sqrt(body.segments.thighL.inertia[1] / body.segments.thighL.mass)
    expect(radius).toBeCloseTo(0.149 * 0.4222, 9)
  })
})

describe('whole body', () => {
  test.each([
    // Derived from the same table's segments stacked, arms down: 55.5 % and 55.4 % of stature.
    ['male', 0.555],
    ['female', 0.554],
  ] as const)('standing centre of mass, %s', (sex, fraction) => {
    const body = meanBody(sex)
    const { lengths: l } = body
    const hip = l.ankleHeight + l.shank + l.thigh
    const breast = hip + l.lowerTrunk + l.middleTrunk
    const shoulder = breast + l.shoulderOnUpperTrunk
    const base: Record<string, number> = {
      foot: l.ankleHeight,
      shank: hip - l.thigh,
      thigh: hip,
      lowerTrunk: hip,
      middleTrunk: hip + l.lowerTrunk,
      upperTrunk: breast,
      head: breast + l.upperTrunk,
      upperArm: shoulder,
      forearm: shoulder - l.upperArm,
      hand: shoulder - l.upperArm - l.forearm,
    }
    const at = Object.fromEntries(
      SEGMENTS.map((id) => [
        id,
        [0, (base[id.replace(/[LR]$/, '')] as number) + body.segments[id].com[1], 0] as Vec3,
      ]),
    )
    expect(centreOf(body, at)[1] / body.stature).toBeCloseTo(fraction, 2)
    expect(Math.abs(centreOf(body, at)[1] / body.stature - fraction)).toBeLessThan(0.0015)
  })

  test('tall kneel, thighs and trunk upright, arms hanging (derived from the table, male)', () => {
    const body = meanBody('male')
    const stance = makeStance('tall-kneel', body, { grip: 'normal', boxes: [] })
    const hanging = { ...stance.controls }
    for (const side of ['L', 'R'] as const) {
      const x = (side === 'L' ? 1 : -1) * (body.shoulderWidth / 2)
      hanging[`arm${side}.hand.x`] = x
      hanging[`arm${side}.hand.z`] = 0
    }
    const pose = reach(body, hanging, stance.contacts)
    const above = (pose.com[1] - pose.joints.kneeL[1]) / body.stature
    // 0.301 of stature above the knee joint, 30 mm behind it.
    expect(Math.abs(above - 0.301)).toBeLessThan(0.004)
    expect(Math.abs(pose.joints.kneeL[2] - pose.com[2] - 0.03)).toBeLessThan(0.006)
    // Kneecap's contact 40 mm ahead, toes 530 mm behind: the toes carry 12.4 %.
    const share = (0.04 + (pose.joints.kneeL[2] - pose.com[2])) / (0.04 + 0.53)
    expect(Math.abs(share - 0.124)).toBeLessThan(0.01)
  })
})
