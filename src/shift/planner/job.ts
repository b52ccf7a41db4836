import type { Point2 } from '../../contact/hull'
import type { Controls } from '../../document/channels'
import { type ContactSpan, sideOf } from '../../document/contacts'
import type { ReachedPose } from '../../pose/types'
import { inset, nearestIn } from '../../weigh/polygon'
import { type Balanced, balance, type Ease, type Placing, type TrunkChannel } from './balance'
import { COUNTER, HIKE, ROOMS, ROOMY } from './constants'
import { outward } from './moves'
import { plumbOf, poseOf } from './region'
import { failed, type Solved, solved, stops } from './sound'
import type { Scene, Spot, Still, Transfer } from './types'
import type { Way } from './ways'

/** One transfer being solved. */
export interface Job {
  readonly scene: Scene
  readonly start: Still
  /** The pose that `start` gives. */
  readonly pose: ReachedPose
  readonly transfer: Transfer
  readonly way: Way
  /** Where the contacts that stay can hold the weight. */
  readonly region: readonly Point2[]
  /** 1 … 2: how far lean and drop are driven past what the weight needs. */
  readonly push: number
}

/**
 * Balances a base pose within a region: first with the least room, then with as much as can be had. Yields
 * between tries.
 * @param enough whether a pose with room will do, or the weight must go on
 */
export function* hold(
  job: Job,
  base: Still,
  from: Point2,
  ease: Ease,
  place: Placing | null = null,
  region: readonly Point2[] = job.region,
  enough: (balanced: Balanced) => boolean = () => true,
  rooms: readonly number[] = ROOMS,
): Generator<null, Solved<Balanced>> {
  const { scene } = job
  let best: Balanced | null = null
  for (const room of rooms) {
    const inner = inset(region, room * scene.body.stature)
    if (inner.length === 0) break
    const target = nearestIn(inner, counter(job, from))
    const tried: Balanced = yield* balance(scene, base, target, ease, place, best)
    const limit = stops(scene, job.pose, tried.pose, base.contacts.length, region)
    if (limit !== null) {
      if (best === null) return { ok: false, limit }
      break
    }
    best = tried
    if (room >= ROOMY && enough(tried)) break
  }
  return best === null ? failed('nothing', 0, 'What stays is too narrow to hold him.') : solved(best)
}

/**
 * A limb that is about to travel far is stopped again by what stays: the weight keeps off the edge ahead of it,
 * by a share of the way.
 */
function counter({ scene, pose, transfer, region }: Job, from: Point2): Point2 {
  const spot = transfer.plant[0]
  if (!spot || transfer.limb.startsWith('arm')) return from
  const at = pose.joints[`ankle${sideOf(transfer.limb)}`]
  const way: Point2 = [spot.position[0] - at[0], spot.position[2] - at[2]]
  const long = Math.hypot(...way)
  if (long < COUNTER.least * scene.body.stature) return from
  const [x, z] = [way[0] / long, way[1] / long]
  const edge = Math.max(...region.map((p) => p[0] * x + p[1] * z))
  const ahead = edge - (from[0] * x + from[1] * z)
  const short = Math.max(0, COUNTER.share * long - ahead)
  return [from[0] - x * short, from[1] - z * short]
}

export const TRUNK_CHANNELS: readonly TrunkChannel[] = [
  'pelvis.x',
  'pelvis.y',
  'pelvis.z',
  'pelvis.turn',
  'pelvis.list',
  'pelvis.tilt',
  'chest.turn',
  'chest.list',
  'chest.tilt',
]
export const HEAD_CHANNELS = ['head.turn', 'head.list', 'head.tilt'] as const

/** The contacts that stay. */
export const staying = ({ start, transfer }: Job): ContactSpan[] =>
  start.contacts.filter(({ part }) => !transfer.release.includes(part))

export const spanOf = (spot: Spot): ContactSpan => ({
  ...spot,
  id: spot.part,
  from: 0,
  to: 0,
  state: 'planted',
})

/** A pose's weight from above, as a still would have it. */
export const plumbOfStill = (scene: Scene, still: Still): Point2 => plumbOf(poseOf(scene, still))

/** In a swing the pelvis tips by itself only a little. */
export const swingEase = (way: Way): Ease => ({ ...way.ease, 'pelvis.list': 0.1 })

/** The pelvis back toward its own list: the thigh of a free leg no longer tips it. */
export function unlisted({ pose }: Job, controls: Controls): Controls {
  const own = pose.reached['pelvis.list']
  return { ...controls, 'pelvis.list': own + (controls['pelvis.list'] - own) * 0.3 }
}

/** The free hip hikes, by a share of what it does at the passing breakdown; the chest stays. */
export function hiked({ transfer }: Job, controls: Controls, share: number): Controls {
  if (!transfer.limb.startsWith('leg') || transfer.release.length === 0) return controls
  const up = outward(sideOf(transfer.limb)) * HIKE.pass * share
  return {
    ...controls,
    'pelvis.list': controls['pelvis.list'] + up,
    'chest.list': controls['chest.list'] - up,
  }
}

/** The first of several ways that holds; the limit of the first where none does. */
export function* firstHeld<T, R>(
  ways: readonly T[],
  hold: (way: T) => Generator<null, Solved<R>>,
): Generator<null, Solved<R>> {
  let first: Solved<R> | null = null
  for (const way of ways) {
    const held = yield* hold(way)
    if (held.ok) return held
    first ??= held
  }
  return first ?? failed('nothing', 0, 'There is no way to hold him.')
}
