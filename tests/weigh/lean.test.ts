import { describe, expect, test } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { makeBody } from '../../src/body/model'
import { FLAT } from '../../src/contact/ground'
import type { LimbId } from '../../src/document/contacts'
import { reach } from '../../src/pose/reach'
import { makeStance, STANCES } from '../../src/pose/stances'
import { findLeans, type LeanStance } from '../../src/weigh/lean'
import { weighPose } from '../../src/weigh/pose'

const stanceOf = (build: number, id: (typeof STANCES)[number]['id'], limb: LimbId): LeanStance => {
  const body = makeBody((BUILDS[build] as (typeof BUILDS)[number]).spec)
  const { controls, contacts } = makeStance(id, body, FLAT)
  return {
    body,
    ground: FLAT,
    gravity: 9.81,
    controls,
    contacts,
    loads: [],
    mover: { limb, toesStay: false },
  }
}

const judge = (s: LeanStance, controls = s.controls) =>
  weighPose(s.ground, s.gravity, s.body.stature, reach(s.body, controls, s.contacts)).judge(s.mover)

describe('leans that empty a mover', () => {
  test('every lean offered as working frees the mover when its pose is weighed again from scratch', () => {
    let offered = 0
    for (const [build] of BUILDS.entries())
      for (const { id } of STANCES)
        for (const limb of ['legL', 'legR'] as const) {
          const stance = stanceOf(build, id, limb)
          for (const lean of findLeans(stance)) {
            if (!lean.works) {
              expect(lean.short).toBeGreaterThan(0)
              continue
            }
            offered++
            expect(['empty', 'could let go']).toContain(judge(stance, lean.controls).kind)
          }
        }
    expect(offered).toBeGreaterThan(20)
  })

  test('the pelvis comes first, and goes to the side that stays down', () => {
    const left = findLeans(stanceOf(0, 'tall-kneel', 'legL'))[0]
    const right = findLeans(stanceOf(0, 'tall-kneel', 'legR'))[0]
    expect(left?.kind).toBe('pelvis')
    expect(left?.travel[0]).toBeLessThan(-0.05)
    expect(right?.travel[0]).toBeCloseTo(-(left?.travel[0] as number), 4)
  })

  test('nothing is offered for a limb that is off or free already', () => {
    expect(findLeans(stanceOf(0, 'tall-kneel', 'armL'))).toEqual([])
    expect(findLeans(stanceOf(0, 'hands-and-knees', 'armL'))).toEqual([])
  })

  test('weight moves by two thirds to nine tenths of the pelvis (a prototype measured about 0.77)', () => {
    const stance = stanceOf(0, 'tall-kneel', 'legL')
    const lean = findLeans(stance)[0]
    if (!lean) throw new Error('no lean found')
    const before = reach(stance.body, stance.controls, stance.contacts).com[0]
    const after = reach(stance.body, lean.controls, stance.contacts).com[0]
    const ratio = (after - before) / lean.travel[0]
    expect(ratio).toBeGreaterThan(0.6)
    expect(ratio).toBeLessThan(0.95)
  })
})
