import { describe, expect, it } from 'vitest'
import type { Plan } from '../../src/document/plan'
import { Autosave, type SaveStatus } from '../../src/keep/autosave'
import { RETRY_DELAY, SAVE_DELAY } from '../../src/keep/constants'
import { fakeClock } from '../../src/keep/fakes/clock'
import { failingStorage, memoryStorage } from '../../src/keep/fakes/storage'
import { lastOpened, listShelf } from '../../src/keep/shelf'
import { loadPlan, slotKey, unpackSlot } from '../../src/keep/slots'
import type { TextStorage } from '../../src/keep/storage'
import { random } from '../../src/space/random'
import { randomEdit } from '../plan/random-edit'
import { randomPlan } from '../plan/random-plan'

const base = randomPlan(random(1))
const titled = (title: string): Plan => ({ ...base, title })

async function titleOf(storage: TextStorage): Promise<string> {
  const loaded = await loadPlan(storage, 'p')
  return loaded.kind === 'loaded' ? loaded.plan.title : loaded.kind
}

function setUp(storage: TextStorage = memoryStorage()) {
  const clock = fakeClock()
  const autosave = new Autosave({ storage, clock, planId: 'p' })
  const told: SaveStatus[] = []
  autosave.subscribe((status) => told.push(status))
  return { storage, clock, autosave, told, states: () => told.map(({ state }) => state) }
}

/** A storage whose writes take their time, and the one below it. */
function slowStorage() {
  const below = memoryStorage()
  const clock = fakeClock()
  const storage: TextStorage = {
    ...below,
    set: (key, text) => new Promise((resolve) => void clock.after(600, () => resolve(below.set(key, text)))),
  }
  return { below, storage, clock }
}

describe('autosave', () => {
  it('keeps the last change within a second and says so', async () => {
    const { storage, clock, autosave, states } = setUp()
    expect(SAVE_DELAY).toBeLessThan(1000)
    autosave.change(titled('one'))
    autosave.change(titled('two'))
    await clock.advance(SAVE_DELAY - 1)
    expect(await titleOf(storage)).toBe('absent')
    await clock.advance(1)
    expect(await titleOf(storage)).toBe('two')
    expect(states()).toEqual(['saved', 'saving', 'saved'])
    expect(autosave.status).toEqual({ state: 'saved', at: 1_000_000 + SAVE_DELAY, cleared: false })
  })

  it('saves during a drag that does not stop', async () => {
    const { storage, clock, autosave } = setUp()
    for (let i = 0; i < 100; i++) {
      autosave.change(titled(`${i}`))
      await clock.advance(20)
      const kept = await titleOf(storage)
      if (i > 25) expect(i - Number(kept), `at ${i}`).toBeLessThanOrEqual(2 * (SAVE_DELAY / 20) + 1)
    }
  })

  it('writes the two slots in turn, so that the state before is there too', async () => {
    const storage = memoryStorage()
    const { clock, autosave } = setUp(storage)
    for (const title of ['one', 'two', 'three']) {
      autosave.change(titled(title))
      await clock.advance(SAVE_DELAY)
    }
    const sequences = (['a', 'b'] as const).map(
      (slot) => unpackSlot(storage.texts.get(slotKey('p', slot)) ?? '')?.sequence,
    )
    expect(sequences).toEqual([3, 2])
  })

  it('goes on from where the plan was loaded', async () => {
    const { storage, clock, autosave } = setUp()
    autosave.change(titled('one'))
    await clock.advance(SAVE_DELAY)
    const loaded = await loadPlan(storage, 'p')
    if (loaded.kind !== 'loaded') throw new Error(loaded.kind)
    const next = new Autosave({ storage, clock, planId: 'p', loaded })
    expect(next.status).toMatchObject({ state: 'saved', at: 1_000_000 + SAVE_DELAY })
    next.change(loaded.plan)
    expect(next.status.state).toBe('saved')
    next.change(titled('two'))
    await next.flush()
    expect(await titleOf(storage)).toBe('two')
    expect(await loadPlan(storage, 'p')).toMatchObject({ at: { slot: 'b', sequence: 2 }, damaged: false })
  })

  it('saves at once when flushed, also what changed while a save was under way', async () => {
    const { storage, autosave } = setUp()
    autosave.change(titled('one'))
    const first = autosave.flush()
    autosave.change(titled('two'))
    await first
    expect((await autosave.flush()).state).toBe('saved')
    expect(await titleOf(storage)).toBe('two')
  })

  it('a flush is over once what changed meanwhile is kept too', async () => {
    const { storage, clock } = slowStorage()
    const autosave = new Autosave({ storage, clock, planId: 'p' })
    autosave.change(titled('one'))
    const flushed = autosave.flush()
    await clock.advance(300)
    autosave.change(titled('two'))
    for (let i = 0; i < 5; i++) await clock.advance(600)
    expect((await flushed).state).toBe('saved')
    expect(await titleOf(storage)).toBe('two')
  })

  it('what changed while a slow save was under way has waited already, and is saved at once', async () => {
    const { below, storage, clock } = slowStorage()
    const autosave = new Autosave({ storage, clock, planId: 'p' })
    autosave.change(titled('one'))
    await clock.advance(SAVE_DELAY + 1)
    autosave.change(titled('two'))
    // The first slot and the shelf's note, then the other slot: three slow writes and no pause between.
    for (let i = 0; i < 3; i++) await clock.advance(600)
    expect(await titleOf(below)).toBe('two')
  })

  it('saves nothing after it is stopped', async () => {
    const { storage, clock, autosave } = setUp()
    autosave.change(titled('one'))
    autosave.stop()
    await clock.advance(60_000)
    expect(await titleOf(storage)).toBe('absent')
  })

  it('notes the plan on the shelf', async () => {
    const { storage, autosave } = setUp()
    autosave.change(titled('one'))
    await autosave.flush()
    expect(await listShelf(storage)).toMatchObject({
      ok: true,
      value: [{ id: 'p', title: 'one', damaged: false }],
    })
  })
})

describe('autosave on storage that fails', () => {
  it.each([
    ['full', 'full'],
    ['blocked', 'blocked'],
    ['torn', 'changed'],
    ['lost', 'changed'],
  ] as const)('says so when a write is %s, keeps the state before, and tries again', async (wrong, code) => {
    let healthy = false
    const storage = failingStorage((write) => (write > 2 && !healthy ? wrong : undefined))
    const { clock, autosave } = setUp(storage)
    autosave.change(titled('one'))
    await clock.advance(SAVE_DELAY)
    autosave.change(titled('two'))
    await clock.advance(SAVE_DELAY)
    expect(autosave.status).toMatchObject({ state: 'failed', failure: { code } })
    expect(await titleOf(storage)).toBe('one')
    autosave.change(titled('three'))
    await clock.advance(RETRY_DELAY * 2)
    expect(autosave.status.state).toBe('failed')
    expect(await titleOf(storage)).toBe('one')
    healthy = true
    await clock.advance(RETRY_DELAY)
    expect(autosave.status.state).toBe('saved')
    expect(await titleOf(storage)).toBe('three')
  })

  it('says so when nothing can be read', async () => {
    const below = memoryStorage()
    const failure = { code: 'blocked', message: 'no' } as const
    const { clock, autosave } = setUp({ ...below, get: async () => ({ ok: false, failure }) })
    autosave.change(titled('one'))
    await clock.advance(SAVE_DELAY)
    expect(autosave.status).toEqual({ state: 'failed', failure })
  })

  it('says so when the plan cannot be written, and saves the next that can', async () => {
    const { storage, clock, autosave } = setUp()
    autosave.change({ ...base, gravity: Number.NaN })
    await clock.advance(SAVE_DELAY)
    expect(autosave.status).toMatchObject({ state: 'failed', failure: { code: 'failed' } })
    autosave.change(titled('well'))
    await autosave.flush()
    expect(await titleOf(storage)).toBe('well')
  })

  it('saves anew and says so when the storage was cleared', async () => {
    const storage = memoryStorage()
    const { clock, autosave } = setUp(storage)
    autosave.change(titled('one'))
    await clock.advance(SAVE_DELAY)
    storage.texts.clear()
    autosave.change(titled('two'))
    await clock.advance(SAVE_DELAY)
    expect(autosave.status).toMatchObject({ state: 'saved', cleared: true })
    expect(await titleOf(storage)).toBe('two')
    expect(await lastOpened(storage)).toEqual({ ok: true, value: 'p' })
  })

  it('reopens a whole state no older than the last one said to be saved, whichever writes fail', async () => {
    for (let seed = 0; seed < 150; seed++) {
      const next = random(seed)
      const kinds = ['full', 'blocked', 'torn', 'lost'] as const
      const storage = failingStorage(() => (next() < 0.4 ? kinds[Math.floor(next() * 4)] : undefined))
      const { clock, autosave } = setUp(storage)
      const states: Plan[] = [randomPlan(random(seed))]
      let safe = -1
      let plan = states[0] as Plan
      for (let step = 0; step < 12; step++) {
        plan = { ...randomEdit(plan, next).plan, title: `${step}` }
        states.push(plan)
        autosave.change(plan)
        await clock.advance(next() * 3000)
        if (autosave.status.state === 'saved') safe = step
        const loaded = await loadPlan(storage, 'p')
        const why = `seed ${seed}, step ${step}`
        if (safe >= 0) {
          expect(loaded.kind, why).toBe('loaded')
          if (loaded.kind === 'loaded') expect(Number(loaded.plan.title), why).toBeGreaterThanOrEqual(safe)
        }
      }
    }
  }, 60_000)
})

describe('two pages with one plan', () => {
  it('the one that saves second is told, and writes nothing', async () => {
    const storage = memoryStorage()
    const one = setUp(storage)
    one.autosave.change(titled('one'))
    await one.autosave.flush()
    const loaded = await loadPlan(storage, 'p')
    if (loaded.kind !== 'loaded') throw new Error(loaded.kind)
    const other = new Autosave({ storage, clock: one.clock, planId: 'p', loaded })
    other.change(titled('from the other page'))
    await other.flush()
    one.autosave.change(titled('too late'))
    expect(await one.autosave.flush()).toEqual({ state: 'elsewhere' })
    one.autosave.change(titled('still too late'))
    await one.clock.advance(60_000)
    expect(await titleOf(storage)).toBe('from the other page')
    expect(other.status.state).toBe('saved')
  })
})
