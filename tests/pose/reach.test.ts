import { describe, expect, test } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { type BodyModel, makeBody, SIDES } from '../../src/body/model'
import { FLAT } from '../../src/contact/ground'
import { CHANNELS, type ChannelId, type Controls, isAngle } from '../../src/document/channels'
import type { ContactSpan } from '../../src/document/contacts'
import { reach } from '../../src/pose/reach'
import { makeStance, STANCES, type StanceId } from '../../src/pose/stances'
import type { ReachedPose } from '../../src/pose/types'
import { between, random } from '../../src/space/random'
import { distance, mirrorX, type Vec3 } from '../../src/space/vec'

const bodies = BUILDS.map((build) => makeBody(build.spec))
const adult = bodies[0] as BodyModel

function disturbed(controls: Controls, body: BodyModel, next: () => number, size = 0.25): Controls {
  return Object.fromEntries(
    CHANNELS.map((id) => [
      id,
      controls[id] + (isAngle(id) ? between(next, -0.5, 0.5) : between(next, -size, size) * body.stature),
    ]),
  ) as Controls
}

function lengthErrors(body: BodyModel, { joints: j }: ReachedPose): number[] {
  const l = body.lengths
  return SIDES.flatMap((s) => [
    distance(j[`hip${s}`], j[`knee${s}`]) - l.thigh,
    distance(j[`knee${s}`], j[`ankle${s}`]) - l.shank,
    distance(j[`shoulder${s}`], j[`elbow${s}`]) - l.upperArm,
    distance(j[`elbow${s}`], j[`wrist${s}`]) - l.forearm,
    distance(j[`wrist${s}`], j[`knuckle${s}`]) - l.hand,
    distance(j[`hip${s}`], j.midHip) - body.hipWidth / 2,
  ]).map((error) => Math.abs(error) / body.stature)
}

describe('limb lengths', () => {
  test('hold within 1e-6 of stature in 10,000 random requests', () => {
    const next = random(11)
    let worst = 0
    for (let i = 0; i < 10_000; i++) {
      const body = bodies[i % bodies.length] as BodyModel
      const stance = makeStance((STANCES[i % STANCES.length] as { id: StanceId }).id, body, FLAT)
      const pose = reach(body, disturbed(stance.controls, body, next), stance.contacts)
      worst = Math.max(worst, ...lengthErrors(body, pose))
      if (!Number.isFinite(worst)) throw new Error(`request ${i} gave a length that is no number`)
    }
    expect(worst).toBeLessThan(1e-6)
  })
})

describe('what is planted stays', () => {
  test('planted pads are where their contacts say, or are left out and the limb named', () => {
    const next = random(12)
    for (let i = 0; i < 2000; i++) {
      const body = bodies[i % bodies.length] as BodyModel
      const stance = makeStance((STANCES[i % STANCES.length] as { id: StanceId }).id, body, FLAT)
      const pose = reach(body, disturbed(stance.controls, body, next), stance.contacts)
      for (const contact of stance.contacts) {
        const pad = pose.pads.find((p) => p.id === contact.id)
        if (pad) expect(distance(pad.centre, contact.position)).toBeLessThan(1e-9 * body.stature)
        else expect(pose.limits.length).toBeGreaterThan(0)
      }
    }
  })

  test('knees planted too far apart are named, and nothing is stretched', () => {
    const stance = makeStance('tall-kneel', adult, FLAT)
    const contacts = stance.contacts.map((c) => ({
      ...c,
      position: [c.position[0] * 12, 0, c.position[2]] as Vec3,
    }))
    const pose = reach(adult, stance.controls, contacts)
    expect(pose.limits.map((l) => l.code)).toContain('apart')
    expect(Math.max(...lengthErrors(adult, pose))).toBeLessThan(1e-9)
    expect(pose.pads).toHaveLength(0)
  })
})

describe('asked and reached', () => {
  test('a reached pose asked for again is reached as it is, at the end of a limb too', () => {
    const next = random(13)
    let [worst, strained] = [0, 0]
    for (let i = 0; i < 1000; i++) {
      const body = bodies[i % bodies.length] as BodyModel
      const stance = makeStance((STANCES[i % STANCES.length] as { id: StanceId }).id, body, FLAT)
      const first = reach(body, disturbed(stance.controls, body, next, 0.1), stance.contacts)
      if (first.pads.length < stance.contacts.length) continue
      const second = reach(body, first.reached, stance.contacts)
      const joints = Object.keys(first.joints) as (keyof typeof first.joints)[]
      const apart = Math.max(
        ...joints.map((id) => distance(first.joints[id], second.joints[id]) / body.stature),
      )
      // A planted limb strained to its very end pulls too hard for that: rare, and always named.
      if (apart > 1e-6 && first.limits.some((l) => /^(arm|leg)-/.test(l.code))) strained++
      else worst = Math.max(worst, apart)
    }
    expect(worst).toBeLessThan(1e-6)
    expect(strained).toBeLessThan(20)
  })

  test('no nearer pelvis meets the same thighs: small moves along the free ways only add distance', () => {
    const stance = makeStance('tall-kneel', adult, FLAT)
    const asked = { ...stance.controls, 'pelvis.x': -0.2, 'pelvis.y': 0.5, 'pelvis.z': 0.05 }
    const far = (pose: ReachedPose) => {
      const d = distance(pose.joints.midHip, [asked['pelvis.x'], asked['pelvis.y'], asked['pelvis.z']])
      const list = 0.25 * (pose.reached['pelvis.list'] - asked['pelvis.list'])
      return (d / adult.stature) ** 2 + list ** 2
    }
    const best = far(reach(adult, asked, stance.contacts))
    const next = random(14)
    for (let i = 0; i < 400; i++) {
      const other: Controls = {
        ...asked,
        'pelvis.x': asked['pelvis.x'] + between(next, -0.1, 0.1),
        'pelvis.y': asked['pelvis.y'] + between(next, -0.1, 0.1),
        'pelvis.z': asked['pelvis.z'] + between(next, -0.1, 0.1),
        'pelvis.list': asked['pelvis.list'] + between(next, -0.3, 0.3),
      }
      expect(far(reach(adult, other, stance.contacts))).toBeGreaterThan(best - 1e-9)
    }
  })

  test('going sideways over planted knees the pelvis drops and the bearing hip rides high', () => {
    const stance = makeStance('tall-kneel', adult, FLAT)
    const start = reach(adult, stance.controls, stance.contacts)
    const asked = { ...stance.controls, 'pelvis.x': -0.16 }
    const shifted = reach(adult, asked, stance.contacts)
    expect(shifted.joints.midHip[0]).toBeLessThan(-0.1)
    expect(shifted.joints.midHip[1]).toBeLessThan(start.joints.midHip[1])
    expect(shifted.joints.hipR[1]).toBeGreaterThan(shifted.joints.hipL[1])
  })

  test('the pelvis follows a steady drag without a jump, through the end of an arm’s reach', () => {
    const stance = makeStance('hands-and-knees', adult, FLAT)
    let last: Vec3 | null = null
    for (let i = 0; i <= 400; i++) {
      const asked = { ...stance.controls, 'pelvis.y': stance.controls['pelvis.y'] + i * 0.001 }
      const at = reach(adult, asked, stance.contacts).joints.midHip
      if (last) expect(distance(at, last)).toBeLessThan(0.003)
      last = at
    }
  })

  test('the limb that stops the pelvis is named', () => {
    const stance = makeStance('hands-and-knees', adult, FLAT)
    const asked = { ...stance.controls, 'chest.tilt': -0.45 }
    const pose = reach(adult, asked, stance.contacts)
    expect(pose.limits.some((l) => l.code === 'arm-straight')).toBe(true)
    expect(pose.limits[0]?.text).toMatch(/arm|hand/)
  })

  test('a free hand asked out of reach stops short, its arm nearly straight', () => {
    const stance = makeStance('tall-kneel', adult, FLAT)
    const pose = reach(adult, { ...stance.controls, 'armL.hand.z': 3 }, stance.contacts)
    const full = adult.lengths.upperArm + adult.lengths.forearm + adult.lengths.hand
    const got = distance(pose.joints.shoulderL, pose.joints.knuckleL)
    expect(got).toBeLessThan(0.986 * full)
    expect(got).toBeGreaterThan(0.94 * full)
    expect(pose.limits.some((l) => l.limb === 'armL')).toBe(true)
  })
})

describe('mirror and size', () => {
  const mirrored = (controls: Controls): Controls =>
    Object.fromEntries(
      CHANNELS.map((id) => {
        const other = id.replace(/^(leg|arm)([LR])/, (_, limb, s) => `${limb}${s === 'L' ? 'R' : 'L'}`)
        const flips = /\.x$|^(pelvis|chest|head)\.(turn|list)$|^leg.\.turn$/.test(id)
        return [id, controls[other as ChannelId] * (flips ? -1 : 1)]
      }),
    ) as Controls
  const mirrorContact = (c: ContactSpan): ContactSpan => ({
    ...c,
    part: c.part.replace(/[LR]$/, (s) => (s === 'L' ? 'R' : 'L')) as ContactSpan['part'],
    position: mirrorX(c.position),
    heading: -c.heading,
  })

  test('a mirrored request gives the mirrored pose', () => {
    const next = random(15)
    for (const { id } of STANCES) {
      const stance = makeStance(id, adult, FLAT)
      const asked = disturbed(stance.controls, adult, next, 0.08)
      const a = reach(adult, asked, stance.contacts)
      const b = reach(adult, mirrored(asked), stance.contacts.map(mirrorContact))
      expect(distance(mirrorX(a.com), b.com)).toBeLessThan(1e-7)
      expect(distance(mirrorX(a.joints.elbowL), b.joints.elbowR)).toBeLessThan(1e-6)
      expect(distance(mirrorX(a.joints.kneeR), b.joints.kneeL)).toBeLessThan(1e-6)
    }
  })

  test('a body and request twice as large give the same pose twice as large', () => {
    const spec = BUILDS[0]?.spec as (typeof BUILDS)[number]['spec']
    const double = makeBody({
      ...spec,
      stature: spec.stature * 2,
      hipWidth: spec.hipWidth * 2,
      shoulderWidth: spec.shoulderWidth * 2,
    })
    const next = random(16)
    for (const { id } of STANCES) {
      const stance = makeStance(id, adult, FLAT)
      const asked = disturbed(stance.controls, adult, next, 0.1)
      const large = Object.fromEntries(CHANNELS.map((c) => [c, asked[c] * (isAngle(c) ? 1 : 2)])) as Controls
      const contacts = stance.contacts.map((c) => ({
        ...c,
        position: c.position.map((v) => v * 2) as unknown as Vec3,
      }))
      const a = reach(adult, asked, stance.contacts).com
      const b = reach(double, large, contacts).com
      expect(distance([a[0] * 2, a[1] * 2, a[2] * 2], b)).toBeLessThan(1e-6)
    }
  })
})
