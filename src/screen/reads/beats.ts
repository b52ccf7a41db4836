import { limbOf } from '../../document/contacts'
import type { Plan, Take } from '../../document/plan'
import { oneOf } from '../../plan/edit/change'
import { setLength } from '../../plan/edit/frames'
import { fewestFrames, retimeSpan } from '../../plan/edit/retime'
import { notes } from '../../plan/edit/things'
import type { BeatName } from '../../shift/reads-acting'

/** A beat on the character's own frames, from 0. */
export interface BeatFrame {
  readonly name: BeatName
  readonly frame: number
}

/** Writes beats into the sheet as notes on their frames; the take grows where they come after its end. */
export function beatsAsNotes(plan: Plan, takeId: string, beats: readonly BeatFrame[]): Plan {
  const last = Math.max(0, ...beats.map(({ frame }) => frame))
  const take = oneOf(plan.takes, takeId)
  const long = last >= take.length ? setLength(plan, takeId, last + 1) : plan
  return beats.reduce(
    (changing, { name, frame }) => notes.add(changing, takeId, { frame, text: `acted: ${name}` }),
    long,
  )
}

/**
 * Retimes a take so that what it has of the beats comes as far apart as they do; the first of them stays where it
 * is. The same plan where it has fewer than two of them.
 */
export function retimeToBeats(plan: Plan, takeId: string, beats: readonly BeatFrame[]): Plan {
  const pairs = sharedBeats(oneOf(plan.takes, takeId), beats)
  let changing = plan
  for (const [i, { acted }] of pairs.entries()) {
    const next = pairs[i + 1]
    if (!next) break
    // What was retimed before has moved the beats behind it.
    const now = sharedBeats(oneOf(changing.takes, takeId), beats)
    const span = { from: now[i]?.own ?? 0, to: now[i + 1]?.own ?? 0 }
    if (!(span.to > span.from)) continue
    const least = fewestFrames(oneOf(changing.takes, takeId), span)
    changing = retimeSpan(changing, takeId, span, Math.max(least, next.acted - acted))
  }
  return changing
}

/** The beats that a take has as well, in order, each on its own frame of the take and on the acted one. */
export function sharedBeats(take: Take, beats: readonly BeatFrame[]): SharedBeat[] {
  const found = beats.flatMap(({ name, frame }) => {
    const own = beatOf(take, name)
    return own === null ? [] : [{ name, acted: frame, own }]
  })
  return found.filter(({ own }, i) => found.slice(0, i).every((before) => before.own < own))
}

interface SharedBeat {
  readonly name: BeatName
  readonly acted: number
  readonly own: number
}

/** Where a take has a beat of its mover's first move: from its contacts and phases; null where nothing says so. */
function beatOf(take: Take, name: BeatName): number | null {
  const { limb } = take.mover
  const own = take.contacts.filter(({ part }) => limbOf(part) === limb)
  const leaves = own.filter(({ to }) => to < take.length - 1).map(({ to }) => to)
  // Toes leave last: a limb is off when no contact of it goes on.
  const off = leaves.find((to) => !own.some((span) => span.from <= to + 1 && span.to > to))
  const phase = (id: string) => take.phases.find((one) => one.name === id)
  switch (name) {
    case 'starts':
      return phase('press')?.from ?? phase('lean')?.from ?? null
    case 'weight over':
      return phase('sink')?.from ?? phase('lean')?.to ?? null
    case 'leaves':
      return off ?? null
    case 'touches': {
      const down = own.filter(({ from }) => off !== undefined && from > off).map(({ from }) => from)
      return down.length > 0 ? Math.min(...down) : null
    }
    case 'loaded':
      return phase('take-up')?.to ?? null
    case 'still':
      return phase('settle')?.to ?? null
  }
}
