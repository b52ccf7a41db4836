import { type ContactPart, type ContactSpan, KINDS_OF, partKind } from '../../document/contacts'
import { LIMITS } from '../../document/limits'
import type { Plan, Take } from '../../document/plan'
import { norm } from '../../space/vec'
import { freshId } from '../ids'
import type { NewContact } from '../new'
import { CONTACT_FORM } from '../plan-form'
import { clamp, withinLimits } from '../within-limits'
import { changeOne, changeTake, patch, without } from './change'
import { frameIn } from './keys'

/**
 * Lets a part touch from a frame to another; what that part did there before gives way, so that spans of
 * one part never overlap.
 * @param contact without `from` and `to` it holds through the whole take, without `state` it is planted
 * @throws RangeError when the part cannot touch so, or there is nothing of that id to touch
 */
export function addContact(plan: Plan, takeId: string, contact: NewContact): Plan {
  return changeTake(plan, takeId, (take) => {
    const from = frameIn(take, contact.from ?? 0)
    const to = frameIn(take, contact.to ?? take.length - 1)
    const cleared = clear(take.contacts, contact.part, Math.min(from, to), Math.max(from, to))
    if (cleared.length >= LIMITS.contacts) return take
    const span = checked(plan, {
      state: 'planted',
      ...contact,
      id: freshId(contact.part, take.contacts.concat(cleared)),
      from: Math.min(from, to),
      to: Math.max(from, to),
    })
    return { ...take, contacts: [...cleared, span] }
  })
}

/** Takes a part off from a frame to another, both included; a span that lasts longer is cut or split. */
export function liftPart(plan: Plan, takeId: string, part: ContactPart, from: number, to: number): Plan {
  return changeTake(plan, takeId, (take) => {
    const [first, last] = [frameIn(take, Math.min(from, to)), frameIn(take, Math.max(from, to))]
    return patch(take, { contacts: clear(take.contacts, part, first, last) })
  })
}

/** Gives a span new ends, no further than the take and the part's neighbouring spans allow. */
export function trimContact(
  plan: Plan,
  takeId: string,
  id: string,
  ends: { readonly from?: number; readonly to?: number },
): Plan {
  return changeSpan(plan, takeId, id, (span, { first, last }) => {
    // The end that is not being moved stays; the other stops at it.
    const to = Math.round(clamp(ends.to ?? span.to, [ends.from === undefined ? span.from : first, last]))
    const from = Math.round(clamp(ends.from ?? span.from, [first, to]))
    return patch(span, { from, to })
  })
}

/** Moves a span by some frames, no further than the take and the part's neighbouring spans allow. */
export function moveContact(plan: Plan, takeId: string, id: string, by: number): Plan {
  return changeSpan(plan, takeId, id, (span, { first, last }) => {
    const moved = Math.round(clamp(by, [first - span.from, last - span.to]))
    return patch(span, { from: span.from + moved, to: span.to + moved })
  })
}

/**
 * Changes how or where a span touches.
 * @throws RangeError when its part cannot touch so, or there is nothing of that id to touch
 */
export function changeContact(
  plan: Plan,
  takeId: string,
  id: string,
  changes: Partial<Omit<ContactSpan, 'id' | 'part' | 'from' | 'to'>>,
): Plan {
  return changeSpan(plan, takeId, id, (span) => patch(span, checked(plan, { ...span, ...changes })))
}

export function deleteContact(plan: Plan, takeId: string, id: string): Plan {
  return changeTake(plan, takeId, (take) => ({ ...take, contacts: without(take.contacts, id) }))
}

/** The frames a span may cover without meeting another of its part or leaving the take. */
export function roomOf(take: Take, span: ContactSpan): { readonly first: number; readonly last: number } {
  let first = 0
  let last = take.length - 1
  for (const other of take.contacts) {
    if (other.part !== span.part || other.id === span.id) continue
    if (other.to < span.from) first = Math.max(first, other.to + 1)
    else last = Math.min(last, other.from - 1)
  }
  return { first, last }
}

function changeSpan(
  plan: Plan,
  takeId: string,
  id: string,
  change: (span: ContactSpan, room: ReturnType<typeof roomOf>) => ContactSpan,
): Plan {
  return changeTake(plan, takeId, (take) =>
    patch(take, { contacts: changeOne(take.contacts, id, (span) => change(span, roomOf(take, span))) }),
  )
}

/** The spans with nothing of the part left from `first` to `last`; the same list when nothing was there. */
function clear(
  spans: readonly ContactSpan[],
  part: ContactPart,
  first: number,
  last: number,
): readonly ContactSpan[] {
  const inTheWay = (span: ContactSpan) => span.part === part && span.from <= last && span.to >= first
  if (!spans.some(inTheWay)) return spans
  const left: ContactSpan[] = []
  for (const span of spans) {
    if (!inTheWay(span)) {
      left.push(span)
      continue
    }
    const hasStart = span.from < first
    if (hasStart) left.push({ ...span, to: first - 1 })
    if (span.to > last) left.push({ ...span, id: hasStart ? freshId(part, spans) : span.id, from: last + 1 })
  }
  return left
}

/** The span within its limits, with a normal of length 1. */
function checked(plan: Plan, span: ContactSpan): ContactSpan {
  const fitted = withinLimits(CONTACT_FORM, span)
  if (!KINDS_OF[partKind(span.part)].includes(span.kind))
    throw new RangeError(`${span.part} cannot touch with its ${span.kind}`)
  if (span.on !== 'ground' && !plan.ground.boxes.some(({ id }) => id === span.on))
    throw new RangeError(`there is no box "${span.on}" to touch`)
  const length = norm(span.normal)
  if (!(length > 0)) throw new RangeError('a normal needs a direction')
  if (length >= LIMITS.normal[0] && length <= LIMITS.normal[1]) return fitted
  const [x, y, z] = span.normal
  return { ...fitted, normal: [x / length, y / length, z / length] }
}
