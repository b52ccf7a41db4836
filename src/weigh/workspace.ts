import { LoadRanges } from './ranges'
import { RegionFinder } from './region'
import { split } from './split'
import { ContactSystem } from './system'
import type { Body, Contact, Weighing } from './types'

/**
 * The arrays of the weighing, made once and reused: weighing a hundred thousand frames leaves little for
 * the collector but the answers. One frame at a time; nothing here outlives a call except what `recall`
 * finds still true.
 */
export const system = new ContactSystem()
export const ranges = new LoadRanges()
export const regions = new RegionFinder()

let known: Weighing | null = null

/** Loads a problem and splits it; returns the push, force over W and moment over W L. */
export function prepare(contacts: readonly Contact[], body: Body): Float64Array {
  known = null
  system.load(contacts, body)
  const { push } = split(system)
  system.sumUp()
  return push
}

/** Says that the split in hand belongs to this answer. */
export function remember(weighing: Weighing): Weighing {
  known = weighing
  return weighing
}

/** Brings back the split an answer belongs to; splits again, to the same forces, unless it was the last one. */
export function recall(contacts: readonly Contact[], body: Body, weighing: Weighing): void {
  if (weighing !== known) prepare(contacts, body)
}
