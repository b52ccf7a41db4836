import type { Side } from '../body/model'
import type { Vec3 } from '../space/vec'

/** The limbs a body stands on, and the parts of them that touch. */
export type LimbId = `leg${Side}` | `arm${Side}`
export const LIMBS: readonly LimbId[] = ['legL', 'legR', 'armL', 'armR']

export type ContactPart = `${'knee' | 'foot' | 'hand'}${Side}`
export const CONTACT_PARTS: readonly ContactPart[] = ['kneeL', 'kneeR', 'footL', 'footR', 'handL', 'handR']

export type ContactKind = 'kneecap' | 'toes' | 'instep' | 'sole' | 'ball' | 'palm' | 'fist'

/** The kinds of contact each part can make. */
export const KINDS_OF: Readonly<Record<'knee' | 'foot' | 'hand', readonly ContactKind[]>> = {
  knee: ['kneecap'],
  foot: ['toes', 'instep', 'sole', 'ball'],
  hand: ['palm', 'fist'],
}

export type ContactState = 'planted' | 'sliding' | 'rolling'
export const CONTACT_STATES: readonly ContactState[] = ['planted', 'rolling', 'sliding']

/**
 * A part touching something over a span of frames, both ends included. A part is off wherever no span
 * of it holds. While it is planted its pad stays exactly where the span says.
 */
export interface ContactSpan {
  readonly id: string
  readonly part: ContactPart
  readonly kind: ContactKind
  /** Middle of the pad on the surface, m. */
  readonly position: Vec3
  /** Which way the toes, the fingers or (for a kneecap) the shin's knee end point, about the normal, rad; 0 is +Z. */
  readonly heading: number
  /** Outward normal of the surface: up for ground and tops, level for the side of a box. */
  readonly normal: Vec3
  /** What it touches: 'ground' or the id of a box. */
  readonly on: string
  readonly from: number
  readonly to: number
  readonly state: ContactState
}

export const limbOf = (part: ContactPart): LimbId =>
  `${part.startsWith('hand') ? 'arm' : 'leg'}${sideOf(part)}`

export const sideOf = (id: ContactPart | LimbId): Side => (id.endsWith('L') ? 'L' : 'R')

/** The contact of a part among some; null where it has none. */
export function contactOfPart(
  contacts: readonly ContactSpan[],
  kind: 'knee' | 'foot' | 'hand',
  side: Side,
): ContactSpan | null {
  const part = PARTS[kind][side]
  for (const contact of contacts) if (contact.part === part) return contact
  return null
}

const PARTS = {
  knee: { L: 'kneeL', R: 'kneeR' },
  foot: { L: 'footL', R: 'footR' },
  hand: { L: 'handL', R: 'handR' },
} as const

/** 'kneeL' → 'knee' */
export const partKind = (part: ContactPart): 'knee' | 'foot' | 'hand' =>
  part.slice(0, -1) as 'knee' | 'foot' | 'hand'

export const partsOf = (limb: LimbId): readonly ContactPart[] => {
  const side = sideOf(limb)
  return limb.startsWith('leg') ? [`knee${side}`, `foot${side}`] : [`hand${side}`]
}
