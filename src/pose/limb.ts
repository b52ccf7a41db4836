import { addScaled, distance, norm, reject, SHORT, sub, unit, type Vec3 } from '../space/vec'
import { EASE_FROM, FOLD_EASE, FOLDED, STRAIGHT } from './constants'

/**
 * The middle joint of a two-bone limb, and its end drawn within reach.
 *
 * The end is eased, never stretched: up to `easeMax` it is where it was asked, beyond it comes to rest
 * before `max`, along the line from the root. Both bones keep their lengths exactly.
 * @param root hip or shoulder, m
 * @param asked where the ankle or the knuckles should be, m
 * @param pole a direction the middle joint leans to; only its part square to root–end counts
 * @param exact take the asked place as it is where it lies within the limb's limits (a planted end)
 */
export function bendLimb(
  root: Vec3,
  asked: Vec3,
  first: number,
  second: number,
  pole: Vec3,
  kind: 'arm' | 'leg',
  exact: boolean,
): BentLimb {
  const range = reachRange(first, second, kind)
  const want = distance(root, asked)
  const along = unit(sub(asked, root), DOWN)
  const got = exact ? Math.min(Math.max(want, range.min), range.max) : easeDistance(want, range)
  const end = exact && got === want ? asked : addScaled(root, along, got)
  const side = sideOf(pole, along)
  // Law of cosines: how far along the line the middle joint lies, and how far beside it.
  const u = (first * first - second * second + got * got) / (2 * got)
  const v = Math.sqrt(Math.max(0, first * first - u * u))
  const middle = addScaled(addScaled(root, along, u), side, v)
  return { middle, end, over: want - got, along, side }
}

const DOWN: Vec3 = [0, -1, 0]

/** The pole square to the limb; where it lies along the limb, forward is. */
function sideOf(pole: Vec3, along: Vec3): Vec3 {
  const beside = reject(pole, along)
  return norm(beside) < SHORT ? unit(reject([0, 0, 1], along), [1, 0, 0]) : unit(beside)
}

export interface BentLimb {
  readonly middle: Vec3
  readonly end: Vec3
  /** How far the asked place lies beyond the limb (> 0 too far, < 0 too near), m. */
  readonly over: number
  /** From the root to the end. */
  readonly along: Vec3
  /** Square to it, toward the middle joint. */
  readonly side: Vec3
}

/** Distances root to end that a limb allows, and where the easing begins, m. */
export function reachRange(first: number, second: number, kind: 'arm' | 'leg') {
  const least = Math.abs(first - second) + 1e-6 * (first + second)
  return {
    max: STRAIGHT[kind] * (first + second),
    easeMax: EASE_FROM[kind] * (first + second),
    min: Math.max(least, foldedTo(first, second, FOLDED[kind])),
    easeMin: foldedTo(first, second, FOLDED[kind] + FOLD_EASE),
  }
}

const foldedTo = (first: number, second: number, angle: number): number =>
  Math.sqrt(first * first + second * second - 2 * first * second * Math.cos(angle))

/** Smooth to the third slope where the easing starts. */
const settle = (x: number): number => x / Math.cbrt(1 + x ** 3)

/** The distance settled past the start of the easing at either end. */
function easeDistance(want: number, r: ReturnType<typeof reachRange>): number {
  if (want > r.easeMax) {
    const width = r.max - r.easeMax
    return r.easeMax + width * settle((want - r.easeMax) / width)
  }
  if (want < r.easeMin) {
    const width = r.easeMin - r.min
    return r.easeMin - width * settle((r.easeMin - want) / width)
  }
  return want
}

/**
 * The place to ask for so that a free limb's end comes to rest where it now is: the easing undone.
 * An end at the very limit gives the nearest place that can be asked for.
 */
export function askedEnd(root: Vec3, end: Vec3, first: number, second: number, kind: 'arm' | 'leg'): Vec3 {
  const r = reachRange(first, second, kind)
  const got = distance(root, end)
  const unsettle = (y: number) => {
    const c = Math.min(y, UNSETTLED)
    return c / Math.cbrt(1 - c ** 3)
  }
  const widthMax = r.max - r.easeMax
  const widthMin = r.easeMin - r.min
  const want =
    got > r.easeMax
      ? r.easeMax + widthMax * unsettle((got - r.easeMax) / widthMax)
      : got < r.easeMin
        ? r.easeMin - widthMin * unsettle((r.easeMin - got) / widthMin)
        : got
  return want === got ? end : addScaled(root, unit(sub(end, root), DOWN), want)
}

/** Nearer than this to its limit an eased end is taken as this near. */
const UNSETTLED = 0.99999
