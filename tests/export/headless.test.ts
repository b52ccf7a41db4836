import { describe, expect, it } from 'vitest'
import type { Plan } from '../../src/document/plan'
import { weighTake } from '../../src/export/headless'
import { problemText, reportJson, takeText } from '../../src/export/headless-text'
import { weighProblem } from '../../src/export/problem'
import { checkProblem } from '../../src/plan/problem'
import { capstone, firstTake, weighed } from '../sheet/sheets'
import { stancePlan } from '../support/plans'

const demo = capstone()
const report = (plan: Plan) => weighTake(plan, firstTake(plan)).report

function problem(value: object) {
  const read = checkProblem({ format: 'weighbridge-problem', version: 1, ...value })
  if (!read.ok) throw new Error(read.faults.map(({ message }) => message).join('\n'))
  return read.problem
}

const point = (id: string, x: number, more: object = {}) => ({
  id,
  vertices: [[x, 0, 0]],
  normal: [0, 1, 0],
  friction: 0.5,
  ...more,
})

describe('the report of a take', () => {
  const { frames } = report(demo)

  it('has the promised fields and no others', () => {
    const fields = (value: object | undefined) => Object.keys(value ?? {})
    expect(frames).toHaveLength(firstTake(demo).length)
    for (const frame of frames) {
      expect(fields(frame)).toEqual(['frame', 'com', 'room', 'push', 'limbs', 'contacts'])
      for (const limb of frame.limbs)
        expect(fields(limb)).toEqual(['id', 'load', 'share', 'least', 'most', 'verdict', 'emptyAt', 'safeAt'])
      for (const contact of frame.contacts)
        expect(fields(contact)).toEqual(['id', 'load', 'share', 'least', 'most', 'frictionUsed'])
    }
  })

  it('numbers frames as the sheet does and speaks of all four limbs', () => {
    expect(frames[0]?.frame).toBe(1001)
    expect(frames[0]?.limbs.map(({ id }) => id)).toEqual(['legL', 'legR', 'armL', 'armR'])
    expect(frames[0]?.limbs[3]).toMatchObject({ verdict: 'off', load: 0, emptyAt: null, safeAt: null })
  })

  it('gives newtons that add up to the weight on level ground, each within its range', () => {
    const { limbs } = frames[0] as (typeof frames)[number]
    expect(limbs.reduce((sum, { load }) => sum + load, 0)).toBeCloseTo(420 * 9.81, 3)
    for (const { load, least, most } of limbs) {
      expect(least).toBeLessThanOrEqual(load + 1e-6)
      expect(most).toBeGreaterThanOrEqual(load - 1e-6)
    }
  })

  it('says the same numbers as the weighing the screen does', () => {
    const at = weighed(demo).at(0)
    expect(frames[0]?.room).toBe(at.weighing.room)
    expect(frames[0]?.limbs[0]?.emptyAt).toBe(at.verdicts.legL.empty?.distance)
    expect(frames[0]?.contacts.map(({ load }) => load)).toEqual(at.weighing.contacts.map(({ load }) => load))
  })

  it('has null for what is nowhere', () => {
    const plan = stancePlan('standing')
    const floating = { ...plan, takes: [{ ...firstTake(plan), contacts: [] }] }
    const frame = report(floating).frames[0]
    expect(frame?.room).toBeNull()
    expect(frame?.push).toBeCloseTo(plan.body.mass * 9.81, 3)
    expect(frame?.contacts).toEqual([])
  })

  it('is read back from its JSON', () => {
    expect(JSON.parse(reportJson({ frames }))).toEqual({ frames })
  })

  it('is a table of all frames with the verdict at every key pose', () => {
    const text = takeText(weighTake(demo, firstTake(demo)))
    const keys = weighed(demo).sheet.rows.filter(({ mark }) => mark.kind === 'key')
    expect(text.match(/^1\d\d\d {2}/gm)).toHaveLength(frames.length)
    expect(text.match(/^1\d\d\d: His left leg /gm)).toHaveLength(keys.length)
  })
})

describe('the report of a problem', () => {
  it('weighs a plank on two trestles: 711 N near, 466 N far', () => {
    // OpenStax University Physics vol. 1, section 12.2: scaffold 6 m, 70 kg; person 50 kg at 1.5 m from an end; g 9.80.
    const scaffold = problem({
      gravity: 9.8,
      mass: 70,
      com: [3, 0, 0],
      loads: [{ force: [0, -50 * 9.8, 0], at: [1.5, 0, 0] }],
      contacts: [point('near', 0), point('far', 6)],
    })
    const { frames } = weighProblem(scaffold)
    const [near = 0, far = 0] = frames[0]?.contacts.map(({ load }) => load) ?? []
    // Printed to the newton: 710.5 and 465.5.
    expect(Math.abs(near - 711)).toBeLessThan(0.51)
    expect(Math.abs(far - 466)).toBeLessThan(0.51)
    expect(frames).toHaveLength(1)
    expect(frames[0]?.frame).toBe(0)
    expect(frames[0]?.push).toBe(0)
  })

  it('turns an outside moment the right way', () => {
    // 10 N·m about +Z lifts the side at +X: with supports 1 m apart, 10 N move from there to the other side.
    const turned = problem({
      gravity: 10,
      mass: 10,
      com: [0, 0, 0],
      moment: [0, 0, 10],
      contacts: [point('minus', -0.5), point('plus', 0.5)],
    })
    const loads = weighProblem(turned).frames[0]?.contacts.map(({ load }) => load) ?? []
    expect(loads[0]).toBeCloseTo(60, 6)
    expect(loads[1]).toBeCloseTo(40, 6)
  })

  it('adds contacts of one limb and judges it as a whole', () => {
    const table = problem({
      mass: 10,
      com: [0.15, 0, 0],
      contacts: [
        point('a', 0, { limb: 'one' }),
        point('b', 0.2, { limb: 'one' }),
        point('c', 1, { limb: 'two' }),
      ],
    })
    const { limbs } = weighProblem(table).frames[0] ?? { limbs: [] }
    expect(limbs.map(({ id, verdict }) => `${id} ${verdict}`)).toEqual(['one pinned', 'two could let go'])
  })

  it('is a table for a terminal', () => {
    const text = problemText(
      weighProblem(problem({ mass: 10, com: [0, 1, 0], contacts: [point('foot', 0)] })),
    )
    expect(text).toMatch(/^foot +98\.1 +100\.0 %/m)
    expect(text).toMatch(/^foot +pinned +never +never/m)
  })
})
