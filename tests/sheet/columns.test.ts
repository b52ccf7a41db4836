import { describe, expect, it } from 'vitest'
import { setControls } from '../../src/plan/edit/keys'
import { cellNumber, cellText, fullTitle, textWithUnit } from '../../src/sheet/column'
import { columnsOf } from '../../src/sheet/columns'
import { sceneUnits } from '../../src/sheet/format'
import { headerFacts, headerNotes } from '../../src/sheet/header'
import { phaseLanes } from '../../src/sheet/phases'
import { radians } from '../../src/space/units'
import { stancePlan } from '../support/plans'
import { capstone, columnOf, firstTake, rowAt, spaced, weighed, withPose } from './sheets'

const { sheet } = weighed(capstone())
const said = (id: string, frame: number) => spaced(columnOf(sheet, id).text(rowAt(sheet, frame)))
const inBetween = sheet.rows.find(({ mark }) => mark.kind === 'between')?.frame as number

describe('columns', () => {
  it('have ids and whole titles of their own', () => {
    const columns = columnsOf(sheet)
    expect(new Set(columns.map(({ id }) => id)).size).toBe(columns.length)
    expect(new Set(columns.map(fullTitle)).size).toBe(columns.length)
  })

  it('follow the sheet’s order: when, limbs, pelvis, hips, thighs, chest, head, mover, arms, room, note', () => {
    const groups = columnsOf(sheet).map(({ group }) => group)
    expect([...new Set(groups)]).toEqual([
      ...[
        'frame',
        'count',
        'time',
        'time code',
        'mark',
        'chart',
        'phase',
        'leg L',
        'leg R',
        'fist L',
        'pelvis',
        'hips',
      ],
      ...['thigh L', 'thigh R', 'chest', 'head', 'arm L', 'arm R', 'room', 'push', 'mover', 'note'],
    ])
  })

  it('say something sound of every row', () => {
    for (const column of columnsOf(sheet))
      for (const row of sheet.rows) {
        expect(`${column.id} ${column.text(row)} ${cellNumber(column, row)}`).not.toMatch(
          /NaN|undefined|null|Infinity|\[object/,
        )
        const value = column.of(row)
        if (typeof value === 'number')
          expect(Number(cellNumber(column, row))).toBeCloseTo(value, column.decimals)
      }
  })

  it('leave in-betweens their ticks, states and loads alone', () => {
    const row = rowAt(sheet, inBetween)
    const filled = columnsOf(sheet).filter((column) => column.shown && cellText(column, row) !== '')
    expect(filled.map(({ id }) => id).filter((id) => !/^(frame|count|mark|phase|note)$/.test(id))).toEqual(
      ['legL', 'legR', 'armL'].flatMap((limb) => ['state', 'share', 'load'].map((part) => `${limb}.${part}`)),
    )
    expect(columnOf(sheet, 'pelvis.side').of(row)).not.toBeNull()
  })

  it('put values in words with the body’s own sides', () => {
    const plan = withPose(stancePlan('standing'), 10, {
      'pelvis.turn': radians(10),
      'chest.list': radians(5),
      'head.tilt': radians(12),
      'armR.wrist': radians(20),
    })
    const made = weighed(plan).sheet
    const text = (id: string) => spaced(columnOf(made, id, { angles: 'parent' }).text(rowAt(made, 10)))
    expect(text('pelvis.turn')).toBe('10° L')
    expect(text('chest.side')).toBe('5° R')
    expect(text('head.fore')).toBe('12° down')
    expect(text('head.side')).toBe('0°')
    expect(text('armR.wrist')).toBe('flexed 20°')
    expect(text('armL.fingers')).toBe('free')
  })

  it('names the low side of the hips', () => {
    const list = columnOf(sheet, 'pelvis.list')
    const row = rowAt(sheet, 0)
    const at = (degrees: number) =>
      spaced(list.text({ ...row, pelvis: { ...row.pelvis, list: radians(degrees) } }))
    expect([at(6), at(-6), at(0.3)]).toEqual(['R 6°', 'L 6°', 'level'])
  })

  it('gives travel in cm, in scene units and free of proportion', () => {
    const row = { ...rowAt(sheet, 0), pelvis: { ...rowAt(sheet, 0).pelvis, side: -0.125 } }
    const unit = sceneUnits({ unit: 'm', unitsPerMetre: 1, root: [0, 0, 0] }, 2.6)
    const text = (id: string, options = {}) => spaced(textWithUnit(columnOf(sheet, id, options), row))
    expect(text('pelvis.side')).toBe('13 cm R')
    expect(text('pelvis.side', { unit })).toBe('0.13 m R')
    expect(text('pelvis.side.half-stance')).toBe('50 % of half-stance R')
    expect(columnOf(sheet, 'pelvis.side.thigh').of(row)).toBeCloseTo(-12.5 / sheet.header.thigh, 9)
  })

  it('show the push from nowhere where there is one', () => {
    const lost = withPose(stancePlan('standing'), 0, { 'pelvis.z': 0.6 })
    const made = weighed(lost)
    const row = rowAt(made.sheet, 0)
    expect(columnOf(sheet, 'push').shown).toBe(false)
    expect(columnOf(made.sheet, 'push').shown).toBe(true)
    const { push } = made.at(0).weighing
    expect(row.balance?.push).toBeCloseTo(push.size * made.plan.body.mass, 6)
    expect(row.balance?.room).toBeLessThan(0)
  })

  it('name hands by how they bear', () => {
    const crawl = weighed(stancePlan('hands-and-knees')).sheet
    expect(crawl.limbs.map(({ title }) => title)).toEqual(['leg L', 'leg R', 'palm L', 'palm R'])
    expect(sheet.limbs.map(({ title }) => title)).toEqual(['leg L', 'leg R', 'fist L'])
  })

  it('give key rows the phases that run, other rows those that begin', () => {
    const row = (frame: number) => sheet.rows.find((one) => one.frame === frame)
    expect(said('phase', 0)).toBe('ready')
    const quiet = sheet.rows.find(
      ({ mark, phases }) => mark.kind === 'between' && phases.some((p) => !p.begins),
    )
    expect(row(quiet?.frame as number)?.phases.length).toBeGreaterThan(0)
    expect(said('phase', quiet?.frame as number)).toBe('')
    expect(columnOf(sheet, 'phase').of(rowAt(sheet, quiet?.frame as number))).not.toBe('')
  })

  it('mark rolling, sliding and empty limbs', () => {
    const plan = stancePlan('standing')
    const take = firstTake(plan)
    const slides = { ...take, contacts: take.contacts.map((c) => ({ ...c, state: 'sliding' as const })) }
    const made = weighed({ ...plan, takes: [slides] }).sheet
    expect(columnOf(made, 'legL.state').text(rowAt(made, 0))).toBe('slides')
    const over = weighed(setControls(plan, take.id, 0, { 'pelvis.x': -0.25 })).sheet
    const states = [over.rows[0]?.limbs.legL.state, over.rows[0]?.limbs.legR.state]
    expect(states).toEqual(['touching empty', 'down'])
  })
})

describe('phase brackets', () => {
  it('stay in their lane from begin to end', () => {
    const lanes = phaseLanes(sheet.rows)
    for (const phase of firstTake(capstone()).phases) {
      const found = new Set<number>()
      for (let frame = phase.from; frame <= phase.to; frame++)
        found.add((lanes[frame] ?? []).findIndex((one) => one?.id === phase.id))
      expect([...found]).toHaveLength(1)
      expect([...found][0]).toBeGreaterThanOrEqual(0)
    }
    expect(new Set(lanes.map(({ length }) => length)).size).toBe(1)
  })
})

describe('the head of the sheet', () => {
  it('says what the sheet is of and in', () => {
    const facts = headerFacts(sheet).map(({ term, value }) => `${term}: ${spaced(value)}`)
    expect(facts).toContain('size: 2.6 m, 420 kg')
    expect(facts).toContain('half-stance: 25 cm, half the distance between the kneecaps at the first frame')
    expect(facts).toContain('scene: 100 cm to the metre')
    expect(facts).toContain('rate: 24 fps')
    expect(facts).toContain(`frames: 1001–${1000 + sheet.rows.length} (${sheet.rows.length})`)
  })

  it('says how to read it, and says so when angles are to the parent', () => {
    expect(headerNotes()[0]).toBe('R and L are his own.')
    expect(headerNotes({ they: 'her' })[0]).toBe('R and L are her own.')
    expect(headerNotes().join(' ')).toContain('Lean, turn and thigh are to the world')
    expect(headerNotes({ angles: 'parent' }).join(' ')).toContain('Chest is to the pelvis')
  })
})
