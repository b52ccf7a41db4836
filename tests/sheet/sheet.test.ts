import { describe, expect, it } from 'vitest'
import { makeBody } from '../../src/body/model'
import { mirrorPlan } from '../../src/plan/mirror'
import { makeMotion } from '../../src/pose/between'
import { sheetOf } from '../../src/sheet/sheet'
import { radians } from '../../src/space/units'
import { stancePlan } from '../support/plans'
import { capstone, firstTake, rowAt, weighed, withPose } from './sheets'

const demo = weighed(capstone())

describe('the sheet’s header', () => {
  it('takes half the distance between the kneecaps, which the demo sets half a metre apart', () => {
    expect(demo.sheet.header.halfStance).toEqual({ length: 0.25, between: ['kneecap', 'kneecap'] })
  })

  it('takes the soles of a standing body, and a knee and a sole in a half kneel', () => {
    const between = (stance: 'standing' | 'half-kneel-left') =>
      weighed(stancePlan(stance)).sheet.header.halfStance?.between
    expect(between('standing')).toEqual(['sole', 'sole'])
    expect(between('half-kneel-left')).toEqual(['sole', 'kneecap'])
  })

  it('has no half-stance where a leg does not bear', () => {
    const plan = stancePlan('standing')
    const take = firstTake(plan)
    const oneLeg = {
      ...plan,
      takes: [{ ...take, contacts: take.contacts.filter((c) => c.part === 'footL') }],
    }
    expect(weighed(oneLeg).sheet.header.halfStance).toBeNull()
  })
})

describe('the sheet’s rows', () => {
  it('has one for every frame, labelled from the first frame’s number', () => {
    const { rows } = demo.sheet
    expect(rows).toHaveLength(demo.take.length)
    expect(rows.map(({ label }) => label)).toEqual(rows.map((_, i) => 1001 + i))
  })

  it('gives loads that add up to the whole, unless there is a push', () => {
    for (const row of demo.sheet.rows) {
      expect(row.balance?.push).toBe(0)
      const limbs = Object.values(row.limbs)
      const share = limbs.reduce((sum, { weight }) => sum + (weight?.share ?? Number.NaN), 0)
      const mass = limbs.reduce((sum, { weight }) => sum + (weight?.mass ?? Number.NaN), 0)
      expect(share).toBeCloseTo(1, 6)
      expect(mass).toBeCloseTo(demo.motion.poseAt(row.frame).mass, 3)
      for (const { weight } of limbs) expect(weight?.least).toBeLessThanOrEqual((weight?.share ?? 0) + 1e-9)
    }
  })

  it('says of every limb what its contacts say', () => {
    for (const row of demo.sheet.rows) {
      const pads = demo.motion.poseAt(row.frame).pads
      for (const [limb, { state }] of Object.entries(row.limbs))
        expect(state === 'off').toBe(!pads.some((pad) => pad.limb === limb))
    }
  })

  it('measures travel from the first frame, in the body’s own directions', () => {
    const first = rowAt(demo.sheet, 0).pelvis
    expect([first.side, first.up, first.fore]).toEqual([0, 0, 0])
    const plan = withPose(stancePlan('standing'), 10, { 'pelvis.x': -0.05, 'pelvis.y': 0.8 })
    const { sheet, motion } = weighed(plan)
    const [from, to] = [motion.poseAt(0).joints.midHip, motion.poseAt(10).joints.midHip]
    const { pelvis } = rowAt(sheet, 10)
    expect(pelvis.side).toBeCloseTo(to[0] - from[0], 12)
    expect(pelvis.side).toBeLessThan(-0.02)
    expect(pelvis.up).toBeCloseTo(to[1] - from[1], 12)
  })

  it('gives chest and head to the world and to their parent', () => {
    const tilt = radians(20)
    const plan = withPose(stancePlan('standing'), 10, {
      'pelvis.tilt': tilt,
      'chest.tilt': tilt,
      'head.tilt': -tilt,
    })
    const { chest, head, pelvis } = rowAt(weighed(plan).sheet, 10)
    const start = rowAt(weighed(plan).sheet, 0).chest.world.fore
    expect(chest.parent.fore).toBeCloseTo(tilt, 9)
    expect(chest.world.fore - start).toBeCloseTo(2 * tilt, 6)
    expect(head.parent.fore).toBeCloseTo(-tilt, 9)
    expect(head.world.fore - start).toBeCloseTo(tilt, 6)
    expect(pelvis.list).toBeCloseTo(0, 9)
  })

  it('measures thighs from plumb: upright in a tall kneel, level under the foot of a half kneel', () => {
    const tall = rowAt(weighed(stancePlan('tall-kneel')).sheet, 0).thighs
    expect(tall.L.angle).toBeLessThan(radians(8))
    expect(tall.L.angle).toBeCloseTo(tall.R.angle, 6)
    const half = rowAt(weighed(stancePlan('half-kneel-left')).sheet, 0).thighs
    expect(half.L.angle).toBeGreaterThan(radians(70))
    expect(half.L.fore).toBeLessThan(0)
    expect(half.R.angle).toBeLessThan(radians(15))
  })

  it('knows fists, flat and free hands, and which way elbows point', () => {
    const { hands } = rowAt(demo.sheet, 0)
    expect([hands.L.fingers, hands.R.fingers]).toEqual(['fist', 'free'])
    const crawling = rowAt(weighed(stancePlan('hands-and-knees')).sheet, 0).hands
    expect([crawling.L.fingers, crawling.R.fingers]).toEqual(['flat', 'flat'])
    const standing = rowAt(weighed(stancePlan('standing')).sheet, 0).hands
    expect(standing.L.elbow).toBe('back')
    expect(standing.L.elbowBend).toBeCloseTo(standing.R.elbowBend, 6)
  })

  it('clears nothing while the mover touches, and something while it is off', () => {
    const off = demo.sheet.rows.filter(({ limbs }) => limbs.legL.state === 'off')
    expect(off.length).toBeGreaterThan(3)
    for (const { limbs, clearance } of demo.sheet.rows)
      if (limbs.legL.state !== 'off') expect(clearance).toBe(0)
    expect(Math.max(...off.map(({ clearance }) => clearance))).toBeGreaterThan(0.02)
  })

  it('takes the mover along its path from 0 at its last contact to 1 where it touches', () => {
    const paths = demo.sheet.rows.map(({ path }) => path)
    const start = paths.findIndex((path) => path !== null)
    const end = paths.findIndex((path, i) => i > start && path === 1)
    expect(paths[start]).toBe(0)
    expect(rowAt(demo.sheet, end).limbs.legL.state).toBe('down')
    for (let i = start + 1; i <= end; i++) expect(paths[i]).toBeGreaterThan(paths[i - 1] as number)
  })

  it('has states without loads while frames are not weighed', () => {
    const plan = capstone()
    const take = firstTake(plan)
    const sheet = sheetOf(plan, take, makeMotion(makeBody(plan.body), take), () => undefined)
    expect(rowAt(sheet, 0).balance).toBeNull()
    expect(rowAt(sheet, 0).limbs.legL).toEqual({ state: 'down', weight: null })
    expect(rowAt(sheet, 0).limbs.armR.state).toBe('off')
  })

  it('carries notes and phases', () => {
    const note = demo.take.notes[0]
    expect(rowAt(demo.sheet, note?.frame as number).note).toBe(note?.text)
    const { rows } = demo.sheet
    expect(rows[0]?.phases).toEqual([{ id: 'ready', name: 'ready', begins: true, ends: false }])
  })

  it('is plain data that can be sent to another thread', () => {
    expect(structuredClone(demo.sheet)).toEqual(demo.sheet)
  })

  it('of the mirrored plan is the mirrored sheet', () => {
    const mirrored = weighed(mirrorPlan(capstone()))
    demo.sheet.rows.forEach((row, i) => {
      const other = rowAt(mirrored.sheet, i)
      expect(other.pelvis.side).toBeCloseTo(-row.pelvis.side, 7)
      expect(other.pelvis.fore).toBeCloseTo(row.pelvis.fore, 7)
      expect(other.pelvis.list).toBeCloseTo(-row.pelvis.list, 7)
      expect(other.chest.world.side).toBeCloseTo(-row.chest.world.side, 7)
      expect(other.thighs.R.angle).toBeCloseTo(row.thighs.L.angle, 7)
      expect(other.hands.R.elbow).toBe(row.hands.L.elbow)
      expect(other.limbs.legR.weight?.share).toBeCloseTo(row.limbs.legL.weight?.share ?? Number.NaN, 6)
      expect(other.clearance).toBeCloseTo(row.clearance, 7)
      expect(other.mark.progress ?? -1).toBeCloseTo(row.mark.progress ?? -1, 7)
    })
  })
})
