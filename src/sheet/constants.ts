/** Numbers that tune the sheet's words; each with its unit and reason. */

/** A joint within this of straight is called straight, rad: 5°, less than an eye tells on a drawn arm. */
export const STRAIGHT_WITHIN = (5 * Math.PI) / 180
/** A fraction of a breakdown within this of a plain one (½, ⅓, ¾ …) is written as that one. */
export const PLAIN_FRACTION_WITHIN = 0.02
/** A top this far above a point, over stature, still lies under it: how deep a mover may have sunk into a block. */
export const SUNK = 0.1
/** Values this near to each other, m or rad, are one: below what a file stores. */
export const SAME = 1e-9
/** How far an angle, rad, counts against a length of one stature when poses are compared: as in reach. */
export const ANGLE_WEIGHT = 0.25
/** A heavier line under every eighth row: common practice on exposure sheets. */
export const HEAVY_LINE_EVERY = 8
/** A displayed length steps by 1 % of stature at the most, a displayed load by 2 % of the weight. */
export const LENGTH_STEP = 0.01
export const LOAD_STEP = 0.02
