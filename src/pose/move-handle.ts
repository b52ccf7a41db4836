import type { Side } from '../body/model'
import type { Controls } from '../document/channels'
import { add, addScaled, distance, dot, norm, reject, sub, type Vec3 } from '../space/vec'
import { type FootWay, type Grasp, type Moved, put } from './grasp'
import { type HandleId, handlePlace } from './handles'
import { moveElbow, moveHand } from './move-arm'
import { moveFoot, moveHeel, moveKnee, moveToe } from './move-leg'
import { type AngleHandleId, solveAngles } from './move-trunk'
import { reach } from './reach'
import { ride } from './ride'
import type { ReachedPose } from './types'

export type { FootWay, Moved }

/**
 * Moves a handle of a pose to a target, as near as the body and what is planted allow.
 *
 * Everything is worked out from the given pose, so that a drag starts from the gesture's start at every
 * step and going back to the start gives the start: where the target is where the handle is, the very same
 * controls and contacts come back. Free arms ride with the chest and free legs with the pelvis when the
 * trunk moves. World frame, m, rad. The target must be finite.
 */
export function moveHandle({ handle, foot = 'along', free = null, start, ...given }: HandleMove): Moved {
  const { body, asked, contacts, target } = given
  const from = start ?? reach(body, asked, contacts)
  const grasp: Grasp = { ...given, start: from, free, foot }
  if (distance(handlePlace(body, from, handle), target) < STILL * body.stature)
    return { controls: asked, contacts }
  return MOVES[handle](grasp)
}

export interface HandleMove extends Pick<Grasp, 'body' | 'ground' | 'asked' | 'contacts' | 'target'> {
  readonly handle: HandleId
  /** What becomes of the foot when a knee is moved; 'along' where it is left out. */
  readonly foot?: FootWay
  /** The depth of the view the drag is made in: the target's place along it doesn't count. */
  readonly free?: Vec3 | null
  /** The pose that `asked` and `contacts` give, where it is known already. */
  readonly start?: ReachedPose
}

/** Under this share of the stature a handle has not been moved. */
const STILL = 1e-9

const limbMoves = (side: Side) => ({
  [`knee${side}`]: (grasp: Grasp) => moveKnee(grasp, side),
  [`foot${side}`]: (grasp: Grasp) => moveFoot(grasp, side),
  [`toe${side}`]: (grasp: Grasp) => moveToe(grasp, side),
  [`heel${side}`]: (grasp: Grasp) => moveHeel(grasp, side),
  [`hand${side}`]: (grasp: Grasp) => moveHand(grasp, side),
  [`elbow${side}`]: (grasp: Grasp) => moveElbow(grasp, side),
  [`hip${side}`]: (grasp: Grasp) => turnTrunk(grasp, `hip${side}`),
  [`shoulder${side}`]: (grasp: Grasp) => turnTrunk(grasp, `shoulder${side}`),
})

const MOVES = {
  pelvis: movePelvis,
  waist: (grasp: Grasp) => turnTrunk(grasp, 'waist'),
  chest: (grasp: Grasp) => turnTrunk(grasp, 'chest'),
  head: (grasp: Grasp) => turnTrunk(grasp, 'head'),
  brow: (grasp: Grasp) => turnTrunk(grasp, 'brow'),
  ...limbMoves('L'),
  ...limbMoves('R'),
} as Readonly<Record<HandleId, (grasp: Grasp) => Moved>>

/** The depth of the drag's view is left to the body: what it reaches there is what is asked. */
function movePelvis(grasp: Grasp): Moved {
  const { body, asked, contacts, free, target } = grasp
  const ask = (place: Vec3): Try => {
    const controls = { ...asked, ...put('pelvis', place) }
    const pose = reach(body, controls, contacts)
    return { controls, pose, miss: missOf(grasp, 'pelvis', pose) }
  }
  let last = ask(target)
  for (let round = 0; round < DEPTH_ROUNDS && free !== null; round++) {
    const { midHip } = last.pose.joints
    const next = ask(add(midHip, reject(sub(target, midHip), free)))
    if (!(next.miss < last.miss)) break
    last = next
  }
  return ridden(grasp, last)
}

/** Rounds in which the depth of a moved pelvis is settled. */
const DEPTH_ROUNDS = 2

/**
 * Angles of the trunk, solved as if nothing held the pelvis and corrected by how far the handle really
 * went; the nearest try counts. Where the knees hold hips and waist against turning, the pelvis shifts.
 */
function turnTrunk(grasp: Grasp, handle: AngleHandleId): Moved {
  const { body, asked, contacts, target, free, start } = grasp
  const from = handlePlace(body, start, handle)
  const way = flat(sub(target, from), free)
  const make = (controls: Controls): Try => {
    const pose = reach(body, controls, contacts)
    return { controls, pose, miss: missOf(grasp, handle, pose) }
  }
  let best: Try = { controls: asked, pose: start, miss: norm(way) }
  let gain = 1
  for (let round = 0; round < ANGLE_ROUNDS; round++) {
    const aim = addScaled(target, way, gain - 1)
    const next = make({ ...asked, ...solveAngles(body, standing(asked, start), handle, aim, free) })
    const went = dot(flat(sub(handlePlace(body, next.pose, handle), from), free), way) / dot(way, way)
    if (next.miss < BETTER * best.miss) best = next
    if (next.miss < CLOSE * body.stature || !(went > LEAST_GAIN)) break
    gain = Math.min(MOST_GAIN, gain / went)
  }
  if (handle === 'waist' || handle === 'hipL' || handle === 'hipR') {
    const left = flat(sub(target, handlePlace(body, best.pose, handle)), free)
    const next = make({ ...best.controls, ...put('pelvis', add(best.pose.joints.midHip, left)) })
    if (best.miss > WORTH_SHIFTING * norm(way) && next.miss < BETTER * best.miss) best = next
  }
  return ridden(grasp, best)
}

/** A pose tried for a handle, and by how much the handle misses, m. */
interface Try {
  readonly controls: Controls
  readonly pose: ReachedPose
  readonly miss: number
}

/** Tries at the most, until a miss of this share of the stature; a response out of these bounds is not corrected. */
const ANGLE_ROUNDS = 4
const CLOSE = 1e-5
const LEAST_GAIN = 0.2
const MOST_GAIN = 4
/** A try must miss by less than this share of the best so far: rounding must not choose between equals. */
const BETTER = 0.98
/** A miss of this share of the whole way is made up by shifting the pelvis. */
const WORTH_SHIFTING = 0.2

const flat = (v: Vec3, free: Vec3 | null): Vec3 => (free === null ? v : reject(v, free))

const missOf = ({ body, target, free }: Grasp, handle: HandleId, pose: ReachedPose): number =>
  norm(flat(sub(target, handlePlace(body, pose, handle)), free))

/** The asked controls with the pelvis where it is reached. */
const standing = (asked: Controls, { joints, reached }: ReachedPose): Controls => ({
  ...asked,
  ...put('pelvis', joints.midHip),
  'pelvis.list': reached['pelvis.list'],
})

/** Free arms hang from the chest and free legs from the pelvis, wherever these went. */
const ridden = ({ asked, contacts, start }: Grasp, { controls, pose }: Try): Moved => ({
  controls: ride(controls, asked, contacts, start, pose),
  contacts,
})
