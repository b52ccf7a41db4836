import { describe, expect, it } from 'vitest'
import { Autosave } from '../../src/keep/autosave'
import { fakeClock } from '../../src/keep/fakes/clock'
import { failingStorage, memoryStorage } from '../../src/keep/fakes/storage'
import { lastOpened, listShelf, newPlanId, noteOpened, removeFromShelf } from '../../src/keep/shelf'
import { slotKey } from '../../src/keep/slots'
import { random } from '../../src/space/random'
import { randomPlan } from '../plan/random-plan'

const base = randomPlan(random(1))

/** A shelf of two plans, `b` saved after `a`. */
async function shelfOfTwo() {
  const storage = memoryStorage()
  const clock = fakeClock(5000)
  for (const id of ['a', 'b']) {
    const autosave = new Autosave({ storage, clock, planId: id })
    autosave.change({ ...base, title: `plan ${id}`, character: `somebody ${id}` })
    await autosave.flush()
    await clock.advance(1000)
  }
  return { storage, clock }
}

describe('the shelf', () => {
  it('lists plans, the last changed first', async () => {
    const { storage } = await shelfOfTwo()
    expect(await listShelf(storage)).toEqual({
      ok: true,
      value: [
        { id: 'b', title: 'plan b', character: 'somebody b', changed: 6000, damaged: false },
        { id: 'a', title: 'plan a', character: 'somebody a', changed: 5000, damaged: false },
      ],
    })
  })

  it.each([
    ['is missing', undefined],
    ['is no JSON', '{'],
    ['says something else', '{"title": 3}'],
  ])('looks into the slots when an entry %s', async (_, entry) => {
    const { storage } = await shelfOfTwo()
    const before = await listShelf(storage)
    if (entry === undefined) storage.texts.delete('shelf/a')
    else storage.texts.set('shelf/a', entry)
    expect(await listShelf(storage)).toEqual(before)
  })

  it('shows a plan whose slots are damaged as damaged', async () => {
    const { storage } = await shelfOfTwo()
    storage.texts.delete('shelf/a')
    storage.texts.set(slotKey('a', 'a'), 'noise')
    expect(await listShelf(storage)).toMatchObject({ value: [{ id: 'b' }, { id: 'a', damaged: true }] })
  })

  it('takes a plan off with everything that was kept of it', async () => {
    const { storage } = await shelfOfTwo()
    await removeFromShelf(storage, 'a')
    expect([...storage.texts.keys()].filter((key) => key.includes('/a'))).toEqual(['plan/b/a'])
  })

  it('remembers which plan was open last', async () => {
    const storage = memoryStorage()
    expect(await lastOpened(storage)).toEqual({ ok: true, value: undefined })
    await noteOpened(storage, 'b')
    expect(await lastOpened(storage)).toEqual({ ok: true, value: 'b' })
  })

  it('passes on that nothing can be kept', async () => {
    const full = failingStorage(() => 'full')
    expect(await noteOpened(full, 'b')).toMatchObject({ ok: false, failure: { code: 'full' } })
  })
})

it('ids of new plans differ by time and by chance', () => {
  const clock = fakeClock(1_700_000_000_000)
  expect(newPlanId(clock, () => 0)).toBe('loyw3v28-00000')
  expect(newPlanId(clock, () => 0.999999999)).toBe('loyw3v28-zzzzz')
  const next = random(1)
  expect(new Set(Array.from({ length: 1000 }, () => newPlanId(clock, next))).size).toBe(1000)
})
