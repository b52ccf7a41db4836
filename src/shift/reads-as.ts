import { MIDDLE_PACE, REFERENCE_PACE, SLOW_PACE } from './reads-constants'

/**
 * What size of body a span's timing reads as. A body of the same build and s times the size needs √s times as
 * long for the same motion under the same gravity, so a pace that is this body's (T / T_least) times another
 * size's reference pace reads as s = (T / T_least)² / pace²: a range, since people move at paces of 1.2 to 1.8.
 * Mass goes with s³.
 * @param timed seconds that the span takes and the least it could, unrounded, both > 0; a least of 0 is a
 *   span that gravity doesn't time
 * @param body its stature, m, and mass, kg
 */
export function readsAs(timed: Timed, body: SizedBody): Reading {
  const pace = timed.seconds / timed.least
  if (pace < 1) return { kind: 'no body', pace, ...bodyOf(body, pace) }
  if (!(pace < SLOW_PACE)) return { kind: 'slow', pace, ...bodyOf(body, SLOW_PACE) }
  return { kind: 'sized', pace, ...bodyOf(body, pace) }
}

export interface Timed {
  readonly seconds: number
  readonly least: number
}

export interface SizedBody {
  readonly stature: number
  readonly mass: number
}

export interface Reading {
  /**
   * - `sized`: a body of that size. `slow`: slow, not large; the sizes are the largest that are believed.
   * - `no body`: quicker than the least time of this body; the sizes are those of bodies for which it would be
   *   an easy pace, if they were built like it.
   */
  readonly kind: 'sized' | 'slow' | 'no body'
  /** Time over least time; ∞ where nothing limits it. */
  readonly pace: number
  /** Times this body's own size, least and most. */
  readonly times: readonly [number, number]
  /** m */
  readonly stature: readonly [number, number]
  /** kg */
  readonly mass: readonly [number, number]
}

function bodyOf({ stature, mass }: SizedBody, pace: number): Pick<Reading, 'times' | 'stature' | 'mass'> {
  const [low, high] = [(pace / REFERENCE_PACE.easy) ** 2, (pace / REFERENCE_PACE.quick) ** 2]
  return {
    times: [low, high],
    stature: [stature * low, stature * high],
    mass: [mass * low ** 3, mass * high ** 3],
  }
}

/**
 * How many times as long a span must last to read as a body of `times` its size: √times from what it reads as
 * now to the middle of the range. Throws a RangeError where the pace says nothing of a size (∞ or 0).
 */
export function retimeToRead(pace: number, times: number): number {
  if (!(pace > 0) || !Number.isFinite(pace))
    throw new RangeError(`a pace of ${pace} can't be retimed to a size`)
  return (MIDDLE_PACE * Math.sqrt(times)) / pace
}

/** How many times as long everything lasts that gravity times, for a body of `times` the size. */
export const timeForSize = (times: number): number => Math.sqrt(times)

/**
 * What a body of one build can carry or push, in its own weights, at `times` the size: strength goes with the
 * square of length and weight with its cube.
 * @param limit at its own size, W
 */
export const loadLimitAt = (limit: number, times: number): number => limit / times
