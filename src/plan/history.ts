import { HISTORY_STEPS } from './constants'

/**
 * Undo and redo: a stack of references to immutable states, so that going back is exact by construction.
 * One gesture is one step, whatever happened during it; a gesture after which the state is the very same
 * object leaves no step. Every function returns a new history, and the same one when nothing changed.
 */
export interface History<T> {
  readonly present: T
  /** States to go back to, oldest first, each with the name of what was done to it. */
  readonly past: readonly Step<T>[]
  /** States to go forward to, nearest last. */
  readonly future: readonly Step<T>[]
  /** The gesture that is under way: its name and the state it started from. */
  readonly gesture: Step<T> | undefined
}

export interface Step<T> {
  readonly label: string
  readonly state: T
}

export const newHistory = <T>(present: T): History<T> => ({
  present,
  past: [],
  future: [],
  gesture: undefined,
})

/** Starts a gesture; one that is still under way is committed first. */
export function begin<T>(history: History<T>, label: string): History<T> {
  const settled = commit(history)
  return { ...settled, gesture: { label, state: settled.present } }
}

/**
 * Shows a state of the gesture under way; it becomes a step when the gesture is committed.
 * @throws Error outside a gesture: `perform` is for a change that is complete at once
 */
export function change<T>(history: History<T>, present: T): History<T> {
  if (history.gesture === undefined)
    throw new Error('no gesture is under way: begin one, or perform the change')
  return present === history.present ? history : { ...history, present }
}

/** Ends the gesture under way as one step; the states that were undone before it are given up. */
export function commit<T>(history: History<T>): History<T> {
  const { gesture, present, past } = history
  if (gesture === undefined) return history
  if (gesture.state === present) return { ...history, gesture: undefined }
  return { present, past: [...past, gesture].slice(-HISTORY_STEPS), future: [], gesture: undefined }
}

/** Ends the gesture under way and goes back to where it started. */
export function cancel<T>(history: History<T>): History<T> {
  const { gesture } = history
  return gesture === undefined ? history : { ...history, present: gesture.state, gesture: undefined }
}

/** Makes a complete change as one step; a gesture that is still under way is committed first. */
export const perform = <T>(history: History<T>, label: string, present: T): History<T> =>
  commit(change(begin(history, label), present))

/** Goes back a step; a gesture under way is cancelled instead. */
export function undo<T>(history: History<T>): History<T> {
  if (history.gesture !== undefined) return cancel(history)
  const { present, past, future } = history
  const step = past.at(-1)
  if (step === undefined) return history
  return {
    present: step.state,
    past: past.slice(0, -1),
    future: [...future, { label: step.label, state: present }],
    gesture: undefined,
  }
}

/** Goes forward a step that was undone; nothing happens during a gesture. */
export function redo<T>(history: History<T>): History<T> {
  const { present, past, future, gesture } = history
  const step = future.at(-1)
  if (step === undefined || gesture !== undefined) return history
  return {
    present: step.state,
    past: [...past, { label: step.label, state: present }],
    future: future.slice(0, -1),
    gesture: undefined,
  }
}

/** What `undo` would take back; undefined where there is nothing. */
export const undoLabel = <T>(history: History<T>): string | undefined =>
  history.gesture?.label ?? history.past.at(-1)?.label

/** What `redo` would do again; undefined where there is nothing. */
export const redoLabel = <T>(history: History<T>): string | undefined => history.future.at(-1)?.label
