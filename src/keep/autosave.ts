import type { Plan } from '../document/plan'
import { writePlan } from '../plan/write'
import type { Clock } from './clock'
import { RETRY_DELAY, SAVE_DELAY } from './constants'
import { noteOnShelf, noteOpened } from './shelf'
import { otherSlot, packSlot, type SlotPlace, slotKey, unpackSlot } from './slots'
import { notKept, type StorageFailure, type TextStorage } from './storage'

/** What the screen says about the safety of the plan. */
export type SaveStatus =
  /** Everything is kept; `at` is when, ms since 1970, undefined before the first save. */
  | { readonly state: 'saved'; readonly at: number | undefined; readonly cleared: boolean }
  /** Something changed and is not kept yet. */
  | { readonly state: 'saving' }
  /** The last try failed; the plan is only in this page, and will be tried again. */
  | { readonly state: 'failed'; readonly failure: StorageFailure }
  /** Another page has saved this plan since: nothing more is written from here. */
  | { readonly state: 'elsewhere' }

export interface AutosaveOptions {
  readonly storage: TextStorage
  readonly clock: Clock
  readonly planId: string
  /** What was loaded and from where; left out for a plan that is new on the shelf. */
  readonly loaded?: { readonly plan: Plan; readonly at: SlotPlace }
}

/**
 * Keeps a plan as it changes: a save starts 0.25 s after the first unsaved change, goes to the slot that is
 * not the newest, is read back, and only then counts. Before writing it looks whether another page has
 * written meanwhile, or the storage was cleared.
 */
export class Autosave {
  readonly #storage: TextStorage
  readonly #clock: Clock
  readonly #planId: string
  #newest: SlotPlace | undefined
  #kept: Plan | undefined
  #waiting: Plan | undefined
  /** When the first change that is not kept yet was made, ms since 1970. */
  #changed = 0
  #cancelTimer: (() => void) | undefined
  #running: Promise<void> | undefined
  #stopped = false
  #status: SaveStatus
  readonly #listeners = new Set<(status: SaveStatus) => void>()

  constructor({ storage, clock, planId, loaded }: AutosaveOptions) {
    this.#storage = storage
    this.#clock = clock
    this.#planId = planId
    this.#newest = loaded?.at
    this.#kept = loaded?.plan
    this.#status = { state: 'saved', at: loaded?.at.saved, cleared: false }
  }

  get status(): SaveStatus {
    return this.#status
  }

  /** Calls the listener now and with every new status, until what comes back is called. */
  subscribe(listener: (status: SaveStatus) => void): () => void {
    this.#listeners.add(listener)
    listener(this.#status)
    return () => this.#listeners.delete(listener)
  }

  /** The plan is now this one. */
  change(plan: Plan): void {
    if (this.#stopped || plan === (this.#waiting ?? this.#kept)) return
    if (this.#waiting === undefined) this.#changed = this.#clock.now()
    this.#waiting = plan
    if (this.#status.state === 'saved') this.#tell({ state: 'saving' })
    if (this.#running === undefined) this.#schedule(SAVE_DELAY)
  }

  /** Saves at once what is not kept yet, and what changes meanwhile: when the page is hidden or about to close. */
  async flush(): Promise<SaveStatus> {
    do {
      await this.#running
      if (this.#waiting !== undefined) await this.#run()
    } while (this.#status.state === 'saving' && !this.#stopped)
    return this.#status
  }

  /** Saves nothing more. */
  stop(): void {
    this.#stopped = true
    this.#cancel()
  }

  #cancel(): void {
    this.#cancelTimer?.()
    this.#cancelTimer = undefined
  }

  #schedule(delay: number): void {
    if (this.#stopped || this.#cancelTimer !== undefined) return
    this.#cancelTimer = this.#clock.after(delay, () => {
      this.#cancelTimer = undefined
      void this.#run()
    })
  }

  #tell(status: SaveStatus): void {
    this.#status = status
    for (const listener of this.#listeners) listener(status)
  }

  #run(): Promise<void> {
    this.#cancel()
    this.#running ??= this.#saveWaiting().finally(() => {
      this.#running = undefined
      if (this.#waiting === undefined) return
      // What changed while a save was under way has waited already.
      const waited = this.#clock.now() - this.#changed
      this.#schedule(this.#status.state === 'failed' ? RETRY_DELAY : Math.max(0, SAVE_DELAY - waited))
    })
    return this.#running
  }

  async #saveWaiting(): Promise<void> {
    const plan = this.#waiting
    if (plan === undefined || this.#stopped) return
    this.#waiting = undefined
    const outcome = await this.#save(plan)
    if (outcome.state === 'saved') this.#kept = plan
    else if (outcome.state === 'failed') this.#waiting ??= plan
    else this.stop()
    const stillSaving = outcome.state === 'saved' && this.#waiting !== undefined
    this.#tell(stillSaving ? { state: 'saving' } : outcome)
  }

  async #save(plan: Plan): Promise<SaveStatus> {
    const seen = await this.#look()
    if (seen === 'elsewhere') return { state: 'elsewhere' }
    if (typeof seen === 'object') return { state: 'failed', failure: seen }
    const place: SlotPlace = {
      slot: this.#newest === undefined ? 'a' : otherSlot(this.#newest.slot),
      sequence: (this.#newest?.sequence ?? 0) + 1,
      saved: this.#clock.now(),
    }
    const failure = await this.#write(slotKey(this.#planId, place.slot), place, plan)
    if (failure !== undefined) return { state: 'failed', failure }
    this.#newest = place
    // The shelf's note can be made anew from the slots, so that a plan is safe without it.
    await noteOnShelf(this.#storage, this.#planId, plan, place.saved)
    // Cleared with all else: without it the next start would open another plan.
    if (seen === 'cleared') await noteOpened(this.#storage, this.#planId)
    return { state: 'saved', at: place.saved, cleared: seen === 'cleared' }
  }

  /** What has become of the slots since the last save from here. */
  async #look(): Promise<'as-left' | 'cleared' | 'elsewhere' | StorageFailure> {
    const newest = this.#newest
    for (const slot of ['a', 'b'] as const) {
      const got = await this.#storage.get(slotKey(this.#planId, slot))
      if (!got.ok) return got.failure
      const there = got.value === undefined ? undefined : unpackSlot(got.value)
      if (there !== undefined && there.sequence > (newest?.sequence ?? 0)) return 'elsewhere'
      if (slot === newest?.slot && got.value === undefined) return 'cleared'
    }
    return 'as-left'
  }

  async #write(key: string, place: SlotPlace, plan: Plan): Promise<StorageFailure | undefined> {
    let text: string
    try {
      text = packSlot(place, writePlan(plan))
    } catch (error) {
      return notKept('failed', String(error)).failure
    }
    const written = await this.#storage.set(key, text)
    if (!written.ok) return written.failure
    const back = await this.#storage.get(key)
    if (!back.ok) return back.failure
    return back.value === text ? undefined : notKept('changed').failure
  }
}
