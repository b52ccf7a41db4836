/** Numbers that tune the drawing. */

/**
 * Shape of the volumes. Ratios of radii to the segment's mean radius (twice the spread of its mass), ours:
 * chosen by eye so that a limb tapers and still holds about the volume of its cylinder.
 */
export const SHAPE = {
  hip: 0.98,
  midThigh: 1.1,
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
export const PEN = { far: 1, near: 2.4, seam: 0.9, heavier: 1.25 } as const
export const PEN_HEIGHT = 300
/** Line widths go with the figure's height to this power and within these bounds. */
export const PEN_GROWTH = { power: 0.5, least: 0.55, most: 1.6 } as const
/** How much heavier a line is where it faces down: weight sits at the bottom. */
export const PEN_UNDER = 0.45
/** A line tapers to a point over this length where it ends inside the body, px at the normal figure. */
export const PEN_TAPER = 9
/** Hatching that picks out the mover, px. */
export const SECTION = { spacing: 6, width: 0.7 } as const
/** How deep an outline runs on into the volume it grows out of, fading, px at the normal figure. */
export const RUN_ON = 5
/** Smoothness of outlines, px: an arc's greatest distance from its chord, and the step along a straight. */
export const SAGITTA = 0.15
export const TANGENT_STEP = 9

/** Room around the views, px: titles, labels beside the body, the outer edge, what hangs under the ground. */
export const MARGIN = {
  title: 40,
  floorTitle: 34,
  floorBottom: 18,
  label: 62,
  edge: 22,
  /** Ground line to the first load label's row. */
  under: 22,
  /** Under the ground line of the side view, which shows no loads: pads and the band of support. */
  underSide: 24,
  /** One row of load labels: a percentage and kilograms. */
  loadRow: 38,
} as const

/** Text sizes, px: nothing is smaller than 13, loads are 16 so that they survive a shared screen. */
export const TEXT = { load: 16, small: 13, title: 13, titleSpacing: 1 } as const
/** Length of a load bar that carries the whole weight, its width, and its distance from the ground, px. */
export const BAR = { whole: 46, width: 8, gap: 13 } as const
/** Marks of the centre of mass and the plumb point: radius and line, px. */
export const MARK = { com: 7, plumb: 5.5, line: 2.2, thin: 1.2 } as const
/** Band of hatching under the ground line, px high, and the distance of its strokes. */
export const BAND = { height: 8, spacing: 5, support: 8 } as const
/** How far hip and shoulder lines go beyond the joints, over the body's stature. */
export const LINE_BEYOND = 0.05

/** A carried load is drawn as a cube of this density, kg/m³. Ours: between stone and timber. */
export const CARRIED_DENSITY = 1800
