import { describe, expect, test } from 'vitest'
import { trimContact } from '../../src/plan/edit/contacts'
import { setControls } from '../../src/plan/edit/keys'
import { keyPosesOf } from '../../src/plan/key-poses'
import { FIRST_VIEW } from '../../src/screen/desk-view'
import { endDrag, startDrag } from '../../src/screen/sheet/drag'
import { RATES, rateId, rateLabel, rateOf } from '../../src/screen/sheet/rates'
import { screenColumns } from '../../src/screen/sheet/screen-columns'
import { columnWindow, rowWindow, scrollToRow } from '../../src/screen/sheet/window'
import { placeBeside } from '../../src/screen/shell/place'
import { stancePlan } from '../support/plans'
import { testShell } from '../support/shell'

describe('the window of rows', () => {
  test.each([
    [
      { rows: 300, top: 0, height: 400 },
      { first: 0, count: 26 },
    ],
    [
      { rows: 300, top: 2000, height: 400 },
      { first: 94, count: 32 },
    ],
    [
      { rows: 300, top: 5600, height: 400 },
      { first: 274, count: 26 },
    ],
    [
      { rows: 10, top: 0, height: 400 },
      { first: 0, count: 10 },
    ],
    [
      { rows: 10, top: 99999, height: 400 },
      { first: 9, count: 1 },
    ],
  ])('%o shows %o', ({ rows, top, height }, expected) => {
    expect(rowWindow(rows, 20, top, height, 6)).toEqual(expected)
  })

  test('wherever it is scrolled, every row that is seen is there', () => {
    for (let top = 0; top <= 300 * 20 - 400; top += 7) {
      const { first, count } = rowWindow(300, 20, top, 400, 6)
      expect(first * 20).toBeLessThanOrEqual(top)
      expect((first + count) * 20).toBeGreaterThanOrEqual(top + 400)
      expect(count).toBeLessThan(40)
    }
  })

  test('a row that is seen moves nothing; one that is not comes in with a neighbour', () => {
    expect(scrollToRow(10, 20, 100, 400)).toBe(100)
    expect(scrollToRow(50, 20, 100, 400)).toBe(52 * 20 - 400)
    expect(scrollToRow(2, 20, 100, 400)).toBe(20)
    expect(scrollToRow(0, 20, 100, 400)).toBe(0)
  })
})

test.each([
  [0, { first: 0, end: 5 }],
  [90, { first: 1, end: 7 }],
  [130, { first: 2, end: 8 }],
  [1000, { first: 10, end: 10 }],
])('of ten columns of 50 px, scrolled by %i px in 200 px, %o are made', (left, expected) => {
  expect(columnWindow(Array(10).fill(50), left, 200, 30)).toEqual(expected)
})

describe('rates', () => {
  test('the broadcast rates have their exact fractions in their labels', () => {
    const labels = RATES.map(rateLabel)
    expect(labels).toContain('23.976 (24000/1001)')
    expect(labels).toContain('29.97 (30000/1001)')
    expect(labels).toContain('24')
    expect(new Set(RATES.map(rateId)).size).toBe(RATES.length)
  })

  test.each([
    [23.976, { num: 24_000, den: 1_001 }],
    [29.97, { num: 30_000, den: 1_001 }],
    [24, { num: 24, den: 1 }],
    [18, { num: 1800, den: 100 }],
    [11.9, null],
    [61, null],
    [Number.NaN, null],
  ])('typed %d', (typed, rate) => {
    expect(rateOf(typed)).toEqual(rate)
  })
})

describe('drags', () => {
  const shellWithKeys = () => {
    const plan = stancePlan()
    const { desk } = testShell(plan)
    const keyed = [10, 20].reduce((p, frame) => setControls(p, desk.takeId, frame, desk.pose.reached), plan)
    return testShell(trimContact(keyed, 'take-1', keyed.takes[0]?.contacts[0]?.id ?? '', { to: 30 }))
  }

  test('a key goes where the pointer goes, between its neighbours, as one step', () => {
    const { desk } = shellWithKeys()
    const { plan } = desk
    desk.setFrame(10)
    const drag = startDrag(desk, 10, { handle: 'key' }, 'mouse')
    for (const frame of [11, 15, 25, -3, 14]) drag?.to(frame)
    expect(keyPosesOf(desk.take)).toEqual([0, 14, 20])
    expect(desk.frame).toBe(14)
    if (drag) endDrag(desk, drag)
    desk.undo()
    expect(desk.plan).toBe(plan)
  })

  test('the end of a contact is dragged, no further than the take', () => {
    const { desk } = shellWithKeys()
    const drag = startDrag(desk, 30, { handle: 'span', limb: 'legL', edge: 'to' }, 'touch')
    drag?.to(40)
    expect(desk.take.contacts[0]?.to).toBe(40)
    drag?.to(400)
    expect(desk.take.contacts[0]?.to).toBe(47)
    expect(desk.frame).toBe(47)
  })

  test('on a row a mouse goes through time and a finger scrolls', () => {
    const { desk } = shellWithKeys()
    expect(startDrag(desk, 5, undefined, 'touch')).toBeNull()
    const { plan } = desk
    const drag = startDrag(desk, 5, undefined, 'mouse')
    drag?.to(9)
    expect(desk.frame).toBe(9)
    if (drag) endDrag(desk, drag)
    expect(desk.plan).toBe(plan)
  })
})

test('columns are shown and hidden by hand, the frame never', () => {
  const { desk } = testShell(stancePlan(), { weighs: true })
  const sheet = desk.takeWeighings?.sheet
  if (!sheet) throw new Error('the take is weighed at once')
  const shown = (chosen: Record<string, boolean>) =>
    screenColumns(sheet, { ...FIRST_VIEW, columns: chosen })
      .filter((column) => column.shown)
      .map(({ column }) => column.id)
  expect(shown({})).toContain('legL.share')
  expect(shown({})).not.toContain('legL.load')
  expect(shown({ 'legL.load': true, 'legL.share': false, frame: false })).toContain('legL.load')
  expect(shown({ 'legL.share': false })).not.toContain('legL.share')
  expect(shown({ frame: false })).toContain('frame')
})

test('distances are in centimetres or in the scene’s own unit', () => {
  const inches = { unit: 'in', unitsPerMetre: 39.37, root: [0, 0, 0] as const }
  const { desk } = testShell({ ...stancePlan(), scene: inches }, { weighs: true })
  const sheet = desk.takeWeighings?.sheet
  if (!sheet) throw new Error('the take is weighed at once')
  const unitOf = (distances: 'cm' | 'scene') =>
    screenColumns(sheet, { ...FIRST_VIEW, distances }).find(({ column }) => column.id === 'pelvis.side')
      ?.column.unit
  expect([unitOf('cm'), unitOf('scene')]).toEqual(['cm', 'in'])
})

test.each([
  [
    { left: 10, top: 10, width: 50, height: 20 },
    { left: 10, top: 34 },
  ],
  [
    { left: 900, top: 600, width: 50, height: 20 },
    { left: 676, top: 396 },
  ],
  [
    { left: -20, top: 10, width: 50, height: 20 },
    { left: 4, top: 34 },
  ],
])('a card beside %o', (anchor, place) => {
  expect(placeBeside(anchor, { width: 320, height: 200 }, { width: 1000, height: 700 })).toEqual(place)
})
