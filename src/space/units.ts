/** Radians and degrees are kept apart by the type checker; inside, every angle is in radians. */
export type Radians = number & { readonly unit?: 'rad' }
export type Degrees = number & { readonly unit?: 'deg' }

export const degrees = (angle: Radians): Degrees => (angle * 180) / Math.PI
export const radians = (angle: Degrees): Radians => (angle * Math.PI) / 180

/** Standard gravity as the textbooks round it, m/s²; a plan may say otherwise. */
export const GRAVITY = 9.81
