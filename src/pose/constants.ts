/** Numbers that tune reach; ratios without a unit. */

/** A limb's end stays this much of its full length away at the most: past it an elbow or knee snaps. */
export const STRAIGHT = { arm: 0.985, leg: 0.995 } as const
/** From here on the last bit is eased. */
export const EASE_FROM = { arm: 0.95, leg: 0.97 } as const
/**
 * Knee and elbow fold no further than this between the two bones, rad, and are eased over the last
 * degrees. Knee 158° (heel sit; full flexion in kneeling 155–165°, memory); elbow 145° (memory).
 */
export const FOLDED = { arm: (35 * Math.PI) / 180, leg: (22 * Math.PI) / 180 } as const
export const FOLD_EASE = (12 * Math.PI) / 180
/** How far an angle counts against a distance of one stature. */
export const ANGLE_WEIGHT = 0.25
/** Strength of the easing: a request 1 % of stature beyond stops at about 4/5 of the last bit. */
export const EASE_STRENGTH = 1.1e-5
/** Beyond this share of the last bit the easing goes on as a parabola, so that any start is allowed. */
export const EASE_CAP = 0.98
/** Newton steps at the most, and the step over stature that ends them. */
export const STEPS = 40
export const STEP_END = 1e-13
/** No step goes further than this, over stature or in rad · ANGLE_WEIGHT: a far one lands behind the knees. */
export const STEP_LONGEST = 0.12
/** A pelvis that ends further than this from where it was asked, over stature, is looked for a second time. */
export const FAR = 0.05
/** The middle of the hips stays this high above the floor, over stature, and is eased from a little higher. */
export const FLOOR = 0.05
export const FLOOR_EASE = 0.08
/** A bearing fist keeps its wrist this near to straight, rad. */
export const FIST_BEND = (20 * Math.PI) / 180
/** Over this angle a fist begins to lean, rad: no corner in its motion. */
export const FIST_SOFT = (4 * Math.PI) / 180
/** Departures from the asked pose that are worth a word, over stature. */
export const WORTH_SAYING = 0.012
/** Parts may sink into each other by this share of the thinner one: flesh. */
export const FLESH = 0.15
