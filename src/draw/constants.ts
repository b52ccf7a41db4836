/** Numbers that tune the drawing. */

/**
 * Shape of the volumes. Ratios of radii to the segment's mean radius (twice the spread of its mass), ours:
 * chosen by eye so that a limb tapers and still holds about the volume of its cylinder.
 */
export const SHAPE = {
  hip: 1.2,
  midThigh: 1.08,
  kneeOfThigh: 0.7,
  kneeOfShank: 1,
  calf: 1.14,
  ankle: 0.6,
  shoulder: 1.12,
  midUpperArm: 0.98,
  elbowOfUpperArm: 0.66,
  elbowOfForearm: 1,
  midForearm: 1.12,
  wrist: 0.66,
  neckOverHead: 0.64,
  /** Half breadth of the rib cage over half the shoulders' width. */
  cageWithinShoulders: 0.98,
  /** Half depth of the rib cage over its half breadth, at least. */
  leastCageDepth: 0.52,
} as const

/** Pen lines, px for a figure of `PEN_HEIGHT` px: the far ones, the near ones, the seams on the body. */
export const PEN = { far: 1, near: 2.1, seam: 0.9, heavier: 1.5 } as const
export const PEN_HEIGHT = 300
/** Line widths go with the figure's height to this power and within these bounds. */
export const PEN_GROWTH = { power: 0.5, least: 0.55, most: 1.6 } as const
/** How much heavier a line is where it faces down: weight sits at the bottom. */
export const PEN_UNDER = 0.45
/** A line tapers to a point over this length where it ends inside the body, px at the normal figure. */
export const PEN_TAPER = 16
/** Smoothness of outlines, px: an arc's greatest distance from its chord, and the step along a straight. */
export const SAGITTA = 0.12
export const TANGENT_STEP = 7
