import type { ContactPart, ContactSpan } from '../../document/contacts'
import type { CarriedLoad, Take } from '../../document/plan'
import { picksUp, setsDown } from './carried'
import type { Keys } from './key-pose'
import type { Transfer } from './types'

/** What was carried at the frame goes on being carried, until it is set down; what is picked up is, from the touch on. */
export function loadsOf(
  old: Take,
  frame: number,
  chain: readonly Keys[],
  frames: readonly (readonly number[])[],
  end: number,
): CarriedLoad[] {
  const touch = (does: (transfer: Transfer) => boolean): number | undefined => {
    const s = chain.findLastIndex(({ transfer }) => does(transfer))
    return frames[s]?.[chain[s]?.touches ?? -1]
  }
  return old.loads.flatMap((load) => {
    if (load.to < frame) return [load]
    if (load.from <= frame) return [{ ...load, to: touch((transfer) => setsDown(transfer, load)) ?? end }]
    const from = touch((transfer) => picksUp(transfer, load))
    return from === undefined ? [] : [{ ...load, from, to: end }]
  })
}

/** The old spans up to the frame, and from there what the chain frees and plants. */
export function spansOf(
  old: Take,
  frame: number,
  chain: readonly Keys[],
  frames: readonly (readonly number[])[],
  leaves: readonly (number | null)[],
  end: number,
): ContactSpan[] {
  const before = old.contacts.filter(({ from }) => from <= frame)
  const open = new Map<ContactPart, ContactSpan>()
  const closed: ContactSpan[] = []
  for (const span of before) {
    if (span.to < frame) closed.push(span)
    else open.set(span.part, span)
  }
  chain.forEach(({ transfer, touches }, s) => {
    const row = frames[s] as readonly number[]
    const leave = leaves[s]
    const touch = row[touches]
    for (const part of transfer.release) {
      const span = open.get(part)
      if (!span || leave === undefined || leave === null) continue
      closed.push({ ...span, to: leave })
      open.delete(part)
    }
    if (touch !== undefined)
      for (const spot of transfer.plant)
        open.set(spot.part, { ...spot, id: `${spot.part}-${touch}`, from: touch, to: end, state: 'planted' })
  })
  const spans = [...closed, ...[...open.values()].map((span) => ({ ...span, to: end }))]
  return spans.map((span, i) =>
    spans.findIndex(({ id }) => id === span.id) < i ? { ...span, id: `${span.id}-${i}` } : span,
  )
}
