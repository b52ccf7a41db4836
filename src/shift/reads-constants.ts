/*
 * What a pace is read as. There is no published figure for it: the reference paces are ours, chosen from the
 * planner's own careful and quick options, and are stated wherever a size is.
 */

/**
 * Time over the least time at which people seem to move a weight: from quick to easy. A curve that eases in
 * and out takes about 1.8 times what the best curve could do.
 */
export const REFERENCE_PACE = { quick: 1.2, easy: 1.8 } as const

/** Pace in the middle of the two, by ratio: what a retiming to a size aims at. */
export const MIDDLE_PACE = Math.sqrt(REFERENCE_PACE.quick * REFERENCE_PACE.easy)

/**
 * From this pace on it is somebody who takes care, not somebody large: at 4 a grown person would read as 9 m
 * or more, and nobody sees that. Ours.
 */
export const SLOW_PACE = 4

/** Share of its load that the mover still has when gravity begins to time the move: its last tenth. */
export const LAST_TENTH = 0.1
