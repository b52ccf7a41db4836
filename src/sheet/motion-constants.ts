/** Share of the weight from which what slides counts as loaded: below it a brush doesn't tell. Ours. */
export const SLIDES_LOADED = 0.1

/** Way over the stature from which a slide is one: a hundredth is 2 cm of a grown person. Ours. */
export const SLIDES_FAR = 0.01

/** Share of its size from which a push from nowhere is told by its force and not as a turn. Ours. */
export const PUSH_FORCED = 0.5

/** Sideways force over the weight from which a body is said to be thrown. Ours: about a tenth shows in a lean. */
export const THROWN = 0.05
