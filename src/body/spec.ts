/** What a plan stores of a body. Lengths in metres, masses in kilograms, factors without unit. */

/** The parts whose length and thickness a user may change; each names one or more table segments. */
export type Shape = 'head' | 'trunk' | 'upperArm' | 'forearm' | 'hand' | 'thigh' | 'shank' | 'foot'

export const SHAPES: readonly Shape[] = [
  'head',
  'trunk',
  'upperArm',
  'forearm',
  'hand',
  'thigh',
  'shank',
  'foot',
]

export interface BodySpec {
  /** Standing height, m. */
  readonly stature: number
  /** Total mass without carried loads, kg. */
  readonly mass: number
  /** 0 takes the table's female column, 1 its male one, between them a blend. */
  readonly blend: number
  /** Hip joint to hip joint, m. */
  readonly hipWidth: number
  /** Shoulder joint to shoulder joint, m. */
  readonly shoulderWidth: number
  /** Length of each part over the table's for this stature, before the whole is fitted to the stature. */
  readonly length: Readonly<Record<Shape, number>>
  /** Thickness of each part over the table's. */
  readonly bulk: Readonly<Record<Shape, number>>
}

export const BODY_LIMITS = {
  stature: [0.2, 30],
  mass: [1, 200_000],
  blend: [0, 1],
  /** Over stature. */
  width: [0.01, 1.5],
  factor: [0.2, 5],
} as const
