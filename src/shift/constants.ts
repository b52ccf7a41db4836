/** A frame is admissible when its push from nowhere is no larger, W; see Push.size. Ours: what the eye forgives. */
export const ADMISSIBLE_PUSH = 0.02

/** Reduced cost from which a column improves the programme of a frame's pace, W. */
export const PACE_OPTIMAL = 1e-8

/** A frame whose motion asks for less than this, W, is still: it takes any pace. */
export const STILL = 1e-9

/** A limit is what holds a frame back when without it the frame could go this much faster (λ over λ). */
export const HOLDS_BACK = 1.02

/** Friction over what it is, for asking whether grip is what holds a frame back. Ours. */
export const MORE_GRIP = 2

/** Upward force, W, below which a frame is held back by its leaving the ground. */
export const LEAVES_GROUND = 0.05

/** A span is first weighed at this many frames or more. */
export const FIRST_LOOK = 12

/** Most times a span is weighed anew at another number of frames, and the longest it may become, s. */
export const RETIMINGS = 12
export const LONGEST = 60
