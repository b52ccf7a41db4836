/** How long things wait in this room, ms. */

/** From the first unsaved change to the start of a save: short enough that a save ends within a second. */
export const SAVE_DELAY = 400
/** From a failed save to the next try: storage is rarely freed sooner. */
export const RETRY_DELAY = 3_000
