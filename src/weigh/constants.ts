/**
 * Units of the solvers: forces in body weights W, lengths in L = 0.25 H. Over H itself a body 9 cm past its
 * edge would read as a push of 5 % of its weight; over L it reads as about 20 %, as large as it looks.
 */
export const LENGTH_PER_STATURE = 0.25

/** Components of a contact's normal this small are rounding: a millionth of a degree. */
export const SQUARE = 1e-8

/** Least stiffness of a contact beside the stiffest one: a contact that exists always counts. */
export const STIFFNESS_FLOOR = 0.02

/**
 * Greatest sum of all normal loads, W. Two palms on opposite walls could otherwise press as hard as they
 * like and free everything else.
 */
export const TOTAL_LIMIT = 3

/** Pushes smaller than this are none; see Push.size. */
export const PUSH_NONE = 1e-4

/** A limb that carries less than this share is empty. */
export const EMPTY_SHARE = 0.02

/** A limb that could carry less than this share can be let go. */
export const COULD_LET_GO = 1e-4

/** Room kept for safety, over the stature. */
export const SAFE_ROOM = 0.005

/*
 * The split. Chosen by trying them on 60,000 random problems, three quarters of them without a balance.
 */

/**
 * ε of the dual, one after the other. Starting with a small one stalls on problems without a balance, and so
 * does going faster; a smaller last one loses digits there, since y grows as push / ε.
 */
export const REGULARISATIONS: readonly number[] = [1e-2, 1e-3, 1e-4, 1e-5, 1e-6]

/** Most proximal steps after the last ε; one problem in a hundred takes more than two. */
export const PROXIMAL_STEPS = 8

/** ε of a proximal step: so that the push moves y by about DUAL_REACH, but no smaller than can be solved with. */
export const DUAL_REACH = 1e5
export const EPSILON_LEAST = 1e-9

/** Gradient (W) at which an ε before the last is left, and the last is done. */
export const SPLIT_LOOSE = 1e-2
export const SPLIT_TIGHT = 1e-12

/** The gradient can't be known better than this times |y|: a few roundings of its largest terms. */
export const SPLIT_NOISE = 1e-15

/** A gradient (W) this small that doesn't fall any more is rounding. */
export const SPLIT_ROUNDED = 1e-9

/** Part of its slope that a line search may leave. */
export const LINE_SEARCH_DROP = 0.6

/** A push that keeps this part of its size from one ε, ten times larger, to the next is a true one. */
export const PUSH_STAYS = 0.3

/** A proximal step that leaves this part of the push, or a push this small (W), is the last. */
export const PUSH_SETTLED = 0.9
export const PUSH_GONE = 1e-10

/*
 * The linear programmes. Costs and columns are of order 1, loads in W.
 */

/** Reduced cost from which a column improves a programme. */
export const LP_OPTIMAL = 1e-9

/** Smallest pivot: a smaller one would make duals so large that rounding decides what improves. */
export const LP_PIVOT = 1e-7

/** Values start this far off zero, so that no step has length nought. */
export const LP_PERTURBATION = 1e-9

/** How far below zero a value may slip for the sake of a larger pivot. */
export const LP_SLIP = 1e-11

/** What may be missing from a right-hand side that still counts as met. */
export const LP_FEASIBLE = 1e-6

/** How far a load may be over its limit before the limit gets a row in the programme. */
export const LP_OVER_LIMIT = 1e-9

/** A sum of loads that is as good as no limit. */
export const LIMITLESS = 1e3

/*
 * Regions. Lengths in L.
 */

/** How far the drawn region may fall short of the true one: 0.2 % of the stature. */
export const CHORD = 0.008

/** Corners this close to the line through their neighbours are on it. */
export const FLAT = 1e-6

/** Height differences that count as level. */
export const LEVEL = 1e-6

/** Corners looked for beyond the edge nearest to the plumb. */
export const NEAR_CORNERS = 12

/** Parts of a force (W) or of a direction that are rounding. */
export const ROUND_OFF = 1e-9

/** How a lean that empties a mover is looked for (see lean.ts). */
export const LEAN = {
  /** Newton steps for the pelvis or the chest. */
  steps: 14,
  /** The weight is over its target when nearer than this, over the stature. */
  near: 2e-4,
  /** Weight moves this much for one of pelvis, first guess: measured on the table's bodies, 0.7 to 0.85. */
  weightPerPelvis: 0.77,
  /** Longest step of the pelvis, over the stature. */
  longest: 0.08,
  /** Ways back tried for sitting back, and halvings of the first that works. */
  sitSteps: 16,
  halvings: 12,
  /** Angle over which the chest's slopes are taken, rad. */
  difference: 1e-3,
  /** How far the spine leans from where it is, rad: sideways 35°, forward 60°, back 20° (ranges of the trunk, memory). */
  list: 0.61,
  tiltForward: 1.05,
  tiltBack: 0.35,
} as const
