import type { Rate } from '../../document/plan'
import { rateText } from '../../sheet/frames'

/** The rates to choose from, 12 to 60 frames a second; the two broadcast rates with their exact fractions. */
export const RATES: readonly Rate[] = [
  whole(12),
  whole(15),
  { num: 24_000, den: 1_001 },
  whole(24),
  whole(25),
  { num: 30_000, den: 1_001 },
  whole(30),
  whole(48),
  whole(50),
  { num: 60_000, den: 1_001 },
  whole(60),
]

/** '24', '23.976 (24000/1001)' */
export const rateLabel = (rate: Rate): string =>
  rate.den === 1 ? rateText(rate) : `${rateText(rate)} (${rate.num}/${rate.den})`

/** What a rate is known by in a list. */
export const rateId = ({ num, den }: Rate): string => `${num}/${den}`

/** A rate typed by hand: 23.976, 29.97 and 59.94 mean their fractions. Null outside 12 … 60. */
export function rateOf(perSecond: number): Rate | null {
  if (!(perSecond >= 12 && perSecond <= 60)) return null
  const known = RATES.find((rate) => Math.abs(rate.num / rate.den - perSecond) < 0.005)
  return known ?? { num: Math.round(perSecond * 100), den: 100 }
}

function whole(num: number): Rate {
  return { num, den: 1 }
}
