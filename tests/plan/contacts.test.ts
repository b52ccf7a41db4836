import { describe, expect, it } from 'vitest'
import {
  addContact,
  changeContact,
  deleteContact,
  liftPart,
  moveContact,
  roomOf,
  trimContact,
} from '../../src/plan/edit/contacts'
import { firstTake, knee, kneeSpans, smallPlan } from './small'

const T = 'take-1'
/** The left knee is down at 0 … 5 and 10 … 15 of 24 frames. */
const plan = smallPlan([knee({ from: 0, to: 5 }), knee({ from: 10, to: 15 })])

describe('contact spans of one part', () => {
  it('start with ids of their own', () => {
    expect(kneeSpans(plan)).toEqual([
      ['kneeL-1', 0, 5],
      ['kneeL-2', 10, 15],
    ])
  })

  it.each([
    [
      'between two',
      7,
      8,
      [
        ['kneeL-1', 0, 5],
        ['kneeL-2', 10, 15],
        ['kneeL-3', 7, 8],
      ],
    ],
    [
      'over the end of one and the start of another',
      4,
      11,
      [
        ['kneeL-1', 0, 3],
        ['kneeL-2', 12, 15],
        ['kneeL-3', 4, 11],
      ],
    ],
    [
      'in the middle of one, which is split',
      2,
      3,
      [
        ['kneeL-1', 0, 1],
        ['kneeL-3', 4, 5],
        ['kneeL-2', 10, 15],
        ['kneeL-4', 2, 3],
      ],
    ],
    ['over everything', 0, 23, [['kneeL-3', 0, 23]]],
    [
      'with its ends swapped and out of the take',
      40,
      14,
      [
        ['kneeL-1', 0, 5],
        ['kneeL-2', 10, 13],
        ['kneeL-3', 14, 23],
      ],
    ],
  ])('a new one %s', (_, from, to, spans) => {
    expect(kneeSpans(addContact(plan, T, knee({ from, to })))).toEqual(spans)
  })

  it('a new one leaves other parts alone', () => {
    const both = addContact(plan, T, knee({ part: 'kneeR' }))
    expect(kneeSpans(both)).toEqual(kneeSpans(plan))
    expect(firstTake(both).contacts.at(-1)).toMatchObject({
      id: 'kneeR-1',
      from: 0,
      to: 23,
      state: 'planted',
    })
  })

  it('lifting cuts, splits or removes', () => {
    expect(kneeSpans(liftPart(plan, T, 'kneeL', 5, 10))).toEqual([
      ['kneeL-1', 0, 4],
      ['kneeL-2', 11, 15],
    ])
    expect(kneeSpans(liftPart(plan, T, 'kneeL', 12, 12))).toEqual([
      ['kneeL-1', 0, 5],
      ['kneeL-2', 10, 11],
      ['kneeL-3', 13, 15],
    ])
    expect(kneeSpans(liftPart(plan, T, 'kneeL', 0, 23))).toEqual([])
    expect(liftPart(plan, T, 'kneeL', 6, 9)).toBe(plan)
    expect(liftPart(plan, T, 'kneeR', 0, 23)).toBe(plan)
  })

  it('trimming stops at the neighbours, at the take and at the other end', () => {
    expect(kneeSpans(trimContact(plan, T, 'kneeL-1', { to: 20 }))[0]).toEqual(['kneeL-1', 0, 9])
    expect(kneeSpans(trimContact(plan, T, 'kneeL-2', { from: 2 }))[1]).toEqual(['kneeL-2', 6, 15])
    expect(kneeSpans(trimContact(plan, T, 'kneeL-2', { to: 99 }))[1]).toEqual(['kneeL-2', 10, 23])
    expect(kneeSpans(trimContact(plan, T, 'kneeL-2', { from: 99 }))[1]).toEqual(['kneeL-2', 15, 15])
    expect(kneeSpans(trimContact(plan, T, 'kneeL-2', { to: 3 }))[1]).toEqual(['kneeL-2', 10, 10])
    expect(kneeSpans(trimContact(plan, T, 'kneeL-1', { from: 3, to: 4 }))[0]).toEqual(['kneeL-1', 3, 4])
    expect(trimContact(plan, T, 'kneeL-1', { from: 0, to: 5 })).toBe(plan)
  })

  it('moving keeps the length and stops at the neighbours and at the take', () => {
    expect(kneeSpans(moveContact(plan, T, 'kneeL-1', 30))[0]).toEqual(['kneeL-1', 4, 9])
    expect(kneeSpans(moveContact(plan, T, 'kneeL-2', 30))[1]).toEqual(['kneeL-2', 18, 23])
    expect(moveContact(plan, T, 'kneeL-1', -3)).toBe(plan)
  })

  it('room is what neighbours of the same part leave', () => {
    const [first, second] = firstTake(plan).contacts
    expect(first && roomOf(firstTake(plan), first)).toEqual({ first: 0, last: 9 })
    expect(second && roomOf(firstTake(plan), second)).toEqual({ first: 6, last: 23 })
  })

  it('are changed and deleted by id', () => {
    const rolled = changeContact(plan, T, 'kneeL-2', { state: 'rolling', position: [0, 0, 2000] })
    expect(firstTake(rolled).contacts[1]).toMatchObject({ state: 'rolling', position: [0, 0, 1000] })
    expect(firstTake(rolled).contacts[0]).toBe(firstTake(plan).contacts[0])
    expect(changeContact(plan, T, 'kneeL-2', { state: 'planted' })).toBe(plan)
    expect(kneeSpans(deleteContact(plan, T, 'kneeL-1'))).toEqual([['kneeL-2', 10, 15]])
    expect(() => deleteContact(plan, T, 'kneeL-9')).toThrow(/no "kneeL-9" among kneeL-1, kneeL-2/)
  })

  it('refuse what cannot be: a palm on a knee, a box that is not there, no normal', () => {
    expect(() => addContact(plan, T, knee({ kind: 'palm' }))).toThrow('kneeL cannot touch with its palm')
    expect(() => addContact(plan, T, knee({ on: 'box-1' }))).toThrow('there is no box "box-1"')
    expect(() => addContact(plan, T, knee({ normal: [0, 0, 0] }))).toThrow('a normal needs a direction')
  })

  it('have normals of length 1', () => {
    const wall = addContact(plan, T, knee({ normal: [3, 0, 4] }))
    expect(firstTake(wall).contacts.at(-1)?.normal).toEqual([0.6, 0, 0.8])
  })
})
