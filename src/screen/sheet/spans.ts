import { type ContactSpan, type LimbId, limbOf } from '../../document/contacts'
import type { Plan, Take } from '../../document/plan'
import { trimContact } from '../../plan/edit/contacts'

export type Edge = 'from' | 'to'

/** A limb's contacts in order of time. */
export const spansOf = (take: Pick<Take, 'contacts'>, limb: LimbId): ContactSpan[] =>
  take.contacts.filter(({ part }) => limbOf(part) === limb).sort((a, b) => a.from - b.from)

/** The contacts of a limb that begin (`from`) or end (`to`) at a frame: a hand on the sheet takes them all along. */
export const spansWithEdge = (take: Take, limb: LimbId, frame: number, edge: Edge): ContactSpan[] =>
  spansOf(take, limb).filter((span) => span[edge] === frame)

/** The plan with those ends at another frame, each as far as its span and its neighbours let it. */
export function moveEdges(
  plan: Plan,
  takeId: string,
  spans: readonly ContactSpan[],
  edge: Edge,
  frame: number,
): Plan {
  return spans.reduce((changed, { id }) => trimContact(changed, takeId, id, { [edge]: frame }), plan)
}
