import type { ContactSpan } from '../../document/contacts'
import { LIMITS } from '../../document/limits'
import type { Box, Grip, Plan } from '../../document/plan'
import { apply, fromAngles, type Mat3, transpose } from '../../space/rotation'
import { add, sub, type Vec3 } from '../../space/vec'
import { freshId } from '../ids'
import { BOX_FORM, CONTACT_FORM, GROUND_FORM } from '../plan-form'
import { withinLimits } from '../within-limits'
import { changeOne, oneOf, patch, without } from './change'

/** Puts a box on the ground; nothing changes when there are LIMITS.boxes already. */
export function addBox(plan: Plan, box: Omit<Box, 'id'>): Plan {
  const { boxes } = plan.ground
  if (boxes.length >= LIMITS.boxes) return plan
  const added = withinLimits(BOX_FORM, { ...box, id: freshId('box', boxes) })
  return { ...plan, ground: { ...plan.ground, boxes: [...boxes, added] } }
}

/**
 * Moves, turns, resizes, renames a box. What stands on it goes along, in every take: a contact keeps its
 * place on the box, and stays on its face when the box grows.
 */
export function changeBox(plan: Plan, id: string, changes: Partial<Omit<Box, 'id'>>): Plan {
  const before = oneOf(plan.ground.boxes, id)
  const after = patch(before, withinLimits(BOX_FORM, { ...before, ...changes, id }))
  if (after === before) return plan
  const ground = { ...plan.ground, boxes: changeOne(plan.ground.boxes, id, () => after) }
  const stays = after.position === before.position && after.size === before.size && after.turn === before.turn
  if (stays) return { ...plan, ground }
  const carry = carrier(before, after)
  const takes = plan.takes.map((take) =>
    contactsOn(take.contacts, id)
      ? { ...take, contacts: take.contacts.map((span) => (span.on === id ? carry(span) : span)) }
      : take,
  )
  return patch(plan, { ground, takes })
}

/**
 * Takes a box away.
 * @param standing what becomes of contacts on it: `keep` refuses while there are any (the same plan comes
 *   back, `standsOn` says where), `delete` takes them away too
 */
export function deleteBox(plan: Plan, id: string, standing: 'keep' | 'delete' = 'keep'): Plan {
  const boxes = without(plan.ground.boxes, id)
  const there = standsOn(plan, id)
  if (there.length > 0 && standing === 'keep') return plan
  const takes = plan.takes.map((take) =>
    contactsOn(take.contacts, id)
      ? { ...take, contacts: take.contacts.filter((span) => span.on !== id) }
      : take,
  )
  return patch(plan, { ground: { ...plan.ground, boxes }, takes })
}

/** Every contact span on a box, with the take it belongs to. */
export const standsOn = (plan: Plan, boxId: string): { takeId: string; span: ContactSpan }[] =>
  plan.takes.flatMap((take) =>
    take.contacts.filter((span) => span.on === boxId).map((span) => ({ takeId: take.id, span })),
  )

/** Sets the grip of the flat ground; boxes have their own. */
export const setGrip = (plan: Plan, grip: Grip): Plan =>
  patch(plan, { ground: patch(plan.ground, withinLimits(GROUND_FORM, { ...plan.ground, grip })) })

const contactsOn = (spans: readonly ContactSpan[], boxId: string): boolean =>
  spans.some((span) => span.on === boxId)

/** What becomes of a contact's place, heading and normal when the box under it changes. */
function carrier(before: Box, after: Box): (span: ContactSpan) => ContactSpan {
  const was = turned(before.turn)
  const is = turned(after.turn)
  const turn = after.turn - before.turn
  return (span) => {
    const place = onFace(apply(transpose(was), sub(span.position, before.position)), span, was, before, after)
    const up = span.normal[1] > UPRIGHT
    const carried = {
      ...span,
      position: add(apply(is, place), after.position),
      heading: up ? span.heading + turn : span.heading,
      normal: turn === 0 ? span.normal : apply(is, apply(transpose(was), span.normal)),
    }
    return patch(span, withinLimits(CONTACT_FORM, carried))
  }
}

/** A normal this near to straight up is a top's. */
const UPRIGHT = 0.999

const turned = (turn: number): Mat3 => fromAngles({ turn, list: 0, tilt: 0 })

/** A place in the box's frame, moved out or in with the face that the contact's normal points out of. */
function onFace(place: Vec3, span: ContactSpan, was: Mat3, before: Box, after: Box): Vec3 {
  const normal = apply(transpose(was), span.normal).map(Math.abs) as [number, number, number]
  const axis = normal.indexOf(Math.max(...normal))
  return place.map((along, i) =>
    i === axis ? (along / (before.size[i] as number)) * (after.size[i] as number) : along,
  ) as unknown as Vec3
}
