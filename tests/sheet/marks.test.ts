import { describe, expect, it } from 'vitest'
import { setControls } from '../../src/plan/edit/keys'
import { fractionText } from '../../src/sheet/marks'
import { stancePlan } from '../support/plans'
import { columnOf, firstTake, rowAt, spaced, weighed, withPose } from './sheets'

const still = stancePlan('tall-kneel')
const moved = withPose(still, 24, { 'chest.tilt': 0.3 })
const letters = (plan: typeof still, from = 0, to = 48) => {
  const { sheet } = weighed(plan)
  const mark = columnOf(sheet, 'mark')
  return sheet.rows.slice(from, to).map((row) => mark.of(row) || '-')
}

describe('marks', () => {
  it('holds after the only key pose', () => {
    expect(letters(still).join('')).toBe(`K${'H'.repeat(47)}`)
  })

  it('ticks between two key poses that differ, and holds between two that are the same', () => {
    const back = withPose(moved, 32, { 'chest.tilt': 0.3 })
    expect(letters(back).join('')).toBe(`K${'-'.repeat(23)}K${'H'.repeat(7)}K${'H'.repeat(15)}`)
  })

  it('is no hold where a breakdown moves away and back', () => {
    const take = firstTake(still)
    const there = withPose(still, 8, {})
    const bump = setControls(there, take.id, 4, { 'head.turn': 0.2 })
    expect(letters(bump, 0, 10).join('')).toBe('K---B---KH')
  })

  it('progresses from 0 to 1, half way in the middle of an even ease', () => {
    const { sheet } = weighed(moved)
    const progress = sheet.rows.slice(0, 24).map(({ mark }) => mark.progress as number)
    expect(progress[0]).toBe(0)
    expect(progress[12]).toBeCloseTo(0.5, 3)
    progress.slice(1).forEach((value, i) => {
      expect(value).toBeGreaterThan(progress[i] as number)
    })
    expect(progress[23]).toBeLessThan(1)
  })

  it('gives a breakdown its fraction of the change', () => {
    const take = firstTake(moved)
    const early = setControls(moved, take.id, 12, { 'chest.tilt': 0.1 })
    const { sheet } = weighed(early)
    expect(rowAt(sheet, 12).mark.kind).toBe('breakdown')
    expect(spaced(columnOf(sheet, 'mark').text(rowAt(sheet, 12)))).toBe('B ⅓')
  })

  it('writes plain fractions where they are near, else percents', () => {
    expect([0.5, 0.34, 0.26, 0.655].map((x) => fractionText(x, 0.02))).toEqual(['½', '⅓', '¼', '⅔'])
    expect(spaced(fractionText(0.43, 0.02))).toBe('43 %')
    expect(spaced(fractionText(1.08, 0.02))).toBe('108 %')
  })
})
