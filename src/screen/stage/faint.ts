import { contactsAt, loadsAt } from '../../pose/between'
import { reach } from '../../pose/reach'
import { findLeans } from '../../weigh/lean'
import type { Desk } from '../desk.svelte'
import type { Faint } from './drawing.svelte'

/**
 * Where the pelvis would have to be for the desk's mover to be empty, or null where it is, or where shifting
 * the pelvis is not enough. Takes some tens of milliseconds: for a picture at rest.
 */
export function faintPelvis(desk: Desk): Faint | null {
  const { plan, take, takeId, frame, body, pose, mover, verdict } = desk
  if (verdict.kind !== 'pinned' && verdict.kind !== 'on the edge') return null
  const contacts = contactsAt(take, frame)
  const loads = loadsAt(take, frame)
  const { ground, gravity, stiffness } = plan
  const stance = { body, ground, gravity, stiffness, controls: pose.asked, contacts, loads, mover }
  const lean = findLeans(stance).find(({ kind, works }) => kind === 'pelvis' && works)
  if (lean === undefined) return null
  const { segments } = reach(body, lean.controls, contacts, loads)
  return { pelvis: segments.lowerTrunk, takeId, frame, limb: mover.limb }
}
