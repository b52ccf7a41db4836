import { describe, expect, it } from 'vitest'
import { HISTORY_STEPS } from '../../src/plan/constants'
import {
  begin,
  cancel,
  change,
  commit,
  newHistory,
  perform,
  redo,
  redoLabel,
  undo,
  undoLabel,
} from '../../src/plan/history'

const a = { name: 'a' }
const b = { name: 'b' }
const c = { name: 'c' }

describe('a gesture', () => {
  it('is one step, whatever happened during it', () => {
    let h = begin(newHistory(a), 'drag pelvis')
    h = change(change(change(h, b), c), b)
    h = commit(h)
    expect(h.present).toBe(b)
    expect(h.past).toEqual([{ label: 'drag pelvis', state: a }])
    expect(undo(h).present).toBe(a)
    expect(redo(undo(h)).present).toBe(b)
  })

  it('that ends where it began leaves no step and keeps what can be redone', () => {
    const before = undo(perform(newHistory(a), 'lean', b))
    const after = commit(change(change(begin(before, 'drag'), c), a))
    expect(after.past).toEqual([])
    expect(redo(after).present).toBe(b)
  })

  it('goes back to its start when cancelled, or undone half-way', () => {
    const h = change(begin(perform(newHistory(a), 'lean', b), 'drag'), c)
    for (const back of [cancel(h), undo(h)]) {
      expect(back.present).toBe(b)
      expect(back.past).toHaveLength(1)
      expect(back.gesture).toBeUndefined()
    }
    expect(redo(h)).toBe(h)
  })

  it('under way is committed by the next one', () => {
    const h = commit(change(begin(change(begin(newHistory(a), 'first'), b), 'second'), c))
    expect(h.past.map(({ label }) => label)).toEqual(['first', 'second'])
  })

  it('must be begun before it changes anything', () => {
    expect(() => change(newHistory(a), b)).toThrow('no gesture is under way')
  })
})

describe('undo and redo', () => {
  it('name what they would do', () => {
    const h = perform(perform(newHistory(a), 'lean', b), 'sink', c)
    expect([undoLabel(h), redoLabel(h)]).toEqual(['sink', undefined])
    expect([undoLabel(undo(h)), redoLabel(undo(h))]).toEqual(['lean', 'sink'])
    expect([undoLabel(undo(undo(h))), redoLabel(undo(undo(h)))]).toEqual([undefined, 'lean'])
  })

  it('give back the very history at either end', () => {
    const h = newHistory(a)
    expect(undo(h)).toBe(h)
    expect(redo(h)).toBe(h)
    expect(commit(h)).toBe(h)
    expect(cancel(h)).toBe(h)
  })

  it('forget what was undone once something else is done', () => {
    const h = perform(undo(perform(newHistory(a), 'lean', b)), 'sink', c)
    expect(h.future).toEqual([])
    expect(redo(h)).toBe(h)
  })

  it(`keep the last ${HISTORY_STEPS} steps`, () => {
    let h = newHistory({ n: 0 })
    for (let n = 1; n <= HISTORY_STEPS + 20; n++) h = perform(h, `step ${n}`, { n })
    expect(h.past).toHaveLength(HISTORY_STEPS)
    for (let n = 0; n < HISTORY_STEPS + 20; n++) h = undo(h)
    expect(h.present).toEqual({ n: 20 })
    for (let n = 0; n < HISTORY_STEPS; n++) h = redo(h)
    expect(h.present).toEqual({ n: HISTORY_STEPS + 20 })
  })
})
