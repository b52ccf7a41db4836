import type { BodyModel } from '../body/model'
import type { Plan, Take } from '../document/plan'
import type { ReachedPose } from '../pose/types'
import type { PoseWeighing } from '../weigh/pose'
import type { Verdict } from '../weigh/types'
import type { LengthUnit } from './format'

/**
 * How a figure on the page is worked out.
 *
 * `formula` is 'r = …' of the inputs' symbols, numbers, + − · ÷, brackets, ², ³, √( ), min( , ), acos( ), asin( ),
 * atan2( , ), sin( ), cos( ) and π; or for a word 'r = this if a < b; that if …; else other'. Worked out from the inputs
 * as they stand here it gives `result.value`, and that gives the figure as it is shown.
 */
export interface How {
  readonly id: string
  /** What the figure is: 'What his left leg carries'. */
  readonly title: string
  readonly formula: string
  readonly inputs: readonly HowInput[]
  readonly result: HowResult
  /** What is behind it that the formula doesn't say, a sentence each. */
  readonly words: readonly string[]
  /** Where formula and constants come from; what is 'Ours' was chosen here. */
  readonly source: string
}

export interface HowInput {
  readonly symbol: string
  readonly name: string
  /** In `unit`. */
  readonly value: number
  readonly unit: string
  /** The same as a force, N, where kilograms stand for one. */
  readonly newtons?: number
}

export interface HowResult {
  /** A share (0 … 1), kg, m, s, frames or a plain number; of a cell of the sheet, in its column's unit; or a word. */
  readonly value: number | string
  /** As the page shows it. */
  readonly text: string
}

/** A weighed pose with all that its figures come from. */
export interface HowFacts {
  readonly plan: Plan
  readonly take: Take
  readonly body: BodyModel
  readonly pose: ReachedPose
  readonly weighed: PoseWeighing
  /** On the take's mover. */
  readonly verdict: Verdict
  readonly unit: LengthUnit
}

export const input = (symbol: string, name: string, value: number, unit: string): HowInput => ({
  symbol,
  name,
  value,
  unit,
})

/** A force as the kilograms it holds up. */
export const force = (symbol: string, name: string, newtons: number, gravity: number): HowInput => ({
  symbol,
  name,
  value: newtons / gravity,
  unit: 'kg',
  newtons,
})

/** 1 → '₁' */
export const subscript = (n: number): string =>
  String(n).replace(/\d/g, (digit) => '₀₁₂₃₄₅₆₇₈₉'.charAt(Number(digit)))

export const STATICS =
  'Equilibrium of a rigid body: forces and moments add up to nothing (any text on statics).'
export const GEOMETRY = 'Plain geometry.'
