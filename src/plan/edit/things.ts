import { LIMITS } from '../../document/limits'
import type { CarriedLoad, FrameNote, Phase, Plan, Take } from '../../document/plan'
import type { Accent, Arc, SetAside } from '../../document/take'
import type { Form } from '../form'
import { freshId } from '../ids'
import { ACCENT_FORM, ARC_FORM, LOAD_FORM, NOTE_FORM, PHASE_FORM, SET_ASIDE_FORM } from '../plan-form'
import { withinLimits } from '../within-limits'
import { changeOne, changeTake, oneOf, patch, without } from './change'
import { frameIn } from './keys'

/** Notes on frames. */
export const notes: TakeList<FrameNote> = takeList(
  { name: 'notes', prefix: 'note', form: NOTE_FORM, most: LIMITS.notes },
  (note, take) => ({ ...note, frame: frameIn(take, note.frame) }),
)

/** What catches the eye at a frame. */
export const accents: TakeList<Accent> = takeList(
  { name: 'accents', prefix: 'accent', form: ACCENT_FORM, most: LIMITS.accents },
  (accent, take) => ({ ...accent, frame: frameIn(take, accent.frame) }),
)

/** Notes on weight that were set aside. */
export const setAside: TakeList<SetAside> = takeList(
  { name: 'setAside', prefix: 'aside', form: SET_ASIDE_FORM, most: LIMITS.setAside },
  (note, take) => ({ ...note, from: frameIn(take, note.from) }),
)

/** Phases of the shift; their spans may overlap. */
export const phases: TakeList<Phase> = takeList(
  { name: 'phases', prefix: 'phase', form: PHASE_FORM, most: LIMITS.phases },
  inTake,
)

/** What is carried, from pick-up to put-down. */
export const loads: TakeList<CarriedLoad> = takeList(
  { name: 'loads', prefix: 'load', form: LOAD_FORM, most: LIMITS.loads },
  inTake,
)

/**
 * Bowed paths of free limbs. One that is added or changed is at least a frame long (a take of a single
 * frame has none: nothing changes), and those of its limb that overlap it give way.
 */
export const arcs: TakeList<Arc> = takeList(
  { name: 'arcs', prefix: 'arc', form: ARC_FORM, most: LIMITS.arcs },
  betweenFrames,
  (arc, other) => arc.limb === other.limb && arc.from < other.to && other.from < arc.to,
)

/** The edits of a list that a take holds. Frames are brought into the take, numbers and text within LIMITS. */
export interface TakeList<T> {
  /** Adds one at the end, with an id of its own; nothing changes where the list is full. */
  readonly add: (plan: Plan, takeId: string, thing: Omit<T, 'id'>) => Plan
  /** @throws RangeError when there is none of that id */
  readonly change: (plan: Plan, takeId: string, id: string, changes: Partial<Omit<T, 'id'>>) => Plan
  /** @throws RangeError when there is none of that id */
  readonly delete: (plan: Plan, takeId: string, id: string) => Plan
}

type ListName = 'notes' | 'accents' | 'setAside' | 'phases' | 'loads' | 'arcs'

/**
 * @param place brings a thing into a take; undefined where it has no room there
 * @param ousts whether a thing that was added or changed makes another one go
 */
function takeList<N extends ListName, T extends Take[N][number]>(
  {
    name,
    prefix,
    form,
    most,
  }: { readonly name: N; readonly prefix: string; readonly form: Form<T>; readonly most: number },
  place: (thing: T, take: Take) => T | undefined,
  ousts: (thing: T, other: T) => boolean = () => false,
): TakeList<T> {
  const listOf = (take: Take) => take[name] as unknown as readonly T[]
  const withList = (take: Take, list: readonly T[]) => patch(take, { [name]: list } as Partial<Take>)
  const fitted = (thing: T, take: Take): T | undefined => {
    const placed = place(thing, take)
    return placed && withinLimits(form, placed)
  }
  const others = (list: readonly T[], thing: T): readonly T[] =>
    list.filter((other) => other.id === thing.id || !ousts(thing, other))
  return {
    add: (plan, takeId, thing) =>
      changeTake(plan, takeId, (take) => {
        const list = listOf(take)
        if (list.length >= most) return take
        const added = fitted({ ...thing, id: freshId(prefix, list) } as T, take)
        return added === undefined ? take : withList(take, [...others(list, added), added])
      }),
    change: (plan, takeId, id, changes) =>
      changeTake(plan, takeId, (take) => {
        const list = listOf(take)
        const thing = oneOf(list, id)
        const changed = fitted({ ...thing, ...changes }, take)
        if (changed === undefined) return take
        return withList(
          take,
          others(
            changeOne(list, id, () => patch(thing, changed)),
            changed,
          ),
        )
      }),
    delete: (plan, takeId, id) =>
      changeTake(plan, takeId, (take) => withList(take, without(listOf(take), id))),
  }
}

/** A span inside the take, its ends in order. */
function inTake<T extends { readonly from: number; readonly to: number }>(span: T, take: Take): T {
  const ends = [frameIn(take, span.from), frameIn(take, span.to)]
  return { ...span, from: Math.min(...ends), to: Math.max(...ends) }
}

/** A span inside the take that ends after it begins; undefined where the take has one frame. */
function betweenFrames(arc: Arc, take: Take): Arc | undefined {
  const { from, to } = inTake(arc, take)
  if (take.length < 2) return undefined
  const first = Math.min(from, take.length - 2)
  return { ...arc, from: first, to: Math.max(to, first + 1) }
}
