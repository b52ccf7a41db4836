import type { Plan } from '../document/plan'
import type { Clock } from './clock'
import { loadPlan, SLOTS, slotKey } from './slots'
import { type Kept, kept, type TextStorage } from './storage'

/** A plan on the shelf. */
export interface ShelfEntry {
  readonly id: string
  readonly title: string
  readonly character: string
  /** When it was last saved, ms since 1970. */
  readonly changed: number
  /** None of its kept states can be read. */
  readonly damaged: boolean
}

/**
 * Every plan the browser keeps, the last changed first. An entry is only a note of what the slots hold: a
 * plan whose entry is missing or damaged is looked up in its slots.
 */
export async function listShelf(storage: TextStorage): Promise<Kept<readonly ShelfEntry[]>> {
  const slots = await storage.list('plan/')
  if (!slots.ok) return slots
  const ids = new Set(slots.value.map((key) => key.slice('plan/'.length, -'/a'.length)))
  const entries = await Promise.all([...ids].map((id) => entryOf(storage, id)))
  return kept(entries.sort((a, b) => b.changed - a.changed || (a.id < b.id ? -1 : 1)))
}

/** Notes what the shelf shows of a plan; called with every save. */
export const noteOnShelf = (
  storage: TextStorage,
  id: string,
  { title, character }: Plan,
  changed: number,
): Promise<Kept<undefined>> => storage.set(entryKey(id), JSON.stringify({ title, character, changed }))

/** Takes a plan off the shelf, with everything kept of it. */
export async function removeFromShelf(storage: TextStorage, id: string): Promise<Kept<undefined>> {
  for (const key of [...SLOTS.map((slot) => slotKey(id, slot)), entryKey(id)]) {
    const gone = await storage.delete(key)
    if (!gone.ok) return gone
  }
  return kept(undefined)
}

/** The id of the plan that was open last; undefined where there is none. */
export const lastOpened = (storage: TextStorage): Promise<Kept<string | undefined>> => storage.get(LAST)

export const noteOpened = (storage: TextStorage, id: string): Promise<Kept<undefined>> =>
  storage.set(LAST, id)

/**
 * An id for a plan that is new on the shelf: the time and a random tail, so that two pages do not meet.
 * @param random a source in [0, 1)
 */
export function newPlanId(clock: Clock, random: () => number = Math.random): string {
  const tail = Math.floor(random() * 36 ** 5)
  return `${clock.now().toString(36)}-${tail.toString(36).padStart(5, '0')}`
}

const LAST = 'last-opened'
const entryKey = (id: string): string => `shelf/${id}`

async function entryOf(storage: TextStorage, id: string): Promise<ShelfEntry> {
  const noted = await storage.get(entryKey(id))
  const entry = noted.ok && noted.value !== undefined ? parseEntry(noted.value) : undefined
  if (entry !== undefined) return { id, ...entry, damaged: false }
  const loaded = await loadPlan(storage, id)
  if (loaded.kind !== 'loaded') return { id, title: '', character: '', changed: 0, damaged: true }
  const { title, character } = loaded.plan
  return { id, title, character, changed: loaded.at.saved, damaged: false }
}

function parseEntry(text: string): Omit<ShelfEntry, 'id' | 'damaged'> | undefined {
  try {
    const entry: unknown = JSON.parse(text)
    if (typeof entry !== 'object' || entry === null) return undefined
    const { title, character, changed } = entry as Record<string, unknown>
    const right = typeof title === 'string' && typeof character === 'string' && typeof changed === 'number'
    return right ? { title, character, changed } : undefined
  } catch {
    return undefined
  }
}
