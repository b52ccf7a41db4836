import { FRICTION, LOAD_LIMIT, STIFFNESS } from '../contact/constants'
import { gripOf } from '../contact/ground'
import { LIMBS, type LimbId, partsOf } from '../document/contacts'
import type { Ground, Mover, Stiffness } from '../document/plan'
import type { PosePad, ReachedPose } from '../pose/types'
import { judge, type Verdict } from './verdict'
import { type Body, type Contact, type Weighing, weigh } from './weigh'

/**
 * Weighs one reached pose held still: loads, push, ranges, region, and for every limb whether it can lift.
 * @param stature of the body, m: the scale of lengths
 */
export function weighPose(
  ground: Ground,
  gravity: number,
  stature: number,
  pose: ReachedPose,
  options: WeighOptions = {},
): PoseWeighing {
  const contacts = pose.pads.map((pad) => contactOf(ground, pad, options.stiffness))
  const body: Body = { mass: pose.mass, com: pose.com, stature, gravity }
  const weighing = weigh(contacts, body)
  return {
    contacts,
    body,
    weighing,
    verdicts: Object.fromEntries(
      LIMBS.map((limb) => [limb, judgeMover(contacts, body, weighing, pose.pads, { limb, toesStay: false })]),
    ) as Record<LimbId, Verdict>,
    judge: (mover) => judgeMover(contacts, body, weighing, pose.pads, mover),
  }
}

export interface WeighOptions {
  /** The plan's own stiffness of pads; kinds that are left out have the table's. */
  readonly stiffness?: Stiffness
}

export interface PoseWeighing {
  readonly contacts: readonly Contact[]
  readonly body: Body
  readonly weighing: Weighing
  /** Each limb as a whole: kneecap, toes and sole together, or a hand. */
  readonly verdicts: Readonly<Record<LimbId, Verdict>>
  /** The verdict on a mover that may leave its toes. */
  judge(mover: Mover): Verdict
}

/** The pads that a mover takes away: all of the limb's, or only its kneecap when the toes stay. */
export function moverPads(pads: readonly PosePad[], mover: Mover): ReadonlySet<string> {
  const parts = partsOf(mover.limb).filter((part) => !(mover.toesStay && part.startsWith('foot')))
  return new Set(pads.filter((pad) => parts.includes(pad.part)).map((pad) => pad.id))
}

export const contactOf = (ground: Ground, pad: PosePad, stiffness: Stiffness = {}): Contact => ({
  id: pad.id,
  limb: pad.limb,
  vertices: pad.vertices,
  normal: pad.normal,
  friction: FRICTION[gripOf(ground, pad.on)],
  stiffness: stiffness[pad.kind] ?? STIFFNESS[pad.kind],
  limit: LOAD_LIMIT,
})

const judgeMover = (
  contacts: readonly Contact[],
  body: Body,
  weighing: Weighing,
  pads: readonly PosePad[],
  mover: Mover,
) => judge(contacts, body, weighing, moverPads(pads, mover))
