import { MediaQuery } from 'svelte/reactivity'
import type { PaletteName } from '../draw/palette'
import type { ThemeChoice } from './desk-view'

/** The palette that a drawing on the screen takes now; follows the machine's settings. */
export function paletteName(choice: ThemeChoice): PaletteName {
  if (holds('forced-colors: active')) return 'forced'
  if (choice !== 'system') return choice
  return holds('prefers-color-scheme: dark') ? 'slate' : 'paper'
}

/** Whether the main pointer is a finger. */
export const isTouch = (): boolean => holds('pointer: coarse')

/** Whether the user’s machine asks for pages that don’t move. */
export const isStill = (): boolean => holds('prefers-reduced-motion: reduce')

/** Whether the page is too narrow for drawing and sheet side by side. */
export const isNarrow = (): boolean => holds('width < 900px')

const queries = new Map<string, MediaQuery>()

/** Follows the answer where it is read by a component; false where nobody can be asked. */
function holds(query: string): boolean {
  if (typeof matchMedia !== 'function') return false
  let known = queries.get(query)
  if (known === undefined) {
    known = new MediaQuery(query)
    queries.set(query, known)
  }
  return known.current
}
