import { describe, expect, it } from 'vitest'
import { LIMITS } from '../../src/document/limits'
import { addContact } from '../../src/plan/edit/contacts'
import { addBox, changeBox, deleteBox, setGrip, standsOn } from '../../src/plan/edit/ground'
import { firstTake, knee, smallPlan } from './small'

const box = {
  name: 'step',
  position: [1, 0, 0] as const,
  size: [0.6, 0.4, 0.8] as const,
  turn: 0,
  grip: 'normal' as const,
}
const T = 'take-1'
const bare = addBox(smallPlan(), box)
/** The knee stands on the step's top, off its middle; the hand leans on its left side. */
const top = knee({ on: 'box-1', position: [1.2, 0.4, 0.1], heading: 0.5, from: 0, to: 5 })
const side = {
  ...knee(),
  part: 'handL',
  kind: 'palm',
  on: 'box-1',
  position: [1.3, 0.2, 0.1],
  normal: [1, 0, 0],
} as const
const plan = addContact(addContact(bare, T, top), T, side)
const placed = (p: typeof plan) =>
  firstTake(p).contacts.map(({ position }) => position.map((x) => Number(x.toFixed(9))))

describe('boxes', () => {
  it('are added with ids of their own, up to the limit', () => {
    let many = smallPlan()
    for (let i = 0; i < LIMITS.boxes; i++) many = addBox(many, box)
    expect(many.ground.boxes.map(({ id }) => id).slice(0, 3)).toEqual(['box-1', 'box-2', 'box-3'])
    expect(addBox(many, box)).toBe(many)
  })

  it('take along what stands on them when they move', () => {
    const moved = changeBox(plan, 'box-1', { position: [2, 0, -1] })
    expect(placed(moved)).toEqual([
      [2.2, 0.4, -0.9],
      [2.3, 0.2, -0.9],
    ])
    expect(firstTake(moved).channels).toBe(firstTake(plan).channels)
  })

  it('take it round when they turn: a quarter turn to the left brings +X to −Z', () => {
    const turned = changeBox(plan, 'box-1', { turn: Math.PI / 2 })
    expect(placed(turned)).toEqual([
      [1.1, 0.4, -0.2],
      [1.1, 0.2, -0.3],
    ])
    const [onTop, onSide] = firstTake(turned).contacts
    expect(onTop?.heading).toBeCloseTo(0.5 + Math.PI / 2, 12)
    expect(onTop?.normal).toEqual([0, 1, 0])
    expect(onSide?.normal.map((x) => Number(x.toFixed(12)))).toEqual([0, 0, -1])
    expect(onSide?.heading).toBe(0.5)
  })

  it('keep it on its face when they grow', () => {
    expect(placed(changeBox(plan, 'box-1', { size: [0.8, 0.5, 0.8] }))).toEqual([
      [1.2, 0.5, 0.1],
      [1.4, 0.2, 0.1],
    ])
  })

  it('change nothing else when only named or gripped anew, and nothing at all when nothing changes', () => {
    const named = changeBox(plan, 'box-1', { name: 'kerb' })
    expect(named.takes).toBe(plan.takes)
    expect(changeBox(plan, 'box-1', { name: 'step', turn: 0 })).toBe(plan)
    expect(() => changeBox(plan, 'box-2', {})).toThrow(/no "box-2" among box-1/)
  })

  it('stay while something stands on them, unless that may go too', () => {
    expect(standsOn(plan, 'box-1').map(({ takeId, span }) => [takeId, span.id])).toEqual([
      [T, 'kneeL-1'],
      [T, 'handL-1'],
    ])
    expect(deleteBox(plan, 'box-1')).toBe(plan)
    const gone = deleteBox(plan, 'box-1', 'delete')
    expect(gone.ground.boxes).toEqual([])
    expect(firstTake(gone).contacts).toEqual([])
    expect(deleteBox(bare, 'box-1').takes).toBe(bare.takes)
  })
})

it('the ground has a grip of its own', () => {
  expect(setGrip(plan, 'rough').ground).toEqual({ ...plan.ground, grip: 'rough' })
  expect(setGrip(plan, 'normal')).toBe(plan)
})
