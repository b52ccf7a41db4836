import { SIDES, type Side } from '../../body/model'
import type { Point2 } from '../../contact/hull'
import type { ChannelId, Controls } from '../../document/channels'
import type { ContactPart } from '../../document/contacts'
import { put } from '../../pose/grasp'
import type { ReachedPose } from '../../pose/types'
import { add, addScaled, distance, norm, reject, scale, sub, unit } from '../../space/vec'
import { BALANCE, HANG_LEANT, HANG_OFF, TRUNK } from './constants'
import { plumbOf, poseOf } from './region'
import type { Scene, Still } from './types'

/**
 * The pose nearest to a base pose whose weight stands over a target: least Σ (departure / ease)² over the
 * trunk's controls, subject to reach. Newton's method on the two conditions with slopes from differences once
 * and Broyden's updates after; free arms ride on the chest, a free leg is placed anew at every step.
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
  const { stature } = scene.body
  const unit = ids.map((id) => (isPlace(id) ? stature : 1))
  const start = placed(scene, base, poseOf(scene, base), place)
  const at = (u: readonly number[], near: Still): Still => {
    const controls: Record<string, number> = { ...near.controls }
    ids.forEach((id, i) => {
      controls[id] = within(id, base.controls[id] + (u[i] as number) * (unit[i] as number), base.controls[id])
    })
    return { controls: controls as Controls, contacts: base.contacts }
  }
  const ridden = (still: Still, pose: ReachedPose): Still =>
    placed(scene, riding(still, start.pose, pose), pose, place).still

  let u = warm?.u ?? ids.map(() => 0)
  let still = warm ? warm.still : start.still
  let pose = warm ? warm.pose : start.pose
  let slopes: Slopes | null = warm?.slopes ?? null
  let best: Balanced = { still, pose, miss: missOf(target, pose) / stature, u, slopes }
  let worse = 0
  for (let step = 0; step < BALANCE.steps; step++) {
    const miss = missOf(target, pose) / stature
    if (miss < best.miss * BALANCE.gain) worse = 0
    else if (step > 0 && ++worse > BALANCE.patience) break
    if (miss < best.miss) best = { still, pose, miss, u, slopes }
    if (miss < BALANCE.near) break
    if (slopes === null || (worse > 0 && worse % 2 === 0)) {
      // Slopes gone astray are taken anew from the best so far.
      ;({ still, pose, u } = best)
      slopes = probe(
        scene,
        at,
        ridden,
        u,
        still,
        pose,
        ids.map((id) => probeOf(id, target[0] - pose.com[0])),
      )
    }
    const want: Point2 = [
      (target[0] - pose.com[0]) / stature + dotted(slopes[0], u),
      (target[1] - pose.com[2]) / stature + dotted(slopes[1], u),
    ]
    const next = leastNorm(
      slopes,
      ids.map((id) => ease[id] as number),
      want,
    )
    const long = Math.max(...next.map((x, i) => Math.abs(x - (u[i] as number))))
    const share = Math.min(1, BALANCE.longest / Math.max(long, 1e-12))
    const moved = next.map((x, i) => (u[i] as number) + share * (x - (u[i] as number)))
    const rough = at(moved, still)
    const nextStill = ridden(rough, poseOf(scene, rough))
    const nextPose = poseOf(scene, nextStill)
    slopes = broyden(slopes, u, moved, plumbOf(pose), plumbOf(nextPose), stature)
    u = moved
    still = nextStill
    pose = nextPose
    yield null
  }
  return best
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
}

type Slopes = readonly [readonly number[], readonly number[]]

const isPlace = (id: TrunkChannel) => id === 'pelvis.x' || id === 'pelvis.y' || id === 'pelvis.z'

function placed(
  scene: Scene,
  still: Still,
  pose: ReachedPose,
  place: Placing | null,
): { still: Still; pose: ReachedPose } {
  if (place === null) return { still, pose }
  const moved = { ...still, controls: { ...still.controls, ...place(pose) } }
  return { still: moved, pose: poseOf(scene, moved) }
}

/**
 * What is not held goes on as it was. Free arms hang: each hand keeps its way from the shoulder, as the world sees it and not as the chest does, and
 * stands off to its own side by as much as the shoulder has come over it. A knee over a planted foot goes on
 * pointing the way it did.
 */
export function riding(still: Still, start: ReachedPose, now: ReachedPose): Still {
  const starts = (side: Side) =>
    start.pads.some(({ part }) => part === `foot${side}`) &&
    !start.pads.some(({ part }) => part === `knee${side}`)
  const changes: Partial<Record<ChannelId, number>> = {}
  const turn = now.segments.upperTrunk.rotation
  const size = Math.hypot(turn[0], turn[6]) || 1
  const [u, v] = [start.segments.upperTrunk.rotation, turn]
  const leant =
    HANG_LEANT *
    norm(sub([u[1], u[4], u[7]], [v[1], v[4], v[7]])) *
    norm(sub(start.joints.crown, start.joints.waist))
  const held = (part: ContactPart) => still.contacts.some((contact) => contact.part === part)
  for (const side of SIDES) {
    if (held(`foot${side}`) && !held(`knee${side}`)) {
      const [hip, knee, ankle] = [
        start.joints[`hip${side}`],
        start.joints[`knee${side}`],
        start.joints[`ankle${side}`],
      ]
      const bend = reject(sub(knee, hip), unit(sub(ankle, hip)))
      // A leg all but straight says nothing about where its knee points; its foot does.
      const toes = sub(start.joints[`ball${side}`], ankle)
      const way = unit(add(unit(bend, [0, 0, 0]), scale(unit([toes[0], 0, toes[2]]), 0.5)))
      const at = addScaled(now.joints[`hip${side}`], way, distance(knee, hip))
      if (starts(side)) Object.assign(changes, put(`leg${side}.knee`, at))
    }
    if (held(`hand${side}`)) continue
    const [was, is] = [start.joints[`shoulder${side}`], now.joints[`shoulder${side}`]]
    const out = side === 'L' ? 1 : -1
    const aside = (HANG_OFF * Math.hypot(is[0] - was[0], is[2] - was[2]) + leant) * out
    const from = sub(start.joints[`knuckle${side}`], was)
    const to = add(from, [(turn[0] / size) * aside, 0, (turn[6] / size) * aside])
    const hand = addScaled(is, unit(to), norm(from))
    Object.assign(changes, put(`arm${side}.hand`, hand))
  }
  return { ...still, controls: { ...still.controls, ...changes } }
}

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
  at: (u: readonly number[], near: Still) => Still,
  ridden: (still: Still, pose: ReachedPose) => Still,
  u: readonly number[],
  still: Still,
  pose: ReachedPose,
  by: readonly number[],
): Slopes {
  const { stature } = scene.body
  const slopes: [number[], number[]] = [[], []]
  for (let i = 0; i < u.length; i++) {
    const rough = at(
      u.map((x, j) => (j === i ? x + (by[i] as number) : x)),
      still,
    )
    const moved = poseOf(scene, ridden(rough, poseOf(scene, rough)))
    slopes[0].push((moved.com[0] - pose.com[0]) / stature / (by[i] as number))
    slopes[1].push((moved.com[2] - pose.com[2]) / stature / (by[i] as number))
  }
  return slopes
}

/** Sideways controls are probed toward the target, so that a mirrored question has the mirrored answer. */
function probeOf(id: TrunkChannel, way: number): number {
  const side = way < 0 ? -1 : 1
  if (id === 'pelvis.x') return side * BALANCE.probe
  return /list|turn/.test(id) ? -side * BALANCE.probe : BALANCE.probe
}

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
