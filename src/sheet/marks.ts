import { CHANNELS, type Controls, isAngle } from '../document/channels'
import type { Take } from '../document/plan'
import { keyedFramesOf } from '../plan/key-poses'
import type { Motion } from '../pose/between'
import { channelAt } from '../pose/curve'
import { ANGLE_WEIGHT, SAME } from './constants'
import type { Mark } from './types'

/**
 * The mark of every frame of a take: key, breakdown, hold or in-between, and how much of the change from
 * the last key pose to the next is done.
 *
 * The progress is measured on the reached poses: the part of the change so far that lies along the whole
 * change, over all channels, lengths over stature and angles weighted as reach weights them.
 * @param stature m
 */
export function marksOf(take: Take, motion: Motion, stature: number): Mark[] {
  const keyed = keyedFramesOf(take)
  const kinds = new Map(keyed.map(({ frame, mark }) => [frame, mark]))
  const keys = keyed.filter(({ mark }) => mark === 'key').map(({ frame }) => frame)
  const spans = [Number.NEGATIVE_INFINITY, ...keys].map((from, i) =>
    span(take, motion, stature, from, keys[i] ?? Number.POSITIVE_INFINITY),
  )
  let next = 0
  return Array.from({ length: take.length }, (_, frame): Mark => {
    while (next < keys.length && (keys[next] as number) <= frame) next++
    const { still, changeAt } = spans[next] as Span
    const kind = kinds.get(frame)
    if (kind === 'key') return { kind, progress: still ? null : 0 }
    if (kind === undefined && still) return { kind: 'hold', progress: null }
    return { kind: kind ?? 'between', progress: still ? null : progressOf(changeAt(frame)) }
  })
}

/**
 * What the progress of a frame between two key poses comes of: the change since the last key along the whole change
 * to the next, and that, both squares without unit; null at key poses and where there is no progress.
 */
export function changeAt(take: Take, motion: Motion, stature: number, frame: number): Change | null {
  const keys = keyedFramesOf(take).flatMap((one) => (one.mark === 'key' ? [one.frame] : []))
  const from = keys.findLast((key) => key <= frame)
  const to = keys.find((key) => key > frame)
  if (from === undefined || to === undefined || from === frame) return null
  return span(take, motion, stature, from, to).changeAt(frame)
}

export interface Change {
  readonly along: number
  readonly whole: number
}

/** The plain fraction a progress is near to, else its percents: 0.34 → '⅓', 0.43 → '43 %'. */
export function fractionText(progress: number, within: number): string {
  const near = PLAIN.find(([value]) => Math.abs(value - progress) <= within)
  return near?.[1] ?? `${Math.round(progress * 100)}\u00a0%`
}

const PLAIN: readonly (readonly [number, string])[] = [
  [1 / 8, '⅛'],
  [1 / 4, '¼'],
  [1 / 3, '⅓'],
  [3 / 8, '⅜'],
  [1 / 2, '½'],
  [5 / 8, '⅝'],
  [2 / 3, '⅔'],
  [3 / 4, '¾'],
  [7 / 8, '⅞'],
]

/** From a key pose (or before the first) to the next (or after the last). */
interface Span {
  /** Nothing is keyed to change. */
  readonly still: boolean
  changeAt(frame: number): Change | null
}

function span(take: Take, motion: Motion, stature: number, from: number, to: number): Span {
  const still = CHANNELS.every((id) => isStill(take.channels[id], from, to))
  if (still || !Number.isFinite(from) || !Number.isFinite(to)) return { still, changeAt: () => null }
  const start = motion.poseAt(from).reached
  const whole = changes(start, motion.poseAt(to).reached, stature)
  const square = dot(whole, whole)
  return {
    still,
    changeAt(frame) {
      if (square < SAME * SAME) return null
      return { along: dot(changes(start, motion.poseAt(frame).reached, stature), whole), whole: square }
    },
  }
}

const progressOf = (change: Change | null): number | null =>
  change === null ? null : change.along / change.whole

function isStill(keys: Take['channels']['pelvis.x'], from: number, to: number): boolean {
  const value = channelAt(keys, Number.isFinite(from) ? from : 0)
  const inside = keys.filter((key) => key.frame >= from && key.frame <= to)
  const end = Number.isFinite(to) ? channelAt(keys, to) : value
  return inside.every((key) => Math.abs(key.value - value) < SAME) && Math.abs(end - value) < SAME
}

const changes = (from: Controls, to: Controls, stature: number): number[] =>
  CHANNELS.map((id) => (to[id] - from[id]) * (isAngle(id) ? ANGLE_WEIGHT : 1 / stature))

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + value * (b[i] as number), 0)
