import { LIMITS } from '../../document/limits'
import type { CarriedLoad, FrameNote, Phase, Plan, Take } from '../../document/plan'
import type { Form } from '../form'
import { freshId } from '../ids'
import { LOAD_FORM, NOTE_FORM, PHASE_FORM } from '../plan-form'
import { withinLimits } from '../within-limits'
import { changeOne, changeTake, patch, without } from './change'
import { frameIn } from './keys'

/** Notes on frames. */
export const notes: TakeList<FrameNote> = takeList(
  'notes',
  'note',
  NOTE_FORM,
  LIMITS.notes,
  (note, take) => ({
    ...note,
    frame: frameIn(take, note.frame),
  }),
)

/** Phases of the shift; their spans may overlap. */
export const phases: TakeList<Phase> = takeList('phases', 'phase', PHASE_FORM, LIMITS.phases, inTake)

/** What is carried, from pick-up to put-down. */
export const loads: TakeList<CarriedLoad> = takeList('loads', 'load', LOAD_FORM, LIMITS.loads, inTake)

/** The edits of a list that a take holds. Frames are brought into the take, numbers and text within LIMITS. */
export interface TakeList<T> {
  /** Adds one at the end, with an id of its own; nothing changes where the list is full. */
  readonly add: (plan: Plan, takeId: string, thing: Omit<T, 'id'>) => Plan
  /** @throws RangeError when there is none of that id */
  readonly change: (plan: Plan, takeId: string, id: string, changes: Partial<Omit<T, 'id'>>) => Plan
  /** @throws RangeError when there is none of that id */
  readonly delete: (plan: Plan, takeId: string, id: string) => Plan
}

function takeList<N extends 'notes' | 'phases' | 'loads', T extends Take[N][number]>(
  name: N,
  prefix: string,
  form: Form<T>,
  most: number,
  place: (thing: T, take: Take) => T,
): TakeList<T> {
  const listOf = (take: Take) => take[name] as unknown as readonly T[]
  const withList = (take: Take, list: readonly T[]) => patch(take, { [name]: list } as Partial<Take>)
  return {
    add: (plan, takeId, thing) =>
      changeTake(plan, takeId, (take) => {
        const list = listOf(take)
        if (list.length >= most) return take
        return withList(take, [
          ...list,
          withinLimits(form, place({ ...thing, id: freshId(prefix, list) } as T, take)),
        ])
      }),
    change: (plan, takeId, id, changes) =>
      changeTake(plan, takeId, (take) =>
        withList(
          take,
          changeOne(listOf(take), id, (thing) =>
            patch(thing, withinLimits(form, place({ ...thing, ...changes }, take))),
          ),
        ),
      ),
    delete: (plan, takeId, id) =>
      changeTake(plan, takeId, (take) => withList(take, without(listOf(take), id))),
  }
}

/** A span inside the take, its ends in order. */
function inTake<T extends { readonly from: number; readonly to: number }>(span: T, take: Take): T {
  const ends = [frameIn(take, span.from), frameIn(take, span.to)]
  return { ...span, from: Math.min(...ends), to: Math.max(...ends) }
}
