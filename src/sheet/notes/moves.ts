import { MOVES } from './constants'
import { leastPeak } from './measure'
import { runsOf } from './runs'
import type { Measured, PartId } from './types'

/** One move of a part: from rest to rest. Indices of the drawn intervals. */
export interface Move {
  readonly part: PartId
  readonly first: number
  readonly last: number
  /** m/s or rad/s. */
  readonly peak: number
  /** The interval in which it reaches MOVES.begun of its peak. */
  readonly begun: number
}

/** The moves of a part that are large enough to be seen, in order. */
export function movesOf(measured: Measured, part: PartId): Move[] {
  const speeds = measured.speeds[part]
  const least = leastPeak(part, measured.root)
  return runsOf(speeds.length, (i) => (speeds[i] ?? 0) > MOVES.still * least).flatMap(([from, to]) => {
    let peak = 0
    for (let i = from; i <= to; i++) peak = Math.max(peak, speeds[i] ?? 0)
    if (peak < least) return []
    // What creeps in and out below a share of the move's own peak is no part of it.
    let [first, last] = [from, to]
    while ((speeds[first] ?? 0) <= MOVES.still * peak) first++
    while ((speeds[last] ?? 0) <= MOVES.still * peak) last--
    let begun = first
    while ((speeds[begun] ?? 0) < MOVES.begun * peak) begun++
    return { part, first, last, peak, begun }
  })
}

/** How long a move is, s. */
export const lasts = ({ dt }: Measured, { first, last }: Move): number => (last - first + 1) * dt
