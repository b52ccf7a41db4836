import { describe, expect, it } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { BODY_LIMITS } from '../../src/body/spec'
import { LIMITS } from '../../src/document/limits'
import { setBody, setCamera, setHeader, setStiffness } from '../../src/plan/edit/head'
import { resizePlan } from '../../src/plan/edit/resize'
import {
  addTake,
  deleteTake,
  duplicateTake,
  newTakeId,
  renameTake,
  replaceTake,
  setLag,
  setManner,
  setMover,
} from '../../src/plan/edit/takes'
import { accents, arcs, loads, notes, phases, setAside } from '../../src/plan/edit/things'
import { faultsOf } from '../../src/plan/read'
import { random } from '../../src/space/random'
import { randomPlan } from './random-plan'
import { firstTake, smallPlan } from './small'

const T = 'take-1'
const plan = smallPlan()
const ARC = { limb: 'legL', height: 0.2, side: -0.1 } as const

describe('takes', () => {
  it('are duplicated right after the first, sharing everything', () => {
    const two = duplicateTake(plan, T, 'lean further')
    const three = duplicateTake(two, T, 'again')
    expect(three.takes.map(({ id, name }) => [id, name])).toEqual([
      ['take-1', 'Take 1'],
      ['take-3', 'again'],
      ['take-2', 'lean further'],
    ])
    expect(two.takes[1]?.channels).toBe(firstTake(plan).channels)
    expect(newTakeId(three)).toBe('take-4')
  })

  it('stop at the limit, and the only one stays', () => {
    let many = plan
    for (let i = 0; i < LIMITS.takes + 3; i++) many = addTake(many, firstTake(plan))
    expect(many.takes).toHaveLength(LIMITS.takes)
    expect(deleteTake(plan, T)).toBe(plan)
    expect(deleteTake(duplicateTake(plan, T, 'b'), T).takes.map(({ name }) => name)).toEqual(['b'])
  })

  it('have a manner of their own, within limits', () => {
    const styled = setManner(plan, T, { style: 'pushed', push: 3, exposure: 2, pace: -1 })
    expect(firstTake(styled)).toMatchObject({ style: 'pushed', push: 2, exposure: 2, pace: 0 })
    expect(setManner(styled, T, { push: 2 })).toBe(styled)
    const lagged = setLag(setLag(plan, T, 'head', 2.5), T, 'armL', -40)
    expect(firstTake(lagged).lags).toEqual({ chest: 0, head: 2.5, armL: -12, armR: 0, legL: 0, legR: 0 })
    expect(setLag(lagged, T, 'head', 2.5)).toBe(lagged)
    const copy = duplicateTake(arcs.add(lagged, T, { ...ARC, from: 0, to: 9 }), T, 'again')
    expect(copy.takes[1]).toEqual({ ...firstTake(copy), id: 'take-2', name: 'again' })
    expect(() => setLag(plan, T, 'head', Number.NaN)).toThrow(RangeError)
  })

  it('are renamed, replaced and given a mover', () => {
    expect(firstTake(renameTake(plan, T, 'a\nb')).name).toBe('a b')
    expect(renameTake(plan, T, 'Take 1')).toBe(plan)
    const other = { ...firstTake(plan), length: 30 }
    expect(replaceTake(plan, other).takes).toEqual([other])
    expect(firstTake(setMover(plan, T, { limb: 'armR', toesStay: false })).mover.limb).toBe('armR')
    expect(setMover(plan, T, { limb: 'legL', toesStay: false })).toBe(plan)
  })
})

describe('notes, phases and loads', () => {
  it('are added, changed and deleted; frames come into the take', () => {
    const noted = notes.add(notes.add(plan, T, { frame: 3, text: 'one' }), T, {
      frame: 99,
      text: 'two\r\nlines',
    })
    expect(firstTake(noted).notes).toEqual([
      { id: 'note-1', frame: 3, text: 'one' },
      { id: 'note-2', frame: 23, text: 'two\nlines' },
    ])
    const changed = notes.change(noted, T, 'note-1', { text: 'first' })
    expect(firstTake(changed).notes[0]).toEqual({ id: 'note-1', frame: 3, text: 'first' })
    expect(firstTake(changed).notes[1]).toBe(firstTake(noted).notes[1])
    expect(notes.change(noted, T, 'note-1', { text: 'one' })).toBe(noted)
    expect(firstTake(notes.delete(noted, T, 'note-1')).notes.map(({ id }) => id)).toEqual(['note-2'])
    expect(() => notes.delete(plan, T, 'note-1')).toThrow(/no "note-1" among none/)
  })

  it('have spans whose ends are in order', () => {
    const phased = phases.add(plan, T, { name: 'lean', from: 9, to: 4 })
    expect(firstTake(phased).phases).toEqual([{ id: 'phase-1', name: 'lean', from: 4, to: 9 }])
  })

  it('stop at the limit', () => {
    let many = plan
    const pack = { name: 'pack', mass: 5, on: 'back', offset: [0, 0, 0], from: 0, to: 23 } as const
    for (let i = 0; i < LIMITS.loads; i++) many = loads.add(many, T, pack)
    expect(loads.add(many, T, pack)).toBe(many)
    const take = firstTake(plan)
    const one = { id: 'aside-1', rule: 'r', from: 0, reason: '' }
    const full = Array.from({ length: LIMITS.setAside }, (_, i) => ({ ...one, id: `aside-${i}` }))
    const crowded = { ...plan, takes: [{ ...take, setAside: full }] }
    expect(setAside.add(crowded, T, one)).toBe(crowded)
  })

  it('are accents and notes set aside too', () => {
    const marked = accents.add(plan, T, { frame: 99, name: 'gear\nopens' })
    expect(firstTake(marked).accents).toEqual([{ id: 'accent-1', frame: 23, name: 'gear opens' }])
    const kept = setAside.add(plan, T, { rule: 'stops-dead', from: -4, reason: 'he hits\r\nthe wall' })
    expect(firstTake(kept).setAside).toEqual([
      { id: 'aside-1', rule: 'stops-dead', from: 0, reason: 'he hits\nthe wall' },
    ])
    expect(() => setAside.add(plan, T, { rule: 'no id', from: 0, reason: '' })).toThrow(RangeError)
  })
})

describe('arcs', () => {
  const spans = (p: typeof plan) => firstTake(p).arcs.map(({ id, from, to }) => [id, from, to])
  const two = arcs.add(arcs.add(plan, T, { ...ARC, from: 0, to: 10 }), T, { ...ARC, from: 20, to: 10 })

  it('may share a frame; one that overlaps others of its limb takes their place', () => {
    expect(spans(two)).toEqual([
      ['arc-1', 0, 10],
      ['arc-2', 10, 20],
    ])
    expect(spans(arcs.add(two, T, { ...ARC, from: 9, to: 11 }))).toEqual([['arc-3', 9, 11]])
    expect(spans(arcs.add(two, T, { ...ARC, limb: 'legR', from: 9, to: 11 }))).toHaveLength(3)
    expect(spans(arcs.change(two, T, 'arc-1', { to: 12 }))).toEqual([['arc-1', 0, 12]])
    expect(arcs.change(two, T, 'arc-1', { to: 10 })).toBe(two)
  })

  it('last a frame at least, and a take of one frame has none', () => {
    expect(spans(arcs.add(plan, T, { ...ARC, from: 99, to: 99 }))).toEqual([['arc-1', 22, 23]])
    expect(spans(arcs.change(two, T, 'arc-1', { to: 0 }))[0]).toEqual(['arc-1', 0, 1])
    const still = { ...plan, takes: [{ ...firstTake(plan), length: 1 }] }
    expect(arcs.add(still, T, { ...ARC, from: 0, to: 10 })).toBe(still)
  })
})

describe('the head of the sheet and the body', () => {
  it('are changed within their limits', () => {
    expect(setHeader(plan, { rate: { num: 24000, den: 1001 } }).rate).toEqual({ num: 24000, den: 1001 })
    expect(setHeader(plan, { rate: { num: 1, den: 3 } })).toBe(plan)
    expect(setHeader(plan, { gravity: 1e9 }).gravity).toBe(LIMITS.gravity[1])
    expect(setHeader(plan, { title: 'a plan' })).toBe(plan)
    expect(() => setHeader(plan, { gravity: Number.NaN })).toThrow(RangeError)
  })

  it('keep widths within the stature', () => {
    const { spec } = BUILDS[1] as (typeof BUILDS)[number]
    const wide = setBody(plan, { ...spec, hipWidth: 40 }).body
    expect(wide.hipWidth).toBe(BODY_LIMITS.width[1] * spec.stature)
    expect(setBody(plan, plan.body)).toBe(plan)
  })

  it('have a camera that looks somewhere, or none', () => {
    const camera = { position: [0, 1, 5], aim: [0, 1, 0], lens: 500 } as const
    const shot = setCamera(plan, camera)
    expect(shot.camera).toEqual({ ...camera, lens: 300 })
    expect(setCamera(shot, { ...camera, lens: 300 })).toBe(shot)
    expect(setCamera(shot, { ...camera, aim: [0, 1, 5] })).toBe(shot)
    expect(setCamera(shot, null)).toEqual(plan)
    const far = setCamera(plan, { position: [900, 0, 0], aim: [800, 0, 0], lens: 50 })
    expect(resizePlan(far, plan.body.stature * 2).camera).toBeNull()
  })

  it('have pads as stiff as the user says, or as the table has it', () => {
    const stiff = setStiffness(setStiffness(plan, 'palm', 0.8), 'sole', 1e9)
    expect(stiff.stiffness).toEqual({ palm: 0.8, sole: LIMITS.stiffness[1] })
    expect(setStiffness(stiff, 'palm', 0.8)).toBe(stiff)
    expect(setStiffness(plan, 'palm', undefined)).toBe(plan)
    expect(setStiffness(setStiffness(stiff, 'palm', undefined), 'sole', undefined)).toEqual(plan)
  })
})

describe('another size of the whole plan', () => {
  it('scales every place with the stature and mass with its cube', () => {
    const before = randomPlan(random(4))
    const after = resizePlan(before, before.body.stature * 2)
    expect(faultsOf(after)).toEqual([])
    const [a, b] = [firstTake(before), firstTake(after)]
    expect(after.body.mass).toBeCloseTo(before.body.mass * 8, 9)
    expect(after.body.hipWidth).toBe(before.body.hipWidth * 2)
    expect(b.channels['legL.knee.y'][0]?.value).toBe((a.channels['legL.knee.y'][0]?.value as number) * 2)
    expect(b.channels['legL.pitch']).toEqual(a.channels['legL.pitch'])
    expect(b.contacts[0]?.position).toEqual(a.contacts[0]?.position.map((x) => x * 2))
    expect(b.loads[0]?.mass).toBe((a.loads[0]?.mass as number) * 8)
    expect(after.ground.boxes[0]?.size).toEqual(before.ground.boxes[0]?.size.map((x) => x * 2))
    expect(b.arcs[0]).toEqual({
      ...a.arcs[0],
      height: (a.arcs[0]?.height as number) * 2,
      side: (a.arcs[0]?.side as number) * 2,
    })
    expect(after.camera?.position).toEqual(before.camera?.position.map((x) => x * 2))
    expect(after.camera?.aim).toEqual(before.camera?.aim.map((x) => x * 2))
    expect(after.camera?.lens).toBe(35)
    expect(b.length).toBe(a.length)
  })

  it('is the very plan at the same stature', () => {
    expect(resizePlan(plan, plan.body.stature)).toBe(plan)
  })
})
