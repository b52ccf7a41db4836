/** Fractions of stature that no segment table gives. "ours" = chosen here; change them per body. */

/** Hip joint to hip joint over stature. Ours: 0.17 m for 1.74 m, in the range joint-centre regressions give (memory). */
export const HIP_WIDTH = 0.098

/** Natural mass: a person of 1.75 m weighs 75 kg, and mass goes with the cube of height. Ours. */
export const NATURAL_STATURE = 1.75
export const NATURAL_MASS = 75

/** Heel to ankle joint, horizontally, over foot length. Ours. */
export const HEEL_TO_ANKLE = 0.24
/** Heel to the ball of the foot over foot length. Ours. */
export const HEEL_TO_BALL = 0.72
/**
 * The kneecap's contact, over the shank's radius (twice the spread of its mass across, 64 mm for the
 * table's man): ahead of the knee joint, below it, and the radius of its pad. Ours: 40, 45 and 30 mm for
 * that man.
 */
export const KNEECAP_AHEAD = 0.63
export const KNEECAP_DOWN = 0.71
export const KNEECAP_RADIUS = 0.48
/** Half breadth of the hand's pads over the spread of its mass across. Ours: 43 mm for the table's man. */
export const HAND_HALF_BREADTH = 1.3
/** Half length of the palm's and the fist's pad over the hand's length (wrist to knuckle). Ours. */
export const PALM_HALF_LENGTH = 0.62
export const FIST_HALF_LENGTH = 0.3
/** From the wrist to the sole of a bearing fist over the hand's length: the first phalanx is folded under. Ours. */
export const FIST_REACH = 1.12
/** Wrist above a flat palm over the hand's length. Ours. */
export const PALM_HEIGHT = 0.3
/** Where the instep bears: ahead of the ankle over foot length, and above it over the ankle's height. Ours. */
export const INSTEP_AHEAD = 0.38
export const INSTEP_ABOVE = 0.6
/** Half lengths of the pads under a foot over its length: sole, ball, tucked toes, instep. Ours. */
export const SOLE_HALF_LENGTH = 0.5
export const BALL_HALF_LENGTH = 0.17
export const TOES_HALF_LENGTH = 0.1
export const INSTEP_HALF_LENGTH = 0.2
/** Foot breadth over foot length: Drillis & Contini 0.055 over 0.152 of stature. */
export const FOOT_BREADTH = 0.055 / 0.152
