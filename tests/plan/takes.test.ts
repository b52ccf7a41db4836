import { describe, expect, it } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { BODY_LIMITS } from '../../src/body/spec'
import { LIMITS } from '../../src/document/limits'
import { setBody, setHeader } from '../../src/plan/edit/head'
import { resizePlan } from '../../src/plan/edit/resize'
import {
  addTake,
  deleteTake,
  duplicateTake,
  newTakeId,
  renameTake,
  replaceTake,
  setMover,
} from '../../src/plan/edit/takes'
import { loads, notes, phases } from '../../src/plan/edit/things'
import { faultsOf } from '../../src/plan/read'
import { random } from '../../src/space/random'
import { randomPlan } from './random-plan'
import { firstTake, smallPlan } from './small'

const T = 'take-1'
const plan = smallPlan()

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
    expect(b.length).toBe(a.length)
  })

  it('is the very plan at the same stature', () => {
    expect(resizePlan(plan, plan.body.stature)).toBe(plan)
  })
})
