import { massText } from '../../sheet/format'

/** Everyday masses to think with, kg: rough round figures of our own, to be felt rather than measured by. */
const EVERYDAY: readonly (readonly [kg: number, one: string, many: string])[] = [
  [1, 'a litre of water', 'litres of water'],
  [10, 'a full bucket', 'full buckets'],
  [25, 'a sack of cement', 'sacks of cement'],
  [75, 'a grown person', 'grown people'],
  [200, 'an upright piano', 'upright pianos'],
  [1200, 'a small car', 'small cars'],
  [7000, 'a loaded lorry', 'loaded lorries'],
]

/** '191 kg, about an upright piano'; the largest thing of which it is at least nine tenths of one. */
export function massInThings(kilograms: number, bodyMass: number): string {
  const found = EVERYDAY.findLast(([kg]) => kilograms >= 0.9 * kg)
  if (!found) return massText(kilograms, bodyMass)
  const count = Math.round(kilograms / found[0])
  return `${massText(kilograms, bodyMass)}, about ${count <= 1 ? found[1] : `${count} ${found[2]}`}`
}
