/** Numbers with units as people type them. */

export type QuantityKind = 'length' | 'angle' | 'mass' | 'factor'

/** A unit that a field shows and takes where none is typed. */
export interface Unit {
  readonly name: string
  /** How many of it are one metre, radian, kilogram or one. */
  readonly perOne: number
}

export type ReadQuantity =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly message: string }

/**
 * Reads '12', '12cm', '5 in', '1,5 m', '−30°': SI (m, rad, kg, or a plain factor).
 * @param shown the unit of a bare number; its name is understood as well
 */
export function readQuantity(text: string, kind: QuantityKind, shown: Unit): ReadQuantity {
  const match = /^([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*(\D*)$/u.exec(
    text
      .replaceAll('−', '-')
      .replace(/[\s\u00a0\u202f]+/gu, ' ')
      .trim()
      .replace(/(\d) (?=\d{3})/gu, '$1'),
  )
  if (!match) return { ok: false, message: `“${text.trim()}” is no number; ${example(kind, shown)}` }
  const number = Number((match[1] as string).replace(',', '.'))
  const name = (match[2] as string).trim()
  const perOne = name === '' || same(name, shown.name) ? shown.perOne : UNITS[kind][name.toLowerCase()]
  if (perOne === undefined)
    return { ok: false, message: `“${name}” is no unit for ${A[kind]}; ${example(kind, shown)}` }
  return { ok: true, value: number / perOne }
}

const same = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase()

const A: Readonly<Record<QuantityKind, string>> = {
  length: 'a length',
  angle: 'an angle',
  mass: 'a mass',
  factor: 'a factor',
}

const EXAMPLES: Readonly<Record<QuantityKind, readonly string[]>> = {
  length: ['12 cm', '5 in'],
  angle: ['30°'],
  mass: ['75 kg', '160 lb'],
  factor: ['1.2', '120 %'],
}

function example(kind: QuantityKind, shown: Unit): string {
  const other = EXAMPLES[kind].filter((text) => !text.endsWith(shown.name))
  return `type ${[shown.name === '' ? '' : `12 ${shown.name}`, ...other].filter(Boolean).join(' or ')}.`
}

/** How many of a unit are one metre, radian, kilogram or one. An inch is 25.4 mm, a pound 0.45359237 kg, exactly. */
const UNITS: Readonly<Record<QuantityKind, Readonly<Record<string, number>>>> = {
  length: {
    m: 1,
    cm: 100,
    mm: 1000,
    km: 0.001,
    in: 1 / 0.0254,
    inch: 1 / 0.0254,
    inches: 1 / 0.0254,
    '"': 1 / 0.0254,
    '″': 1 / 0.0254,
    ft: 1 / 0.3048,
    foot: 1 / 0.3048,
    feet: 1 / 0.3048,
    "'": 1 / 0.3048,
    '′': 1 / 0.3048,
  },
  angle: {
    '°': 180 / Math.PI,
    deg: 180 / Math.PI,
    degree: 180 / Math.PI,
    degrees: 180 / Math.PI,
    rad: 1,
  },
  mass: { kg: 1, g: 1000, t: 0.001, lb: 1 / 0.45359237, lbs: 1 / 0.45359237 },
  factor: { '%': 100, '×': 1, x: 1 },
}

export const DEGREES: Unit = { name: '°', perOne: 180 / Math.PI }
export const KILOGRAMS: Unit = { name: 'kg', perOne: 1 }
export const TIMES: Unit = { name: '×', perOne: 1 }

/** A value in its unit with so many decimals, without trailing zeros: '12.5 cm', '−30°'. */
export function quantityText(value: number, unit: Unit, decimals: number): string {
  const scaled = value * unit.perOne
  const rounded = Number(scaled.toFixed(decimals))
  const text = `${rounded < 0 ? '−' : ''}${Math.abs(rounded)}`
  return unit.name === '°' || unit.name === '' ? text + unit.name : `${text}\u00a0${unit.name}`
}
