import type { PosePad } from '../pose/types'
import type { Weighing } from '../weigh/types'

/**
 * What some contacts carry together, as the sheet and the sentences say it: shares of the upward force the
 * frame needs, and kg.
 * @param pads ids of the contacts
 * @param least the least normal load they could carry together, N
 * @param gravity m/s²
 */
export function carriedBy(
  weighing: Weighing,
  pads: ReadonlySet<string>,
  least: number,
  gravity: number,
): Carried {
  const contacts = weighing.contacts.filter((contact) => pads.has(contact.id))
  const share = sum(contacts.map((contact) => contact.vertical))
  const load = sum(contacts.map((contact) => contact.load))
  // Ranges are along the contacts' normals: on a slope the upward part of the least is in proportion.
  const leastShare = load > 0 ? share * Math.min(1, least / load) : 0
  const kilograms = neededForce(weighing) / gravity
  return {
    share,
    mass: share * kilograms,
    least: leastShare,
    leastMass: leastShare * kilograms,
  }
}

export interface Carried {
  readonly share: number
  readonly mass: number
  readonly least: number
  readonly leastMass: number
}

/** The upward force that the contacts and the push must give together, N. */
const neededForce = ({ contacts, push }: Weighing): number =>
  sum(contacts.map((contact) => contact.force[1])) + push.force[1]

/** The ids of a limb's pads. */
export const padsOfLimb = (pads: readonly PosePad[], limb: PosePad['limb']): ReadonlySet<string> =>
  new Set(pads.filter((pad) => pad.limb === limb).map((pad) => pad.id))

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0)
