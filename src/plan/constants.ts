import type { Rate, Scene } from '../document/plan'

/** What a new plan starts with, and bounds of this room. */

/** Frames a second of a new plan: film's, common practice. */
export const NEW_RATE: Rate = { num: 24, den: 1 }
/** The number of the first frame on a new sheet: shots often start at 1001, common practice. */
export const NEW_FIRST_FRAME = 1001
/** Frames of a new take: two seconds at 24, enough for one shift of a person. */
export const NEW_LENGTH = 48
/** A new plan's scene: in centimetres, the unit most figures on the sheet are read in. */
export const NEW_SCENE: Scene = { unit: 'cm', unitsPerMetre: 100, root: [0, 0, 0] }
/** How much of a span a new key eases over on either side: all of it, shared evenly by its two ends. */
export const NEW_EASE = 0.5
/** Undo steps kept. A step is one reference and what changed, a few hundred bytes to some kB. */
export const HISTORY_STEPS = 500
/** A moving hold goes on by this share of the way that led into it. Ours: seen as life, not as a move. */
export const HOLD_DRIFT = 0.04
