/** How long things wait in this room, ms. */

/** From the first unsaved change to the start of a save: short enough that a save ends within a second, also on a busy machine. */
export const SAVE_DELAY = 250
/** From a failed save to the next try: storage is rarely freed sooner. */
export const RETRY_DELAY = 3_000
