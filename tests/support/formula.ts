import type { How } from '../../src/sheet/how'

/**
 * Works an explanation out from what it shows, its formula and its inputs, with no help from the code that made
 * it: angles come out in rad, and go in as they are written.
 */
export function workOut({ formula, inputs, id }: Pick<How, 'formula' | 'inputs' | 'id'>): number | string {
  const [, right] = formula.split(' = ') as [string, string]
  const values = new Map(
    inputs.map(({ symbol, value, unit }) => [symbol, unit === '°' ? (value * Math.PI) / 180 : value]),
  )
  if (right.includes(' if ')) return chosen(right, values)
  const script = right.replace(TOKENS, (token) => {
    const value = values.get(token)
    if (value !== undefined) return `(${value})`
    const own = WORDS[token]
    if (own === undefined && !/^[\d.]+$/.test(token))
      throw new Error(`${id}: "${token}" is no input of ${formula}`)
    return own ?? token
  })
  return new Function(`return ${script}`)() as number
}

const SIGNS = '₀₁₂₃₄₅₆₇₈₉'
const TOKENS = new RegExp(`[a-zA-Zμπ][a-zA-Z0-9${SIGNS}]*|[\\d.]+|[−·÷√²³]`, 'gu')
const WORDS: Readonly<Record<string, string>> = {
  min: 'Math.min',
  sin: 'Math.sin',
  cos: 'Math.cos',
  asin: 'Math.asin',
  acos: 'Math.acos',
  atan2: 'Math.atan2',
  π: 'Math.PI',
  '√': 'Math.sqrt',
  '−': '-',
  '·': '*',
  '÷': '/',
  '²': '**2',
  '³': '**3',
}

/** 'this if a < 2 %; that if b < 1; else other' */
function chosen(rules: string, values: ReadonlyMap<string, number>): string {
  for (const rule of rules.split('; ')) {
    const match = /^(.+) if (\S+) < ([\d.]+)( %)?$/.exec(rule)
    if (match === null) return rule.replace(/^else /, '')
    const [, word, symbol, bound, percent] = match as unknown as [string, string, string, string, string?]
    if ((values.get(symbol) as number) < Number(bound) / (percent ? 100 : 1)) return word
  }
  throw new Error(`no rule of "${rules}" holds`)
}

/** The number a figure reads as, in the unit of its value, and half the step of its last digit; null for words. */
export function readFigure(text: string): { readonly value: number; readonly step: number } | null {
  const match = /(−?)([\d\u202f]*)(?:\.(\d+))?(½)?[\u00a0 ]?([%°\p{L}]*)/u.exec(text)
  if (match === null || (match[2] === '' && match[4] === undefined)) return null
  const [, minus, whole = '', part = '', half, unit = ''] = match
  const per = PER[unit] ?? 1
  const size = Number(`${whole.replaceAll('\u202f', '') || '0'}.${part || '0'}`) + (half ? 0.5 : 0)
  const step = half !== undefined || unit.startsWith('frame') ? 0.5 : 10 ** -part.length
  return { value: ((minus ? -1 : 1) * size) / per, step: step / per }
}

const PER: Readonly<Record<string, number>> = { '%': 100, cm: 100, '°': 180 / Math.PI }
