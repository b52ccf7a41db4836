import type { Scene } from '../document/plan'
import { degrees } from '../space/units'
import { LENGTH_STEP, LOAD_STEP } from './constants'

/**
 * How numbers are written on the sheet and in its sentences. Between a number and its unit stands a
 * no-break space; a minus is a real minus. A value that rounds to nothing is written 0, without a sign.
 */

/** The unit lengths are shown in. */
export interface LengthUnit {
  readonly name: string
  readonly perMetre: number
  /** Decimals shown, so that a step is at most 1 % of the body's height. */
  readonly decimals: number
}

/** Centimetres, fine enough for a body of this height (m). */
export const centimetres = (stature: number): LengthUnit => lengthUnit('cm', 100, stature)

/** The animator's own scene units. */
export const sceneUnits = (scene: Scene, stature: number): LengthUnit =>
  lengthUnit(scene.unit, scene.unitsPerMetre, stature)

/** 0.1104 m → '11 cm' */
export const lengthText = (metres: number, unit: LengthUnit): string =>
  `${number(metres * unit.perMetre, unit.decimals)}${SPACE}${unit.name}`

/**
 * A length that must be reached, rounded up: whoever goes as far as the words say is there.
 * 0.1032 m → '11 cm'
 */
export function neededText(metres: number, unit: LengthUnit): string {
  const steps = 10 ** unit.decimals
  const value = Math.ceil(metres * unit.perMetre * steps - ROUNDING) / steps
  return `${number(value, unit.decimals)}${SPACE}${unit.name}`
}

/** 0.42 → '42 %'; what bears but rounds to nothing is 'under 1 %'. */
export function percentText(share: number): string {
  const percent = share * 100
  if (percent > NOTHING && percent < 0.5) return `under 1${SPACE}%`
  return `${number(percent, 0)}${SPACE}%`
}

/** 176.4 → '176 kg' on a body of 420 kg; finer on a light one. */
export const massText = (kilograms: number, bodyMass: number): string =>
  `${number(kilograms, massDecimals(bodyMass))}${SPACE}kg`

/** 0.21 rad → '12°' */
export const degreesText = (angle: number): string => `${number(degrees(angle), 0)}°`

/** A height: 2.6 m, 0.35 m. */
export const statureText = (metres: number): string => `${String(Number(metres.toPrecision(3)))}${SPACE}m`

export const massDecimals = (bodyMass: number): number => decimalsFor(bodyMass * LOAD_STEP)

/**
 * A signed value as its size and a word for its direction: (−7.2, 0, 'L', 'R') → '7 R'; what rounds to
 * nothing is '0'.
 */
export function sided(
  value: number,
  decimals: number,
  positive: string,
  negative: string,
  unit = '',
): string {
  const size = number(Math.abs(value), decimals)
  if (Number(size) === 0) return `0${unit}`
  return `${size}${unit}${SPACE}${value > 0 ? positive : negative}`
}

/** A number with so many decimals, a real minus, and thin spaces between thousands from 10 000 on. */
export function number(value: number, decimals: number): string {
  const fixed = Math.abs(value).toFixed(decimals)
  const [whole = '', part] = fixed.split('.')
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, THIN_SPACE) : whole
  const sign = value < 0 && Number(fixed) !== 0 ? '−' : ''
  return sign + (part === undefined ? grouped : `${grouped}.${part}`)
}

export const SPACE = '\u00a0'
const THIN_SPACE = '\u202f'
/** Percent below which nothing bears. */
const NOTHING = 0.01
/** A value this little above a step, in steps, is that step. */
const ROUNDING = 1e-6

const lengthUnit = (name: string, perMetre: number, stature: number): LengthUnit => ({
  name,
  perMetre,
  decimals: decimalsFor(stature * LENGTH_STEP * perMetre),
})

/** Decimals that make the last digit step by no more than `step`. */
const decimalsFor = (step: number): number =>
  Math.min(9, Math.max(0, Math.ceil(-Math.log10(step) - ROUNDING)))
