import { describe, expect, it } from 'vitest'
import type { Plan, Take } from '../../src/document/plan'
import { faultsOf } from '../../src/plan/read'
import type { PlainNotes, SpanReading } from '../../src/worker/protocol'
import { doRemedyOf, readNotesOf } from '../../src/worker/read-notes'
import { readsAsOf } from '../../src/worker/reads-as'
import { capstone } from '../support/capstone'
import { capstoneBad } from '../support/capstone-bad'

const lastOf = <T>(steps: Iterable<T | undefined>): T => [...steps].at(-1) as T
const takeOf = (plan: Plan): Take => plan.takes[0] as Take

describe('notes read on the thread', () => {
  const plan = capstoneBad()
  const notes = lastOf<PlainNotes>(readNotesOf({ plan, reading: 1 }))

  it('are plain data, each with its place and whether a press does its remedy', () => {
    expect(structuredClone(notes)).toEqual(notes)
    expect(notes.notes.map(({ index }) => index)).toEqual(notes.notes.map((_, i) => i))
    for (const note of notes.shown) expect(notes.notes[note.index]?.sentence).toBe(note.sentence)
    expect(notes.notes.some(({ fixable }) => fixable)).toBe(true)
    expect(notes.text).toContain(notes.line.replaceAll('\u00a0', ' '))
  })

  it('have remedies that are the same from the kept reading and from a new one', () => {
    const slide = notes.notes.find(({ rule }) => rule === 'slides')
    const asked = { plan, reading: 1, index: slide?.index ?? -1 }
    const kept = [...doRemedyOf(asked)]
    const anew = [...doRemedyOf({ ...asked, reading: 2 })]
    expect(kept).toHaveLength(1)
    expect(anew.length).toBeGreaterThan(takeOf(plan).length)
    expect(anew.at(-1)).toEqual(kept[0])
    const take = kept[0]?.take as Take
    expect(take).not.toEqual(takeOf(plan))
    expect(faultsOf({ ...plan, takes: [take] })).toEqual([])
  })

  it('give no take where there is no such note', () => {
    expect(lastOf(doRemedyOf({ plan, reading: 3, index: 999 }))).toEqual({ take: null })
  })
})

describe('what a timing reads as, on the thread', () => {
  const plan = capstone()

  it('is told of the mover’s move and of the settle, each with its least', () => {
    const spans = lastOf<readonly SpanReading[]>(readsAsOf({ plan, chosen: null }))
    const leg = spans.find(({ span }) => span.limb === 'legL')
    expect(leg?.span).toMatchObject({ kind: 'move', turn: 1 })
    // The left foot is down again where the demo says so.
    const down = takeOf(plan).contacts.find(({ part, kind }) => part === 'footL' && kind === 'sole')?.from
    expect(leg?.span.to).toBe(down)
    expect(leg?.least.ok).toBe(true)
    expect(leg?.reading?.kind).toBe('sized')
    expect(structuredClone(spans)).toEqual(spans)
  })

  it('is told of a chosen stretch before them', () => {
    const chosen = { from: 9, to: 22 }
    const [first] = lastOf<readonly SpanReading[]>(readsAsOf({ plan, chosen }))
    expect(first?.span).toMatchObject({ ...chosen, kind: 'chosen' })
  })

  it('is nothing where no even pace will do', () => {
    const spans = lastOf<readonly SpanReading[]>(readsAsOf({ plan: capstoneBad(), chosen: null }))
    const leg = spans.find(({ span }) => span.limb === 'legL')
    expect(leg?.least.ok).toBe(false)
    expect(leg?.reading).toBeNull()
  })
})
