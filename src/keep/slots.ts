import type { Plan } from '../document/plan'
import type { Fault } from '../plan/faults'
import { readPlan } from '../plan/read'
import { checksum } from './checksum'
import type { StorageFailure, TextStorage } from './storage'

/**
 * A plan is kept in two slots that are written in turn, so that a save that breaks off leaves the one before
 * it whole. A slot is a line of JSON with a number that grows, the time and a checksum, then the plan file.
 */
export type SlotName = 'a' | 'b'
export const SLOTS: readonly SlotName[] = ['a', 'b']

export const slotKey = (planId: string, slot: SlotName): string => `plan/${planId}/${slot}`

export const otherSlot = (slot: SlotName): SlotName => (slot === 'a' ? 'b' : 'a')

export interface SlotHead {
  /** Grows by one with every save of the plan. */
  readonly sequence: number
  /** When it was saved, ms since 1970. */
  readonly saved: number
}

export function packSlot(head: SlotHead, planText: string): string {
  const { sequence, saved } = head
  return `${JSON.stringify({ slot: 1, sequence, saved, checksum: checksum(planText) })}\n${planText}`
}

/** What a slot holds; undefined where it is damaged or no slot of ours. */
export function unpackSlot(text: string): (SlotHead & { readonly planText: string }) | undefined {
  const end = text.indexOf('\n')
  if (end < 0) return undefined
  const planText = text.slice(end + 1)
  try {
    const head: unknown = JSON.parse(text.slice(0, end))
    if (typeof head !== 'object' || head === null) return undefined
    const { slot, sequence, saved, checksum: sum } = head as Record<string, unknown>
    if (slot !== 1 || !Number.isSafeInteger(sequence) || typeof saved !== 'number') return undefined
    return sum === checksum(planText) ? { sequence: sequence as number, saved, planText } : undefined
  } catch {
    return undefined
  }
}

/** The newest whole state of a plan. */
export async function loadPlan(storage: TextStorage, planId: string): Promise<LoadedPlan> {
  const texts: string[] = []
  const whole: { slot: SlotName; head: SlotHead; planText: string }[] = []
  for (const slot of SLOTS) {
    const got = await storage.get(slotKey(planId, slot))
    if (!got.ok) return { kind: 'failed', failure: got.failure }
    if (got.value === undefined) continue
    texts.push(got.value)
    const unpacked = unpackSlot(got.value)
    if (unpacked !== undefined) whole.push({ slot, head: unpacked, planText: unpacked.planText })
  }
  if (texts.length === 0) return { kind: 'absent' }
  whole.sort((a, b) => b.head.sequence - a.head.sequence)
  let faults: readonly Fault[] = []
  for (const { slot, head, planText } of whole) {
    const read = readPlan(planText)
    if (read.ok) {
      const damaged = whole.length < texts.length || slot !== whole[0]?.slot
      return { kind: 'loaded', plan: read.plan, at: { slot, ...pick(head) }, damaged }
    }
    if (faults.length === 0) faults = read.faults
  }
  return { kind: 'damaged', texts, faults }
}

const pick = ({ sequence, saved }: SlotHead): SlotHead => ({ sequence, saved })

/** Where a plan was last saved. */
export type SlotPlace = SlotHead & { readonly slot: SlotName }

export type LoadedPlan =
  | {
      readonly kind: 'loaded'
      readonly plan: Plan
      readonly at: SlotPlace
      /** A newer or older state was there but could not be read. */
      readonly damaged: boolean
    }
  | { readonly kind: 'absent' }
  /** There are slots but none is whole; the texts are given so that nothing is lost. */
  | { readonly kind: 'damaged'; readonly texts: readonly string[]; readonly faults: readonly Fault[] }
  | { readonly kind: 'failed'; readonly failure: StorageFailure }
