import { type ContactPart, type ContactSpan, sideOf } from '../../document/contacts'
import type { CarriedLoad, Take } from '../../document/plan'
import type { Keys } from './key-pose'

/** What was carried at the frame goes on being carried, but for what a set-down sets down. */
export function loadsOf(
  old: Take,
  frame: number,
  chain: readonly Keys[],
  frames: readonly (readonly number[])[],
  end: number,
): CarriedLoad[] {
  const until = (load: CarriedLoad): number => {
    const s = chain.findIndex(
      ({ transfer: { kind, limb } }) =>
        kind === 'set-down' && (load.on === 'hands' || load.on === `hand${sideOf(limb)}`),
    )
    return frames[s]?.[chain[s]?.touches ?? -1] ?? end
  }
  return old.loads
    .filter(({ from }) => from <= frame)
    .map((load) => (load.to >= frame ? { ...load, to: until(load) } : load))
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
