import { addScaled, norm, reject, scale, type Vec3 } from '../space/vec'
import { SLIDE_SPEED, STANDS, TIME_STATURE } from './dynamic-constants'
import { ContactProgramme } from './programme'
import type { Contact, ContactLoad, LimbLoad, Weighing } from './types'
import { system } from './workspace'

/** How a pad moves over what it touches. */
export interface Slide {
  /** Along the surface, world, m/s. */
  readonly velocity: Vec3
  readonly speed: number
  /** Share of the friction that it uses up, 0 … 1. */
  readonly used: number
  /** Normal load over the whole force it gives. */
  readonly part: number
}

/**
 * Whether a pad with this velocity slides, and how; null where it holds. A pad that is marked as sliding
 * does as soon as it moves; any other one may creep, roll and turn in its place, and slides when it is faster than
 * SLIDE_SPEED.
 * @param stature m
 */
export function slideOf(contact: Contact, velocity: Vec3, marked: boolean, stature: number): Slide | null {
  const normal = scale(contact.normal, 1 / norm(contact.normal))
  const along = reject(velocity, normal)
  const speed = norm(along)
  const all = SLIDE_SPEED * Math.sqrt(stature / TIME_STATURE)
  if (speed <= (marked ? STANDS * all : all)) return null
  const used = Math.min(1, speed / all)
  return { velocity: along, speed, used, part: 1 / Math.hypot(1, contact.friction * used) }
}

/**
 * A contact that slides: all it can give is f = N (n − μ · used · v̂). To the weighing it is a contact without
 * friction that pushes along that line; `inNormals` turns its answers back into normal loads.
 */
export function slidingContact(contact: Contact, slide: Slide): Contact {
  const normal = scale(contact.normal, 1 / norm(contact.normal))
  return {
    ...contact,
    normal: addScaled(normal, slide.velocity, (-contact.friction * slide.used) / slide.speed),
    friction: 0,
    limit: contact.limit / slide.part,
  }
}

/**
 * A weighing of contacts some of which slide, with all loads as normal loads. It must be the last one made:
 * sums of a limb's loads are found anew from its split.
 */
export function inNormals(weighing: Weighing, slides: readonly (Slide | null)[]): Weighing {
  if (slides.every((slide) => slide === null)) return weighing
  const parts = partsOf(slides)
  const contacts = weighing.contacts.map((load, c): ContactLoad => {
    const slide = slides[c]
    if (!slide) return load
    const { part, used } = slide
    return {
      ...load,
      load: load.load * part,
      share: load.share * part,
      least: load.least * part,
      most: load.most * part,
      frictionUsed: load.centre === null ? 0 : used,
    }
  })
  const limbs = weighing.limbs.map((limb): LimbLoad => {
    const group = Uint8Array.from(contacts, (contact) => (contact.limb === limb.id ? 1 : 0))
    if (!slides.some((slide, c) => slide && group[c] === 1)) return limb
    const own = contacts.filter((_, c) => group[c] === 1)
    const load = own.reduce((sum, one) => sum + one.load, 0)
    const [only] = own
    const sums = { ...limb, load, share: own.reduce((sum, one) => sum + one.share, 0) }
    if (only && own.length === 1) return { ...sums, least: only.least, most: only.most }
    if (!weighing.ranged) return { ...sums, least: load, most: load }
    const [least, most] = normalRange(group, parts)
    return {
      ...sums,
      least: Math.min(load, least * system.weight),
      most: Math.max(load, most * system.weight),
    }
  })
  return { ...weighing, contacts, limbs }
}

/** Normal load over whole force of each contact. */
export const partsOf = (slides: readonly (Slide | null)[]): Float64Array =>
  Float64Array.from(slides, (slide) => slide?.part ?? 1)

/** Least and most sum of the normal loads of the contacts where `group` is 1, W, for the split in hand. */
export function normalRange(group: Uint8Array, parts: Float64Array): [least: number, most: number] {
  const active = new Uint8Array(system.contacts).fill(1)
  programme.begin(system, { active, wrench: system.borne, axis: null, limits: true })
  const best = (sign: number) => {
    for (let c = 0; c < system.contacts; c++)
      programme.columns.loadCost[c] = group[c] === 1 ? sign * (parts[c] as number) : 0
    return sign * programme.optimise()
  }
  return [Math.max(0, best(1)), best(-1)]
}

const programme = new ContactProgramme()
