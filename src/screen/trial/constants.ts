/** How a lift trial is shown, s. All ours, so that an eye can follow it. */

/** The pose stands with its mover's pads gone before it is let go. */
export const LET_GO = 0.35
/** How long it stays as far as it has gone. */
export const HELD = 0.9
/** How long it takes to fade. */
export const FADE = 0.5

/** Nothing is asked about a pose before it has rested so long, ms. */
export const RESTED = 500
