import type { Reading } from '../../shift/reads-as'
import { number, SPACE } from '../format'

/**
 * What a span reads as, in a sentence: 'Reads as a body of 1.7 to 2.4 m, 70 to 190 kg.' Two figures each, since
 * the range is wide and more would claim too much.
 */
export function readsAsText({ kind, stature, mass }: Reading): string {
  const body = `a body of ${range(stature)}${SPACE}m, ${range(mass)}${SPACE}kg`
  switch (kind) {
    case 'sized':
      return `Reads as ${body}.`
    case 'slow':
      return 'Reads as slow, not large.'
    case 'no body':
      return `No body of this size can do it so quickly; it is the timing of ${body}.`
  }
}

const range = ([low, high]: readonly [number, number]): string => `${two(low)} to ${two(high)}`

function two(value: number): string {
  const rounded = Number(value.toPrecision(2))
  return number(rounded, Math.max(0, 1 - Math.floor(Math.log10(rounded))))
}
