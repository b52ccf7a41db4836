import type { Plan } from '../../document/plan'
import { Autosave, type SaveStatus } from '../../keep/autosave'
import type { Clock } from '../../keep/clock'
import type { Claim, PlanLocks } from '../../keep/locks'
import {
  lastOpened,
  listShelf,
  newPlanId,
  noteOpened,
  removeFromShelf,
  type ShelfEntry,
} from '../../keep/shelf'
import { type LoadedPlan, loadPlan, type SlotPlace } from '../../keep/slots'
import type { Kept, TextStorage } from '../../keep/storage'

export interface KeepingTools {
  readonly storage: TextStorage
  readonly clock: Clock
  readonly locks: PlanLocks
}

/** The shelf of plans and the saving of the open one, as the screen needs them. */
export class Keeping {
  readonly #tools: KeepingTools
  #autosave: Autosave | null = null
  #claim: Claim | null = null
  #untouched: Plan | null = null
  /** Whether something was changed that another page keeps this one from saving. */
  #adrift = false
  #planId: string | null = $state.raw(null)
  #status: SaveStatus | null = $state.raw(null)

  constructor(tools: KeepingTools) {
    this.#tools = tools
  }

  /** The open plan's place on the shelf; null before the first plan is open. */
  get planId(): string | null {
    return this.#planId
  }

  get status(): SaveStatus | null {
    return this.#status
  }

  /** The plan that was open last; null where the browser has none. */
  async last(): Promise<{ readonly id: string; readonly loaded: LoadedPlan } | null> {
    const id = await lastOpened(this.#tools.storage)
    if (!id.ok || id.value === undefined) return null
    return { id: id.value, loaded: await this.load(id.value) }
  }

  load(id: string): Promise<LoadedPlan> {
    return loadPlan(this.#tools.storage, id)
  }

  list(): Promise<Kept<readonly ShelfEntry[]>> {
    return listShelf(this.#tools.storage)
  }

  remove(id: string): Promise<Kept<undefined>> {
    return removeFromShelf(this.#tools.storage, id)
  }

  /**
   * Saves the plan in the place it was loaded from as it changes.
   * @returns whether this page may: another that has it open keeps it to itself
   */
  async resume(id: string, plan: Plan, at: SlotPlace): Promise<Claim['kind']> {
    const claim = await this.#tools.locks.claim(id)
    const left = this.#switch(id, { plan, at })
    this.#claim = claim
    if (claim.kind === 'elsewhere') {
      this.#autosave?.stop()
      this.#status = { state: 'elsewhere' }
    }
    await left
    return claim.kind
  }

  /**
   * Gives a plan a new place on the shelf.
   * @param when at once, or with its first change: a demo that is only looked at takes no place
   */
  async begin(plan: Plan, when: 'at once' | 'with a change'): Promise<void> {
    const id = newPlanId(this.#tools.clock)
    const left = this.#switch(id)
    this.#untouched = plan
    if (when === 'at once') this.#autosave?.change(plan)
    this.#claim = await this.#tools.locks.claim(id)
    await left
  }

  /** The open plan is now this one. */
  change(plan: Plan): void {
    if (plan === this.#untouched) return
    this.#untouched = null
    this.#adrift ||= this.#status?.state === 'elsewhere'
    this.#autosave?.change(plan)
  }

  /** Saves what is not kept yet; whether everything is kept then. */
  async flush(): Promise<boolean> {
    const status = await this.#autosave?.flush()
    return !this.#adrift && (status === undefined || status.state === 'saved')
  }

  async #switch(id: string, loaded?: { readonly plan: Plan; readonly at: SlotPlace }): Promise<void> {
    const { storage, clock } = this.#tools
    const before = this.#autosave
    if (this.#claim?.kind === 'mine') this.#claim.release()
    this.#claim = null
    this.#untouched = null
    this.#adrift = false
    const autosave = new Autosave({ storage, clock, planId: id, ...(loaded && { loaded }) })
    this.#autosave = autosave
    this.#planId = id
    autosave.subscribe((status) => {
      if (this.#autosave === autosave) this.#status = status
    })
    await before?.flush()
    before?.stop()
    await noteOpened(storage, id)
  }
}

/** The status in words, short enough for the top bar. */
export function savedText(status: SaveStatus | null, timeText: (at: number) => string): string {
  switch (status?.state) {
    case 'saving':
      return 'Keeping it …'
    case 'failed':
      return 'Not kept'
    case 'elsewhere':
      return 'Open in another tab'
    case 'saved':
      return status.at === undefined ? 'Nothing to keep yet' : `Kept here at ${timeText(status.at)}`
    default:
      return ''
  }
}

/** What the status means and what to do. */
export function savedHint(status: SaveStatus | null): string {
  switch (status?.state) {
    case 'failed':
      return `${status.failure.message} It is tried again by itself.`
    case 'elsewhere':
      return 'Another tab of this browser writes this plan, so nothing is kept from here. Keep a copy to go on.'
    case 'saved':
      return status.cleared
        ? 'The browser’s site data was cleared; the plan as it stands here is kept again.'
        : 'Every change is kept in this browser, on this machine, and nowhere else. A file can go elsewhere.'
    default:
      return 'Every change is kept in this browser within a second.'
  }
}
