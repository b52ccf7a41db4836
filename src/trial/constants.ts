/*
 * Every trial runs as if the body were 1.8 m tall under 9.81 m/s², and its times are stretched back by
 * √(H / 1.8 m · 9.81 / g): matter-js then sees one range of numbers for a child and for a giant.
 */

/** Stature and gravity of that body, m and m/s². */
export const TRIAL_STATURE = 1.8
export const TRIAL_GRAVITY = 9.81

/** Pixels to one stature: matter-js's own tolerances (its slop, its resting speeds) are meant for such sizes. */
export const PIXELS_PER_STATURE = 300

/** Solver rounds of a step. More change nothing that was measured. */
export const VELOCITY_ITERATIONS = 16
export const POSITION_ITERATIONS = 6

/** Overlap that touching parts keep, px; with it a foot at rest stays in touch. */
export const SLOP = 0.05

/*
 * Lift trial. With these the time to 5° is 0.7 to 1.1 steps short of a rigid pendulum's (0.4 to 1.4 %): matter-js
 * moves a body before it has been pulled for half a step. Stiffness 0.2 to 1 makes no difference. A shape that
 * stands on a block besides makes it wrong by far: what pushes the two apart pulls at the pin.
 */

/** Steps a second. */
export const LIFT_HZ = 480
/** Stiffness of the pin at the edge, 0 … 1. */
export const PIN_STIFFNESS = 0.5
/** The first turn this far, out or in, decides, rad: 1°. Later the pin's own play could. */
export const DECIDES = Math.PI / 180
/** A body that has turned this far tips for everyone to see, rad: 5°. The time to it is what is reported. */
export const TIPPED = (5 * Math.PI) / 180
/** The turn is followed this far for the stage, rad: 15°; by then he would have caught himself or lie. */
export const FOLLOWED = Math.PI / 12
/**
 * Longest time without a decision, and longest time to follow, s. A person standing 0.001 mm past the edge
 * still turns 1° within 4 s.
 */
export const UNDECIDED_AFTER = 4
export const FOLLOWED_FOR = 8

/** On level pads trial and verdict agree from this far on either side of the edge, over the stature. */
export const BAND = 0.001

/*
 * Resting loads.
 */

/** Steps a second, steps until it rests, and steps whose mean is taken. */
export const REST_HZ = 240
export const SETTLE_STEPS = 120
export const MEAN_STEPS = 30
/** Height and width of the pointed feet and half width of what they stand on, px. */
export const FOOT = 4
/** Radius of gyration of the body that rests, over the stature; at rest its inertia has no say. */
export const REST_RADIUS = 0.25
/**
 * Contacts nearer than ONE_PLACE in a slice are one place, further than TWO_PLACES they are two, over the
 * stature. A tall body on points closer together takes longer than SETTLE_STEPS to rest: at 0.08 its loads are
 * up to 0.11 % of its weight off, at 0.1 0.02 %.
 */
export const ONE_PLACE = 0.02
export const TWO_PLACES = 0.1
/** Loads below this share of the weight bear nothing. */
export const BEARS = 1e-4

/*
 * Axis.
 */

/** Pads whose heights differ by less than this over the stature are level. */
export const LEVEL_PADS = 0.01
/** A pad whose normal points up at least this much, cosine of 45°, bears; a steeper one only leans on. */
export const BEARS_UP = Math.SQRT1_2
/** Corners of the hull this close to the line through their neighbours are on it, over the stature. */
export const STRAIGHT = 1e-7
/** Heights over the stature, and parts of a direction, that are rounding. */
export const EVEN = 1e-6
