import type { PreferenceStore } from '../screen/desk.svelte'

const PLACE = 'weighbridge/view'

/** View settings in the browser's local storage; where it keeps nothing they last as long as the page. */
export const preferences: PreferenceStore = {
  read() {
    try {
      return localStorage.getItem(PLACE)
    } catch {
      return null
    }
  },
  write(text) {
    try {
      localStorage.setItem(PLACE, text)
    } catch {
      // Full or blocked: settings are no work that could be lost.
    }
  },
}
