import type { BodyModel, Side } from '../body/model'
import type { ChannelId, Controls } from '../document/channels'
import { apply } from '../space/rotation'
import { add, dot, norm, reject, scale, sub, type Vec3 } from '../space/vec'
import { pelvisRotation } from './anchor'
import { browOnHead, type TrunkHandleId } from './handles'
import { spine, trunkJoints } from './trunk'

/**
 * Turns the two angles a handle of the trunk stands for until it meets the target, as near as they allow:
 * damped least squares, a fixed number of steps from the present angles. An angle that the drag's view
 * shows nearly edge-on stays as it is: the least move of the pointer would change it much.
 * @param frame controls whose pelvis is where it is now (reached, not asked)
 * @param free unit direction that the drag says nothing about, or null
 * @returns the two angles, rad
 */
export function solveAngles(
  body: BodyModel,
  frame: Controls,
  handle: AngleHandleId,
  target: Vec3,
  free: Vec3 | null,
): Partial<Controls> {
  const channels = ANGLES[handle]
  const at = (a: number, b: number) => placeOf(body, { ...frame, [channels[0]]: a, [channels[1]]: b }, handle)
  const missOf = (a: number, b: number): Vec3 => {
    const off = sub(target, at(a, b))
    return free === null ? off : reject(off, free)
  }
  const [a0, b0] = [frame[channels[0]], frame[channels[1]]]
  const pull = (PULL * body.stature) ** 2
  const costOf = (miss: Vec3, x: number, y: number) =>
    dot(miss, miss) + pull * ((x - a0) ** 2 + (y - b0) ** 2)
  const [seesA, seesB] = [
    seen(at(a0, b0), at(a0 + PROBE, b0), free),
    seen(at(a0, b0), at(a0, b0 + PROBE), free),
  ]
  let [a, b] = [a0, b0]
  let miss = missOf(a, b)
  let cost = costOf(miss, a, b)
  let damping = pull
  for (let step = 0; step < STEPS; step++) {
    const ja = scale(slope(missOf(a + PROBE, b), miss), seesA)
    const jb = scale(slope(missOf(a, b + PROBE), miss), seesB)
    const right = [dot(ja, miss) - pull * (a - a0), dot(jb, miss) - pull * (b - b0)] as const
    const [da, db] = dampedStep(ja, jb, right, pull + damping)
    const next = [bound(channels[0], a + da, a0), bound(channels[1], b + db, b0)] as const
    const nextMiss = missOf(...next)
    const nextCost = costOf(nextMiss, ...next)
    if (nextCost < cost) {
      ;[a, b] = next
      miss = nextMiss
      cost = nextCost
      damping /= 10
    } else damping *= 10
    if (Math.abs(da) + Math.abs(db) < PROBE) break
  }
  return { [channels[0]]: a, [channels[1]]: b }
}

export type AngleHandleId = Exclude<TrunkHandleId, 'pelvis'>

const ANGLES: Readonly<Record<AngleHandleId, readonly [ChannelId, ChannelId]>> = {
  hipL: ['pelvis.turn', 'pelvis.list'],
  hipR: ['pelvis.turn', 'pelvis.list'],
  waist: ['pelvis.tilt', 'pelvis.list'],
  chest: ['chest.tilt', 'chest.list'],
  shoulderL: ['chest.turn', 'chest.list'],
  shoulderR: ['chest.turn', 'chest.list'],
  head: ['head.tilt', 'head.list'],
  brow: ['head.turn', 'head.tilt'],
}

/** 1 where a view shows what an angle moves, 0 where it sees that edge-on. */
function seen(here: Vec3, probed: Vec3, free: Vec3 | null): 0 | 1 {
  const way = sub(probed, here)
  return free !== null && norm(reject(way, free)) < EDGE_ON * norm(way) ? 0 : 1
}

/** A view sees an angle edge-on where it shows less than this share of what the angle moves. */
const EDGE_ON = 0.35
/**
 * A radian counts as a miss of this share of the stature: it keeps the angles near where they were where the
 * target is out of reach and many are as good, and costs a thousandth of the way elsewhere.
 */
const PULL = 0.005
/** Most steps, and the probe of a slope, which is also the least step, rad. */
const STEPS = 40
const PROBE = 1e-6
/** Further than this no back or neck bends, and a list of 90° is singular. The pelvis may turn and tilt all the way. */
const BOUND = (80 * Math.PI) / 180
/** No single step turns further than this, rad. */
const LONGEST = 0.4

function bound(channel: ChannelId, angle: number, now: number): number {
  if (channel === 'pelvis.turn' || channel === 'pelvis.tilt') return angle
  const most = Math.max(BOUND, Math.abs(now))
  return Math.max(-most, Math.min(most, angle))
}

/** Where a handle of the trunk is, from the trunk's controls alone, world, m. */
function placeOf(body: BodyModel, controls: Controls, handle: AngleHandleId): Vec3 {
  const back = spine(controls)
  const local = trunkJoints(body, back)
  const point: Vec3 =
    handle === 'brow'
      ? add(local.neck, apply(back.head, browOnHead(body)))
      : handle === 'chest'
        ? local.neck
        : handle === 'head'
          ? local.crown
          : handle === 'waist'
            ? local.waist
            : local[handle as `hip${Side}` | `shoulder${Side}`]
  const pelvis = pelvisRotation(controls['pelvis.turn'], controls['pelvis.list'], controls['pelvis.tilt'])
  return add([controls['pelvis.x'], controls['pelvis.y'], controls['pelvis.z']], apply(pelvis, point))
}

/** How the handle moves by an angle, m/rad: the miss shrinks by what the handle moves. */
const slope = (probed: Vec3, miss: Vec3): Vec3 => {
  const d = sub(miss, probed)
  return [d[0] / PROBE, d[1] / PROBE, d[2] / PROBE]
}

function dampedStep(
  ja: Vec3,
  jb: Vec3,
  [ma, mb]: readonly [number, number],
  damping: number,
): [number, number] {
  const aa = dot(ja, ja) + damping
  const bb = dot(jb, jb) + damping
  const ab = dot(ja, jb)
  const det = aa * bb - ab * ab
  const [da, db] = [(bb * ma - ab * mb) / det, (aa * mb - ab * ma) / det]
  const cap = Math.min(1, LONGEST / Math.max(Math.abs(da), Math.abs(db), 1e-12))
  return [da * cap, db * cap]
}
