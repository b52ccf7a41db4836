import { describe, expect, test } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { type BodyModel, makeBody, SEGMENTS, type SegmentId, SIDES } from '../../src/body/model'
import type { BodySpec } from '../../src/body/spec'
import { DE_LEVA } from '../../src/body/tables'
import { FLAT } from '../../src/contact/ground'
import type { Controls } from '../../src/document/channels'
import { centreOfMass } from '../../src/pose/mass'
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
  /**
   * @checks masses of all segments together
   * @against 100.00 % of the body for men, 99.99 % for women
   * @from de Leva (1996), Table 4; read
   * @within 5e-7 of the body
   */
  test('mass fractions add up as published (de Leva 1996: 100.00 % male, 99.99 % female; read)', () => {
    const total = (sex: 'male' | 'female') =>
      SEGMENTS.reduce(
        (sum, id) => sum + DE_LEVA[id.replace(/[LR]$/, '') as keyof typeof DE_LEVA][sex].mass,
        0,
      )
    expect(total('male')).toBeCloseTo(100.0, 6)
    expect(total('female')).toBeCloseTo(99.99, 6)
  })

  /**
   * @checks a body of the mean man’s stature and mass
   * @against thigh 422.2 mm and 14.16 % of the mass, shank 440.3 mm
   * @from de Leva (1996), Table 4; read
   * @within 5e-10
   */
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
  /**
   * @checks centre of mass of a body that stands, arms down, over its stature
   * @against 55.5 % (men), 55.4 % (women)
   * @from de Leva (1996), Table 4; derived
   * @within 0.15 %
   */
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

  /**
   * @checks centre of mass in a tall kneel, and what the toes carry
   * @against 30.1 % of stature above the knee, 30 mm behind it, 12.4 %
   * @from de Leva (1996), Table 4; derived
   * @within 0.4 %, 6 mm, 1 %
   */
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

  /**
   * @checks the hands’ share on hands and knees
   * @against 38.5 % (men), 39.4 % (women)
   * @from de Leva (1996), Table 4; derived
   * @within 0.8 %
   */
  test('hands and knees, thighs and arms upright: the hands carry 38.5 % (male), 39.4 % (female) (derived)', () => {
    for (const [sex, fraction] of [
      ['male', 0.385],
      ['female', 0.394],
    ] as const) {
      const body = meanBody(sex)
      const stance = makeStance('hands-and-knees', body, FLAT)
      const asked: Record<string, number> = { ...stance.controls, 'pelvis.tilt': Math.PI / 2, 'head.tilt': 0 }
      // Only the knees and feet are planted; the arms hang straight down from the level trunk's shoulders.
      const legs = stance.contacts.filter((c) => !c.part.startsWith('hand'))
      const first = reach(body, asked as Controls, legs)
      for (const side of SIDES) {
        const [x, y, z] = first.joints[`shoulder${side}`]
        asked[`arm${side}.hand.x`] = x
        asked[`arm${side}.hand.y`] = y - 2
        asked[`arm${side}.hand.z`] = z
      }
      const pose = reach(body, asked as Controls, legs)
      const share = (pose.com[2] - pose.joints.kneeL[2]) / (pose.joints.shoulderL[2] - pose.joints.kneeL[2])
      // The feet lie where this body's insteps put them, which the published figure leaves open.
      expect(Math.abs(share - fraction)).toBeLessThan(0.008)
    }
  })

  /**
   * @checks the hands’ share on hands and toes, arms straight
   * @against 69.9 %
   * @from de Leva (1996), Table 4; derived
   * @within 0.6 %
   */
  test('on hands and toes with straight arms (push-up) the hands carry 69.9 % (derived, male)', () => {
    // Measured 69.16 %, attributed from memory to Suprak et al. (2011). A straight body with its arms
    // square to it weighs on hands and toes as it would standing with its arms held level.
    const body = meanBody('male')
    const stance = makeStance('standing', body, FLAT)
    const asked: Record<string, number> = { ...stance.controls, 'pelvis.y': 2 }
    const first = reach(body, asked as Controls, stance.contacts)
    for (const side of SIDES) {
      const [x, y, z] = first.joints[`shoulder${side}`]
      asked[`arm${side}.hand.x`] = x
      asked[`arm${side}.hand.y`] = y
      asked[`arm${side}.hand.z`] = z + 2
    }
    const { com, joints } = reach(body, asked as Controls, stance.contacts)
    const share = (com[1] - joints.ankleL[1]) / (joints.shoulderL[1] - joints.ankleL[1])
    expect(Math.abs(share - 0.699)).toBeLessThan(0.006)
  })
})

describe('centres of mass', () => {
  const onLine = (parts: readonly (readonly [number, number])[]) =>
    centreOfMass(parts.map(([mass, x]) => ({ mass, at: [x, 0, 0] as Vec3 }))).com[0]

  /**
   * @checks centre of three weights
   * @against 0.80 m
   * @from Baker & Haynes, Engineering Statics, ch. 7; read
   * @within 5e-13 m
   */
  test('three weights: 50, 10, 30 N at 0, 1.2, 2.0 m balance at 0.80 m (Baker & Haynes, Engineering Statics ch. 7; read)', () => {
    expect(
      onLine([
        [50, 0],
        [10, 1.2],
        [30, 2],
      ]),
    ).toBeCloseTo(0.8, 12)
  })

  /**
   * @checks centre of a leg from its markers
   * @against 0.818 m and 0.584 m
   * @from Winter (2009), Table 4.1; derived
   * @within 0.5 mm
   */
  test('lower limb centre from Winter (2009) Table 4.1 and markers: (0.818, 0.584) m (derived from read inputs)', () => {
    const along = (a: readonly number[], b: readonly number[], share: number): Vec3 => [
      (a[0] as number) + ((b[0] as number) - (a[0] as number)) * share,
      (a[1] as number) + ((b[1] as number) - (a[1] as number)) * share,
      0,
    ]
    const [toe, ankle, knee, hip] = [
      [1.011, 0.013],
      [0.849, 0.11],
      [0.864, 0.549],
      [0.721, 0.928],
    ] as const
    const foot = along(ankle, toe, 0.5)
    const leg = along(knee, ankle, 0.433)
    const thigh = along(hip, knee, 0.433)
    const published = [0.93, 0.062, 0.858, 0.359, 0.783, 0.764]
    for (const [i, value] of [foot, leg, thigh].flatMap((p) => p.slice(0, 2)).entries())
      expect(Math.abs(value - (published[i] as number))).toBeLessThan(0.00101)
    const { com } = centreOfMass([
      { mass: 0.0145, at: foot },
      { mass: 0.0465, at: leg },
      { mass: 0.1, at: thigh },
    ])
    expect(com[0]).toBeCloseTo(0.818, 3)
    expect(com[1]).toBeCloseTo(0.584, 3)
  })

  /**
   * @checks centre of a standing body by another table
   * @against 58.3 % of stature
   * @from Winter (2009), Table 4.1, with lengths of Drillis & Contini (1966); derived
   * @within 0.5 %
   */
  test('Winter’s table puts the standing centre at 58.3 % of stature, 3 % above de Leva’s (derived)', () => {
    // Drillis & Contini heights as fractions of stature; Winter's mass fractions and centres.
    const [ankle, knee, hip, shoulder] = [0.039, 0.285, 0.53, 0.818]
    const arm = (drop: number, length: number, share: number) => shoulder - drop - length * share
    const com = centreOfMass([
      { mass: 2 * 0.0145, at: [ankle / 2, 0, 0] },
      { mass: 2 * 0.0465, at: [knee - (knee - ankle) * 0.433, 0, 0] },
      { mass: 2 * 0.1, at: [hip - (hip - knee) * 0.433, 0, 0] },
      { mass: 0.578, at: [hip + (shoulder - hip) * 0.66, 0, 0] },
      { mass: 2 * 0.028, at: [arm(0, 0.186, 0.436), 0, 0] },
      { mass: 2 * 0.016, at: [arm(0.186, 0.146, 0.43), 0, 0] },
      { mass: 2 * 0.006, at: [arm(0.186 + 0.146, 0.108, 0.506), 0, 0] },
    ]).com[0]
    expect(com).toBeCloseTo(0.583, 2)
  })
})
