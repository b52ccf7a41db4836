import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { FormNode } from '../../src/plan/form'
import { keyedFramesOf, keyPosesOf } from '../../src/plan/key-poses'
import { PLAN_FORM } from '../../src/plan/plan-form'
import { readPlan } from '../../src/plan/read'
import { writePlan } from '../../src/plan/write'

const load = (name: string) => {
  const text = readFileSync(`tests/golden/${name}.json`, 'utf8')
  const read = readPlan(text)
  if (!read.ok) throw new Error(read.faults.map(({ message }) => message).join('\n'))
  return { text, plan: read.plan }
}

describe('files of version 1 of the plan format', () => {
  it.each(['plan-v1-full', 'plan-v1-least'])('%s is read, and written again to the letter', (name) => {
    const { text, plan } = load(name)
    expect(writePlan(plan)).toBe(text)
  })

  it('plan-v1-full says what it said when it was written', () => {
    const { plan } = load('plan-v1-full')
    expect(plan).toMatchObject({
      title: 'Over the stile',
      character: 'Ferryman’s child 🛶',
      rate: { num: 30000, den: 1001 },
      firstFrame: -8,
      gravity: 9.81,
      scene: { unit: 'in', unitsPerMetre: 39.37007874, root: [0, 0.05, -0.02] },
      ground: {
        grip: 'slippery',
        boxes: [
          { id: 'box-1', name: 'step', size: [0.8, 0.25, 0.4], turn: 0.3, grip: 'rough' },
          { id: 'box-2', name: 'wall "east"', position: [-1, 0, 0], turn: -0.125, grip: 'normal' },
        ],
      },
    })
    expect(plan.camera).toEqual({ position: [2.4, 1.1, 3.75], aim: [0, 0.45, 0.1], lens: 42.5 })
    expect(plan.stiffness).toEqual({ instep: 0.125, palm: 0.8 })
    expect(plan.body).toMatchObject({ stature: 1.15, blend: 0.5, length: { head: 1.5 }, bulk: { head: 1.3 } })
    const [first, second] = plan.takes
    expect(first).toMatchObject({
      id: 'take-1',
      name: '',
      length: 60,
      mover: { limb: 'armR', toesStay: true },
      exposure: 2,
      style: 'pushed',
      push: 1.35,
      pace: 0.8,
      lags: { chest: 1.5, head: 3, armL: 2, armR: -0.75, legL: 0, legR: -12 },
    })
    expect(first && keyPosesOf(first)).toEqual([0, 24, 59])
    expect(first && keyedFramesOf(first)[2]).toEqual({
      frame: 30,
      mark: 'breakdown',
      channels: ['chest.list', 'head.tilt', 'legL.knee.y'],
    })
    expect(first?.channels['legL.knee.y'][1]).toEqual({ frame: 24, value: 0.146774194, in: 1, out: 0 })
    expect(first?.contacts.map(({ id, kind, state }) => [id, kind, state])).toEqual([
      ['kneeL-1', 'kneecap', 'planted'],
      ['kneeL-2', 'kneecap', 'rolling'],
      ['kneeR-1', 'kneecap', 'planted'],
      ['footL-1', 'toes', 'planted'],
      ['footL-2', 'instep', 'sliding'],
      ['footR-1', 'sole', 'planted'],
      ['footR-2', 'ball', 'rolling'],
      ['handL-1', 'palm', 'planted'],
      ['handR-1', 'fist', 'planted'],
    ])
    expect(first?.arcs).toEqual([
      { id: 'arc-1', limb: 'legL', from: 24, to: 30, height: 0.12, side: 0.03 },
      { id: 'arc-2', limb: 'legL', from: 30, to: 40, height: -0.02, side: 0 },
      { id: 'arc-3', limb: 'armL', from: 41, to: 59, height: 0.3, side: -0.15 },
    ])
    expect(first?.accents).toEqual([
      { id: 'accent-1', frame: 24, name: 'fist closes – "tight"' },
      { id: 'accent-2', frame: 24, name: 'blink' },
    ])
    expect(first?.setAside).toEqual([
      { id: 'aside-1', rule: 'starts-together', from: 24, reason: 'He shuts his eyes\n\tas he grips.' },
    ])
    expect(first?.notes).toEqual([
      { id: 'note-1', frame: 12, text: 'Hips first,\n\tthen the "chest" – not both. 🪨' },
    ])
    expect(first?.loads.map(({ name, mass, on }) => [name, mass, on])).toEqual([
      ['rope', 3.5, 'hands'],
      ['pack', 8, 'back'],
    ])
    expect(first?.phases.map(({ name, from, to }) => [name, from, to])).toEqual([
      ['take-up', 28, 34],
      ['share', 30, 50],
    ])
    expect(second).toMatchObject({
      id: 'take-2',
      name: 'lean further',
      exposure: 3,
      style: 'graphic',
      arcs: [],
    })
    expect(second?.channels['pelvis.x'][1]?.value).toBe(0.123456789)
    expect(second?.contacts.filter(({ part }) => part === 'kneeR').map(({ from, to }) => [from, to])).toEqual(
      [
        [0, 9],
        [15, 59],
      ],
    )
  })

  it('plan-v1-least has one frame and nothing in its lists', () => {
    const { plan } = load('plan-v1-least')
    expect(plan.title).toBe('')
    expect(plan.takes).toHaveLength(1)
    expect(plan).toMatchObject({ camera: null, stiffness: {} })
    expect(plan.takes[0]).toMatchObject({
      length: 1,
      contacts: [],
      arcs: [],
      loads: [],
      phases: [],
      accents: [],
      notes: [],
      setAside: [],
    })
  })
})

describe('plan-v1-full', () => {
  it('holds every field of the format, every list with something in it, and both ways of what may be nothing', () => {
    const missing: string[] = []
    const values = ['plan-v1-full', 'plan-v1-least'].map((name) => JSON.parse(load(name).text))
    visit(PLAN_FORM, values, '', missing)
    expect(missing).toEqual([])
  })
})

/** Goes through a form beside every value that stands in its place, and notes what none of them has. */
function visit(form: FormNode, values: readonly unknown[], path: string, missing: string[]): void {
  if (values.length === 0) missing.push(path)
  else if (form.kind === 'nullable') {
    const there = values.filter((value) => value !== null)
    if (there.length === values.length) missing.push(`${path} as null`)
    visit(form.of, there, path, missing)
  } else if (form.kind === 'list') visit(form.of, values.flat(), `${path}/…`, missing)
  else if (form.kind === 'boolean') {
    for (const way of [true, false]) if (!values.includes(way)) missing.push(`${path} as ${way}`)
  } else if (form.kind === 'object' && !form.partial)
    for (const [name, field] of form.fields) {
      const inside = values.flatMap((value) => {
        const object = value as Record<string, unknown>
        return Object.hasOwn(object, name) ? [object[name]] : []
      })
      visit(field, inside, `${path}/${name}`, missing)
    }
}
