import { LIMITS } from '../../document/limits'
import type { Mover, Plan, Take } from '../../document/plan'
import type { LagPart } from '../../document/take'
import { freshId } from '../ids'
import { MANNER_FORM, MOVER_FORM, type WholeManner } from '../plan-form'
import { tidyText } from '../text-rules'
import { withinLimits } from '../within-limits'
import { changeTake, oneOf, patch, without } from './change'

/**
 * Adds a take after the one named, or at the end. It gets an id of its own: `newTakeId` tells which.
 * Nothing changes when there are LIMITS.takes already.
 */
export function addTake(plan: Plan, take: Omit<Take, 'id'>, afterId?: string): Plan {
  if (plan.takes.length >= LIMITS.takes) return plan
  const after = plan.takes.findIndex(({ id }) => id === afterId)
  const added = { ...take, id: newTakeId(plan), name: tidyText(take.name, LIMITS.name, 'line') }
  return { ...plan, takes: plan.takes.toSpliced(after < 0 ? plan.takes.length : after + 1, 0, added) }
}

/** The id that the next added take will have. */
export const newTakeId = (plan: Plan): string => freshId('take', plan.takes)

/** A copy of a take, right after it, sharing everything with it until one of the two changes. */
export function duplicateTake(plan: Plan, takeId: string, name: string): Plan {
  return addTake(plan, { ...oneOf(plan.takes, takeId), name }, takeId)
}

/** Puts a whole take in the place of the one with its id. It must be valid; see `faultsOf`. */
export const replaceTake = (plan: Plan, take: Take): Plan => changeTake(plan, take.id, () => take)

export const renameTake = (plan: Plan, takeId: string, name: string): Plan =>
  changeTake(plan, takeId, (take) => patch(take, { name: tidyText(name, LIMITS.name, 'line') }))

/** Deletes a take; the only one stays. */
export function deleteTake(plan: Plan, takeId: string): Plan {
  const takes = without(plan.takes, takeId)
  return takes.length === 0 ? plan : { ...plan, takes }
}

/** Sets which limb is asked to lift. */
export const setMover = (plan: Plan, takeId: string, mover: Mover): Plan =>
  changeTake(plan, takeId, (take) => patch(take, { mover: withinLimits(MOVER_FORM, mover) }))

/** Sets what counts for a take as a whole: exposure, style, push, pace; lags too, all at once. */
export const setManner = (plan: Plan, takeId: string, changes: Partial<WholeManner>): Plan =>
  changeTake(plan, takeId, (take) => {
    const { exposure, style, push, pace, lags } = take
    return patch(take, withinLimits(MANNER_FORM, { exposure, style, push, pace, lags, ...changes }))
  })

/** Lets a part follow (> 0) or lead (< 0) its keys by some frames; brought within LIMITS.lag. */
export const setLag = (plan: Plan, takeId: string, part: LagPart, frames: number): Plan =>
  changeTake(plan, takeId, (take) => {
    const { lags } = withinLimits(MANNER_FORM, { ...take, lags: { ...take.lags, [part]: frames } })
    return patch(take, { lags })
  })
