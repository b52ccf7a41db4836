import { type ContactKind, type ContactSpan, LIMBS, type LimbId, limbOf, sideOf } from '../document/contacts'
import type { Take } from '../document/plan'
import type { ReachedPose } from '../pose/types'
import { EMPTY_SHARE } from '../weigh/constants'
import type { Weighing } from '../weigh/types'
import { carriedBy, padsOfLimb } from './carried'
import type { LimbRow, LimbState, LimbWeight, SheetLimb } from './types'

/** The limbs a take's sheet shows: the legs, and the hands that touch anything. */
export function sheetLimbs(take: Take): SheetLimb[] {
  return LIMBS.flatMap((id): SheetLimb[] => {
    const kinds = new Set(take.contacts.filter((c) => limbOf(c.part) === id).map((c) => c.kind))
    return kinds.size > 0 || id.startsWith('leg')
      ? [{ id, title: `${limbNoun(id, kinds)} ${sideOf(id)}` }]
      : []
  })
}

/** 'leg', 'fist', 'palm', or 'hand' where it bears now so and now so, or not at all. */
export function limbNoun(limb: LimbId, kinds: ReadonlySet<ContactKind>): string {
  if (limb.startsWith('leg')) return 'leg'
  const [only] = kinds
  return kinds.size === 1 && only !== undefined ? only : 'hand'
}

/**
 * What every limb does and carries at a frame.
 * @param contacts the spans that hold at the frame
 * @param weighing undefined while the frame is not weighed: then a limb that touches is down
 */
export function limbRows(
  pose: ReachedPose,
  contacts: readonly ContactSpan[],
  weighing: Weighing | undefined,
  gravity: number,
): Record<LimbId, LimbRow> {
  const row = (id: LimbId): LimbRow => {
    const own = padsOfLimb(pose.pads, id)
    const states = contacts.filter((c) => own.has(c.id)).map((c) => c.state)
    return {
      state: stateOf(id, states, weighing),
      weight: weighing === undefined ? null : weightOf(id, own, weighing, gravity),
    }
  }
  return Object.fromEntries(LIMBS.map((id) => [id, row(id)])) as Record<LimbId, LimbRow>
}

function stateOf(
  id: LimbId,
  states: readonly ContactSpan['state'][],
  weighing: Weighing | undefined,
): LimbState {
  if (states.length === 0) return 'off'
  if (states.includes('sliding')) return 'sliding'
  if (states.includes('rolling')) return 'rolling'
  const load = weighing?.limbs.find((limb) => limb.id === id)
  return load !== undefined && load.share < EMPTY_SHARE ? 'touching empty' : 'down'
}

function weightOf(id: LimbId, pads: ReadonlySet<string>, weighing: Weighing, gravity: number): LimbWeight {
  const least = weighing.limbs.find((limb) => limb.id === id)?.least ?? 0
  const { share, mass, least: leastShare } = carriedBy(weighing, pads, least, gravity)
  return { share, mass, least: leastShare }
}
