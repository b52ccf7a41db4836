import type { Vec3 } from '../space/vec'
import { ROUND_OFF } from './constants'
import type { LoadRanges } from './ranges'
import type { ContactSystem } from './system'
import type { Contact, ContactLoad, LimbLoad } from './types'

/** What each contact carries in the split that `system` holds, with its range where `ranges` has begun on it. */
export function contactLoads(
  contacts: readonly Contact[],
  system: ContactSystem,
  ranges: LoadRanges | null,
): ContactLoad[] {
  const { weight, wrench } = system
  const press = wrench[1] as number
  const group = new Uint8Array(contacts.length)
  return contacts.map((contact, c): ContactLoad => {
    const share = system.loads[c] as number
    group.fill(0)
    group[c] = 1
    const load = share * weight
    const force = forceOf(system, c)
    return {
      id: contact.id,
      limb: contact.limb,
      load,
      share,
      vertical: press > ROUND_OFF ? force[1] / (press * weight) : 0,
      least: ranges ? ranges.least(group) * weight : load,
      most: ranges ? ranges.most(group) * weight : load,
      force,
      frictionUsed: frictionUsed(system, c),
      centre: share > ROUND_OFF ? centreOf(contact, system, c) : null,
    }
  })
}

/** Sums of the contacts' loads for each limb. */
export function limbLoads(
  loads: readonly ContactLoad[],
  { weight }: ContactSystem,
  ranges: LoadRanges | null,
): LimbLoad[] {
  return [...new Set(loads.map(({ limb }) => limb))].map((id): LimbLoad => {
    const own = loads.filter(({ limb }) => limb === id)
    const [first] = own
    if (first && own.length === 1) {
      const { load, share, vertical, least, most } = first
      return { id, load, share, vertical, least, most }
    }
    const group = Uint8Array.from(loads, ({ limb }) => (limb === id ? 1 : 0))
    const sum = (of: (load: ContactLoad) => number) => own.reduce((total, contact) => total + of(contact), 0)
    const load = sum((contact) => contact.load)
    return {
      id,
      load,
      share: load / weight,
      vertical: sum((contact) => contact.vertical),
      least: ranges ? ranges.least(group) * weight : load,
      most: ranges ? ranges.most(group) * weight : load,
    }
  })
}

/** The force of a contact on the body, world, N. */
function forceOf({ first, force, axes, weight }: ContactSystem, c: number): Vec3 {
  const sums = [0, 0, 0]
  for (let j = first[c] as number; j < (first[c + 1] as number); j++)
    for (let a = 0; a < 3; a++) sums[a] = (sums[a] as number) + (force[3 * j + a] as number) * weight
  const along = (i: number) =>
    sums.reduce((total, sum, a) => total + sum * (axes[9 * c + 3 * a + i] as number), 0)
  return [along(0), along(1), along(2)]
}

/** Σ |sideways force at a vertex| / (friction · Σ normal force): counts a twist in place as well. */
function frictionUsed({ first, force, friction, loads }: ContactSystem, c: number): number {
  const held = (friction[c] as number) * (loads[c] as number)
  if (!(held > ROUND_OFF)) return 0
  let sideways = 0
  for (let j = first[c] as number; j < (first[c + 1] as number); j++)
    sideways += Math.hypot(force[3 * j + 1] as number, force[3 * j + 2] as number)
  return Math.min(1, sideways / held)
}

/** The middle of a patch's vertices weighted by their normal forces, world, m. */
function centreOf(contact: Contact, { first, force, loads }: ContactSystem, c: number): Vec3 {
  const centre = [0, 0, 0]
  contact.vertices.forEach((vertex, k) => {
    const part = (force[3 * ((first[c] as number) + k)] as number) / (loads[c] as number)
    for (let i = 0; i < 3; i++) centre[i] = (centre[i] as number) + part * (vertex[i] as number)
  })
  return centre as unknown as Vec3
}
