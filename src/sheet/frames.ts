import type { Rate } from '../document/plan'

/**
 * The time code of a frame counted from 0, hh:mm:ss:ff, or null at a rate that has none (only whole rates
 * and 1000/1001 of whole rates have one).
 *
 * At 29.97 and 59.94 frames a second the code is drop-frame unless asked otherwise: in every minute but each
 * tenth the first 2 (or 4) labels are skipped, so that the code keeps pace with the clock, and the last
 * colon is a semicolon (SMPTE ST 12-1, from memory). 23.976 has no drop-frame code.
 * @param frame a whole number ≥ 0; hours go on past 24
 */
export function timeCode(frame: number, rate: Rate, dropFrame = dropsFrames(rate)): string | null {
  const base = nominalRate(rate)
  if (base === null || !Number.isInteger(frame) || frame < 0) return null
  const drops = dropFrame && dropsFrames(rate)
  const label = drops ? frame + skippedLabels(frame, base) : frame
  const seconds = Math.floor(label / base)
  const digits = String(base - 1).length
  const two = (value: number) => String(value).padStart(2, '0')
  const clock = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60].map(two).join(':')
  return `${clock}${drops ? ';' : ':'}${String(label % base).padStart(Math.max(2, digits), '0')}`
}

/** Whether a rate's time code drops labels: 30 000/1001 and 60 000/1001. */
export function dropsFrames(rate: Rate): boolean {
  const base = nominalRate(rate)
  return (base === 30 || base === 60) && !isWhole(rate)
}

/** Seconds from the start of the take to a frame. */
export const secondsAt = (frame: number, { num, den }: Rate): number => (frame * den) / num

/** Frames a second as a sheet says it: 24, 23.976, 29.97, 12.5. */
export function rateText({ num, den }: Rate): string {
  return String(Number((num / den).toFixed(3)))
}

/** How many labels drop-frame code has skipped before the frame. */
function skippedLabels(frame: number, base: number): number {
  const skip = base / 15
  const minute = base * 60 - skip
  const tenMinutes = minute * 10 + skip
  const tens = Math.floor(frame / tenMinutes)
  const rest = frame % tenMinutes
  const minutes = rest < base * 60 ? 0 : 1 + Math.floor((rest - base * 60) / minute)
  return skip * (9 * tens + minutes)
}

/** Labels in a second of time code, or null where a rate has no code. */
function nominalRate({ num, den }: Rate): number | null {
  if (num % den === 0) return num / den
  const base = (num * 1001) / (den * 1000)
  return Number.isInteger(base) ? base : null
}

const isWhole = ({ num, den }: Rate): boolean => num % den === 0
