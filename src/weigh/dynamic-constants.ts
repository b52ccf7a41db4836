/*
 * Weighing in motion. Times and speeds hold for a stature of TIME_STATURE; they go with √(H / TIME_STATURE),
 * as every time does that gravity rules.
 */

/** m */
export const TIME_STATURE = 1.8

/** How long a contact takes from touch to full stiffness, and a carried load to its full weight, s. Ours. */
export const TAKE_UP = 0.17

/** Speed of a pad along its surface from which friction is all used up, m/s. Ours: below it creeps. */
export const SLIDE_SPEED = 0.05

/** A pad marked as sliding that is slower than this, over SLIDE_SPEED, stands: only rounding moves it. */
export const STANDS = 1e-4

/**
 * Momentum is taken from two poses this far apart, s. Short enough that a swing of 5 Hz reads true to 0.02 %,
 * long enough that the rounding of a reached pose (about 1e-13 of the stature) is lost in it.
 */
export const MOMENTUM_STEP = 1 / 480

/** How long before a touch the last pose in the air is taken, frames: nothing moves in that. */
export const JUST_BEFORE = 1e-6
