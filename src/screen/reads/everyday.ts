import { number } from '../../sheet/format'

/**
 * Masses to compare a load with. Ours, from memory and rough: what somebody has lifted, pushed or stood beside, so
 * that a number of kilograms is felt. Most differ by half from one to the next.
 */
const EVERYDAY: readonly Everyday[] = [
  { kilograms: 1, one: 'a bag of sugar', many: 'bags of sugar' },
  { kilograms: 4, one: 'a cat', many: 'cats' },
  { kilograms: 10, one: 'a full bucket of water', many: 'full buckets of water' },
  { kilograms: 25, one: 'a sack of cement', many: 'sacks of cement' },
  { kilograms: 75, one: 'a grown person', many: 'grown people' },
  { kilograms: 220, one: 'an upright piano', many: 'upright pianos' },
  { kilograms: 600, one: 'a cow', many: 'cows' },
  { kilograms: 1200, one: 'a small car', many: 'small cars' },
  { kilograms: 5000, one: 'an elephant', many: 'elephants' },
  { kilograms: 12_000, one: 'a town bus', many: 'town buses' },
  { kilograms: 40_000, one: 'a loaded lorry', many: 'loaded lorries' },
]

interface Everyday {
  readonly kilograms: number
  readonly one: string
  readonly many: string
}

/**
 * A mass beside an everyday one, roughly: 187 kg → 'about 2½ grown people'; '' where there is nothing to compare.
 * @param kilograms ≥ 0
 */
export function everydayText(kilograms: number): string {
  const [smallest] = EVERYDAY
  if (!smallest || !(kilograms >= smallest.kilograms / 2)) return ''
  // The largest of which there is about one or more.
  const like = EVERYDAY.findLast((one) => one.kilograms <= kilograms / ABOUT_ONE) ?? smallest
  const count = kilograms / like.kilograms
  const halves = Math.max(1, Math.round(count * 2))
  if (count >= 10) return `about ${number(Math.round(count), 0)} ${like.many}`
  if (halves === 1) return `half of ${like.one}`
  if (halves === 2) return `about ${like.one}`
  const [whole, half] = [Math.floor(halves / 2), halves % 2 === 1 ? '½' : '']
  return `about ${whole}${half} ${like.many}`
}

/** From this share of a thing on it is said as one of it. */
const ABOUT_ONE = 0.85
