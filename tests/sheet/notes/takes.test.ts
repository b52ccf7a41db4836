import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { makeBody } from '../../../src/body/model'
import type { Plan, Take } from '../../../src/document/plan'
import { faultsOf, readPlan } from '../../../src/plan/read'
import { writePlan } from '../../../src/plan/write'
import { makeMotion } from '../../../src/pose/between'
import { type Notes, type NotesOptions, notesOf } from '../../../src/sheet/notes/notes'
import { asText, oneLine } from '../../../src/sheet/notes/text'
import { type DynamicFrame, weighMotion } from '../../../src/weigh/dynamic'
import { capstone } from '../../support/capstone'
import { capstoneBad } from '../../support/capstone-bad'

function read(plan: Plan, options?: NotesOptions): Notes {
  const take = plan.takes[0] as Take
  const body = makeBody(plan.body)
  const motion = makeMotion(body, take)
  const fps = plan.rate.num / plan.rate.den
  const frames: DynamicFrame[] = []
  for (const one of weighMotion({ body, ground: plan.ground, gravity: plan.gravity, take, motion, fps }))
    frames[one.frame] = one
  return notesOf({ plan, take, motion, weighed: (frame) => frames[frame] }, options)
}

const breaking = ({ notes }: Notes) => notes.filter(({ level }) => level === 'breaks')

describe('the demo', () => {
  it.each([1, 2] as const)('has at most one note that breaks the weight, on %is', (on) => {
    expect(breaking(read(capstone(), { on })).length).toBeLessThanOrEqual(1)
  })
})

describe('the bad take of the demo', () => {
  it('is in the file as its script writes it', () => {
    const file = readPlan(readFileSync(join(import.meta.dirname, '../../../static/capstone-bad.json')))
    expect(file.ok && writePlan(file.plan)).toBe(writePlan(capstoneBad()))
  })

  it('is read like a strict reviewer would', () => {
    const notes = read(capstoneBad())
    const found = (rule: string) => breaking(notes).find((note) => note.rule === rule)
    // The left leg leaves after frame 33 with the weight still over it; the right knee slips where its contact jumps.
    const slips = capstoneBad().takes[0]?.contacts.find(
      ({ part, from }) => part === 'kneeR' && from > 0,
    )?.from
    expect(found('lifts-early')?.to).toBe(33)
    expect(found('turns')?.to).toBe(33)
    expect(found('balance')?.from).toBeGreaterThanOrEqual(34)
    expect(found('slides')).toMatchObject({ from: (slips ?? 0) - 1, to: slips })
    expect(found('slides')?.number).toBeCloseTo(0.14, 6)
    expect(notes.notes.map(({ rule }) => rule)).toEqual(expect.arrayContaining(['dead', 'head']))
    expect(notes.shown).toHaveLength(5)
    expect(oneLine(notes.notes)).toMatch(/^\d to fix, first at 103\d: .*[^.]$/)
  })

  it.each(['first', 'last'] as const)(
    'has nothing that breaks once remedies are pressed in turn, the %s one first',
    (which) => {
      let plan = capstoneBad()
      let pressed = 0
      for (let left = breaking(read(plan)); left.length > 0; left = breaking(read(plan))) {
        expect(pressed++).toBeLessThan(10)
        const note = which === 'first' ? left[0] : left.at(-1)
        const next = note?.remedy.fix?.(plan, (plan.takes[0] as Take).id) ?? plan
        expect(next).not.toBe(plan)
        expect(faultsOf(next)).toEqual([])
        plan = next
      }
      expect(pressed).toBeGreaterThan(0)
    },
  )

  it('gives a slide’s remedy that silences it', () => {
    const plan = capstoneBad()
    const note = read(plan).notes.find(({ rule }) => rule === 'slides')
    const next = note?.remedy.fix?.(plan, (plan.takes[0] as Take).id) ?? plan
    expect(read(next).notes.some(({ rule }) => rule === 'slides')).toBe(false)
  })

  it.each(['dead', 'head'])('gives a remedy for “%s” that silences that note', (rule) => {
    const plan = capstoneBad()
    const note = read(plan).notes.find((one) => one.rule === rule)
    const next = note?.remedy.fix?.(plan, (plan.takes[0] as Take).id) ?? plan
    expect(next).not.toBe(plan)
    expect(read(next).notes.filter((one) => one.rule === rule && one.from === note?.from)).toEqual([])
  })

  it('counts no note that was set aside, and lists it with its reason', () => {
    const slide = read(capstoneBad()).notes.find(({ rule }) => rule === 'slides')
    const { notes, aside } = read(capstoneBad(), {
      setAside: [{ id: 'a', rule: 'slides', from: slide?.from ?? -1, reason: 'There is gravel.' }],
    })
    expect(notes.some(({ rule }) => rule === 'slides')).toBe(false)
    expect(aside).toMatchObject([{ note: { rule: 'slides' }, reason: 'There is gravel.' }])
  })

  it('has plain numbers for its pushes in the style graphic', () => {
    const { notes } = read(capstoneBad(), { style: 'graphic' })
    expect(notes.filter(({ rule }) => rule === 'push').map(({ level }) => level)).toEqual(
      expect.arrayContaining(['style']),
    )
    expect(
      breaking({ notes, shown: [], aside: [], stepped: false }).some(({ rule }) => rule === 'push'),
    ).toBe(false)
    expect(notes.find(({ rule }) => rule === 'slides')?.level).toBe('breaks')
  })

  it('gets only notes on contacts, reach and balance as stepped blocking', () => {
    const { notes, stepped } = read(capstoneBad(), { stepped: true })
    expect(stepped).toBe(true)
    expect(notes.length).toBeGreaterThan(0)
    for (const { rule } of notes) expect(['slides', 'lifts-early', 'balance', 'reach']).toContain(rule)
  })

  it('makes plain text for an email', () => {
    const { notes } = read(capstoneBad())
    const text = asText('Capstone, first try', notes)
    expect(text).toContain('Breaks the weight\n')
    for (const { sentence, remedy } of notes) {
      expect(text).toContain(sentence.replaceAll('\u00a0', ' '))
      expect(text).toContain(remedy.text.replaceAll('\u00a0', ' '))
    }
  })
})

it('says so where nothing breaks', () => {
  expect(oneLine([])).toBe('Nothing breaks the weight')
})
