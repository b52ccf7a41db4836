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
/** From the knee joint to the kneecap's contact: ahead and down, over stature. Ours: 40 and 45 mm for 1.74 m. */
export const KNEECAP_AHEAD = 0.023
export const KNEECAP_DOWN = 0.026
/** Radius of the pads over stature. Ours: kneecap 30 mm for 1.74 m. */
export const KNEECAP_RADIUS = 0.0175
/** Half breadth and half length of the hand's pads over the hand's length (wrist to knuckle). Ours. */
export const PALM_HALF = [0.46, 0.62] as const
export const FIST_HALF = [0.44, 0.3] as const
/** From the wrist to the sole of a bearing fist over the hand's length: the first phalanx is folded under. Ours. */
export const FIST_REACH = 1.12
/** Wrist above a flat palm over the hand's length. Ours. */
export const PALM_HEIGHT = 0.3
/** Ankle joint above the floor when the foot lies on its instep, over the ankle's standing height. Ours. */
export const INSTEP_HEIGHT = 1.2
