import { SIDES } from '../../body/model'
import type { Point2 } from '../../contact/hull'
import type { ChannelId, Controls } from '../../document/channels'
import type { ReachedPose } from '../../pose/types'
import { BALANCE, TRUNK } from './constants'
import { cleared, riding } from './hang'
import { plumbOf, poseOf } from './region'
import type { Scene, Still } from './types'

/**
 * The pose nearest to a base pose whose weight stands over a target: least Σ (departure / ease)² over the
 * trunk's controls, subject to reach. Newton's method on the two conditions with slopes from differences once
 * and Broyden's updates after. Free limbs go on with the pelvis at every step; once the weight stands, free
 * arms hang anew from where the shoulders have come, a free leg is placed anew, and what that shifts is made up.
 * @param ease how readily each control gives, over H or rad; those left out stay
 * @param place the free limbs' controls in a pose, or null
 * @param warm an answer for the same base and ease, and another target, to go on from; yields between steps
 * @returns the nearest pose found, whether or not it is near enough; see `miss`
 */
export function* balance(
  scene: Scene,
  base: Still,
  target: Point2,
  ease: Ease,
  place: Placing | null = null,
  warm: Balanced | null = null,
): Generator<null, Balanced> {
  const ids = (Object.keys(ease) as TrunkChannel[]).filter((id) => (ease[id] ?? 0) > 0)
  const eases = ids.map((id) => ease[id] as number)
  const { stature } = scene.body
  const start = warm ?? hung(scene, base, null, place)
  const shift = (near: Still, u: readonly number[]): Still => shifted(scene, base, ids, near, u)
  const far = ids.map((id) => (isPlace(id) ? BALANCE.longest.place : BALANCE.longest.angle))
  const aside = ids.map((id) => probeOf(id, target[0] - start.pose.com[0]))

  const reckoned = (at: Pick<Balanced, 'still' | 'pose'>, u: readonly number[]): Balanced => ({
    still: at.still,
    pose: at.pose,
    miss: missOf(target, at.pose) / stature,
    u,
    slopes: null,
    start: start.start,
  })

  let best = reckoned(start, warm?.u ?? ids.map(() => 0))
  let slopes: Slopes | null = warm?.slopes ?? null
  let longest = 1
  /** Whether the free limbs hang as they would in this pose, and whether the slopes are of just here. */
  let hangs = true
  let fresh = false
  /** Whether something has come to the end of its way. */
  let stopped = false
  let idle = 0
  for (let step = 0; step < BALANCE.steps; step++) {
    if (best.miss < BALANCE.near && !hangs) {
      best = reckoned(hung(scene, best.still, start.start, place, best.pose), best.u)
      hangs = true
    }
    if (best.miss < BALANCE.near || idle > BALANCE.patience) break
    if (slopes === null) {
      slopes = probe(scene, shift, best, aside)
      fresh = true
    }
    const from = best.u
    const at = plumbOf(best.pose)
    const off: Point2 = [(target[0] - at[0]) / stature, (target[1] - at[1]) / stature]
    // What has come to its stop gives no more, but gives back when it goes back: it stays.
    const by = leastNorm(
      slopes,
      eases,
      stopped ? off : add2(off, dotted(slopes[0], from), dotted(slopes[1], from)),
    )
    const next = stopped ? by.map((x, i) => x + (from[i] as number)) : by
    const long = next.reduce(
      (most, x, i) => Math.max(most, Math.abs(x - (from[i] as number)) / (far[i] as number)),
      0,
    )
    const share = Math.min(1, longest / Math.max(long, 1e-12))
    const moved = next.map((x, i) => (from[i] as number) + share * (x - (from[i] as number)))
    const still = shift(best.still, moved)
    const tried = reckoned({ still, pose: poseOf(scene, still) }, moved)
    /** Of what the slopes promised, what came. */
    const came = (best.miss - tried.miss) / (share * best.miss)
    // Where a limb or a range stops what gave before, other slopes hold; right there, only shorter steps help.
    if (came > BALANCE.came) slopes = broyden(slopes, from, moved, at, plumbOf(tried.pose), stature)
    else if (fresh && came <= 0) longest = Math.min(longest, long) * BALANCE.shorter
    else {
      slopes = null
      stopped = true
    }
    idle = came * share > BALANCE.gain ? 0 : idle + 1
    if (tried.miss < best.miss) {
      best = tried
      hangs = false
      fresh = false
    }
    yield null
  }
  if (!hangs) best = reckoned(hung(scene, best.still, start.start, place, best.pose), best.u)
  return { ...best, slopes }
}

export type TrunkChannel = Extract<ChannelId, `pelvis.${string}` | `chest.${string}`>
export type Ease = Readonly<Partial<Record<TrunkChannel, number>>>
/** Controls of free limbs for a pose whose trunk stands. */
export type Placing = (pose: ReachedPose) => Partial<Controls>

export interface Balanced {
  readonly still: Still
  readonly pose: ReachedPose
  /** From the weight to its target, over H. */
  readonly miss: number
  /** What it departs from its base by, and the weight's slopes there: to go on from. */
  readonly u: readonly number[]
  readonly slopes: Slopes | null
  /** The pose of the base: what free arms hung like there. */
  readonly start: ReachedPose
}

type Slopes = readonly [readonly number[], readonly number[]]

const isPlace = (id: TrunkChannel) => id === 'pelvis.x' || id === 'pelvis.y' || id === 'pelvis.z'

/** Free limbs as they would be in a pose: arms hanging, a leg in the air placed. */
function hung(
  scene: Scene,
  still: Still,
  start: ReachedPose | null,
  place: Placing | null,
  now?: ReachedPose,
): Pick<Balanced, 'still' | 'pose' | 'start'> {
  const pose = now ?? poseOf(scene, still)
  const ridden = start === null ? still : riding(still, start, pose)
  const moved = place === null ? ridden : { ...ridden, controls: { ...ridden.controls, ...place(pose) } }
  const made = moved === still ? pose : poseOf(scene, moved)
  return start === null
    ? { still: moved, pose: made, start: made }
    : { ...cleared(scene, moved, made), start }
}

/** The base with its trunk's controls shifted, free limbs carried along with the pelvis. */
function shifted(
  { body }: Scene,
  base: Still,
  ids: readonly TrunkChannel[],
  near: Still,
  u: readonly number[],
): Still {
  const controls: Record<string, number> = { ...near.controls }
  ids.forEach((id, i) => {
    const by = (u[i] as number) * (isPlace(id) ? body.stature : 1)
    controls[id] = within(id, base.controls[id] + by, base.controls[id])
  })
  for (const axis of AXES) {
    const by = (controls[`pelvis.${axis}`] as number) - near.controls[`pelvis.${axis}`]
    for (const side of SIDES) {
      const id = `arm${side}.hand.${axis}` as const
      if (!near.contacts.some(({ part }) => part === `hand${side}`)) controls[id] = near.controls[id] + by
    }
  }
  return { controls: controls as Controls, contacts: base.contacts }
}
const AXES = ['x', 'y', 'z'] as const

const missOf = (target: Point2, { com }: ReachedPose) => Math.hypot(target[0] - com[0], target[1] - com[2])

/** Angles within the trunk's range; one that starts outside may stay there. */
function within(id: TrunkChannel, value: number, from: number): number {
  const clamp = (low: number, high: number) =>
    Math.max(Math.min(low, from), Math.min(Math.max(high, from), value))
  switch (id) {
    case 'chest.list':
      return clamp(-TRUNK.chestList, TRUNK.chestList)
    case 'chest.tilt':
      return clamp(-TRUNK.chestBack, TRUNK.chestForward)
    case 'pelvis.list':
      return clamp(-TRUNK.pelvisList, TRUNK.pelvisList)
    case 'pelvis.tilt':
      return clamp(-TRUNK.pelvisBack, TRUNK.pelvisForward)
    default:
      return value
  }
}

function probe(
  scene: Scene,
  shift: (near: Still, u: readonly number[]) => Still,
  { still, pose, u }: Balanced,
  by: readonly number[],
): Slopes {
  const { stature } = scene.body
  const slopes: [number[], number[]] = [[], []]
  by.forEach((far, i) => {
    const to = u.map((x, j) => (j === i ? x + far : x))
    const { com } = poseOf(scene, shift(still, to))
    slopes[0].push((com[0] - pose.com[0]) / stature / far)
    slopes[1].push((com[2] - pose.com[2]) / stature / far)
  })
  return slopes
}

/** Sideways controls are probed toward the target, so that a mirrored question has the mirrored answer. */
function probeOf(id: TrunkChannel, way: number): number {
  const side = way < 0 ? -1 : 1
  if (id === 'pelvis.x') return side * BALANCE.probe
  return /list|turn/.test(id) ? -side * BALANCE.probe : BALANCE.probe
}

const add2 = ([x, z]: Point2, dx: number, dz: number): Point2 => [x + dx, z + dz]
const dotted = (a: readonly number[], b: readonly number[]) =>
  a.reduce((sum, x, i) => sum + x * (b[i] as number), 0)

/** The u of least Σ (u / ease)² with slopes · u = want, lightly damped. */
function leastNorm([a, b]: Slopes, ease: readonly number[], want: Point2): number[] {
  const e2 = ease.map((e) => e * e)
  const weighed = (p: readonly number[], q: readonly number[]) =>
    p.reduce((sum, x, i) => sum + x * (q[i] as number) * (e2[i] as number), 0)
  const damp = 1e-7
  const [aa, ab, bb] = [weighed(a, a) + damp, weighed(a, b), weighed(b, b) + damp]
  const det = aa * bb - ab * ab
  const [la, lb] = [(want[0] * bb - want[1] * ab) / det, (want[1] * aa - want[0] * ab) / det]
  return a.map((x, i) => (e2[i] as number) * (x * la + (b[i] as number) * lb))
}

function broyden(
  slopes: Slopes,
  u: readonly number[],
  next: readonly number[],
  was: Point2,
  now: Point2,
  stature: number,
): Slopes {
  const du = next.map((x, i) => x - (u[i] as number))
  const square = dotted(du, du)
  if (square < 1e-16) return slopes
  const corrected = (row: readonly number[], moved: number) => {
    const off = (moved - dotted(row, du)) / square
    return row.map((x, i) => x + off * (du[i] as number))
  }
  return [
    corrected(slopes[0], (now[0] - was[0]) / stature),
    corrected(slopes[1], (now[1] - was[1]) / stature),
  ]
}
