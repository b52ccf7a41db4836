import { FIST_REACH, KNEECAP_DOWN, PALM_HALF_LENGTH, PALM_HEIGHT } from '../body/constants'
import type { BodyModel } from '../body/model'
import { surfaceBelow } from '../contact/ground'
import { type ContactPart, partKind, partsOf, sideOf } from '../document/contacts'
import type { Ground, Mover, Take } from '../document/plan'
import type { Motion } from '../pose/between'
import { footPoint } from '../pose/foot'
import type { ReachedPose } from '../pose/types'
import { apply } from '../space/rotation'
import { add, distance, type Vec3 } from '../space/vec'
import { SUNK } from './constants'

/** Height of the mover's lowest point over what lies below it, m: 0 while a part of it touches, negative where it is sunk in. */
export function clearanceOf(body: BodyModel, ground: Ground, pose: ReachedPose, mover: Mover): number {
  const lowest = lowestOf(body, ground, pose, mover)
  return lowest === null ? 0 : lowest.height - lowest.under
}

/** Heights of the mover's point that is lowest over what lies below it, and of that, m; null while a part of it touches. */
export function lowestOf(
  body: BodyModel,
  ground: Ground,
  pose: ReachedPose,
  mover: Mover,
): { readonly height: number; readonly under: number } | null {
  const parts = moverParts(mover)
  if (pose.pads.some((pad) => parts.includes(pad.part))) return null
  const points = parts
    .flatMap((part) => undersides(body, pose, part))
    .map((point) => ({
      height: point[1],
      under: surfaceBelow(ground, point, SUNK * body.stature).height,
    }))
  return points.reduce((a, b) => (b.height - b.under < a.height - a.under ? b : a))
}

/** The parts a mover takes away: all of the limb, or only its knee when the toes stay. */
const moverParts = (mover: Mover): ContactPart[] =>
  partsOf(mover.limb).filter((part) => !(mover.toesStay && partKind(part) === 'foot'))

/** The points of a part that can touch: as reach places its pads. */
function undersides(body: BodyModel, { joints, segments }: ReachedPose, part: ContactPart): Vec3[] {
  const side = sideOf(part)
  if (partKind(part) === 'knee') {
    const drop = KNEECAP_DOWN * 2 * body.segments[`shank${side}`].spread[0]
    return [add(joints[`knee${side}`], [0, -drop, 0])]
  }
  if (partKind(part) === 'foot') {
    const { y, z } = footPoint(body, 'instep')
    const { rotation, origin } = segments[`foot${side}`]
    const instep = add(origin, apply(rotation, [0, y, z]))
    return [joints[`heel${side}`], joints[`ball${side}`], joints[`toe${side}`], instep]
  }
  const hand = body.lengths.hand
  const { rotation, origin } = segments[`hand${side}`]
  const onHand = (y: number, z: number) => add(origin, apply(rotation, [0, y * hand, z * hand]))
  return [onHand(-FIST_REACH, 0), onHand(-PALM_HALF_LENGTH, -PALM_HEIGHT)]
}

/**
 * How much of its way the mover has gone at each frame, 0 … 1; null at frames where it is on none.
 *
 * A way goes from the last frame before a part of the mover leaves its contact to the frame where a part
 * next touches (or to the end of the take). It is the path of the part that touches: knee, ankle or
 * knuckles, measured from frame to frame.
 */
export function pathsOf(take: Take, motion: Motion): (number | null)[] {
  return goneOf(take, motion).map((one) => (one === null ? null : one.gone / one.whole))
}

/** Lengths at each frame: how far the mover has gone, and its whole way, m. */
export function goneOf(take: Take, motion: Motion): (Gone | null)[] {
  const paths: (Gone | null)[] = new Array(take.length).fill(null)
  for (const { from, to, part } of ways(take)) {
    const gone = [0]
    for (let frame = from + 1; frame <= to; frame++)
      gone.push(
        (gone.at(-1) as number) + distance(point(motion, part, frame - 1), point(motion, part, frame)),
      )
    const whole = gone.at(-1) as number
    if (whole > 0)
      gone.forEach((way, i) => {
        paths[from + i] = { gone: way, whole }
      })
  }
  return paths
}

export interface Gone {
  readonly gone: number
  readonly whole: number
}

function point(motion: Motion, part: ContactPart, frame: number): Vec3 {
  const joint = { knee: 'knee', foot: 'ankle', hand: 'knuckle' } as const
  return motion.poseAt(frame).joints[`${joint[partKind(part)]}${sideOf(part)}`]
}

function ways(take: Take): Way[] {
  const parts = moverParts(take.mover)
  const touches = (part: ContactPart, frame: number) =>
    take.contacts.some((c) => c.part === part && c.from <= frame && frame <= c.to)
  const changed = (frame: number, lands: boolean) =>
    parts.find((part) => touches(part, frame) === lands && touches(part, frame - 1) !== lands)

  const found: Way[] = []
  let from = -1
  let leaver = parts[0] as ContactPart
  for (let frame = 1; frame < take.length; frame++) {
    const landing = changed(frame, true)
    if (from >= 0 && landing) {
      found.push({ from, to: frame, part: landing })
      from = -1
    }
    const leaving = changed(frame, false)
    if (leaving === undefined) continue
    leaver = leaving
    if (from < 0) from = frame - 1
  }
  return from < 0 ? found : [...found, { from, to: take.length - 1, part: leaver }]
}

interface Way {
  readonly from: number
  readonly to: number
  readonly part: ContactPart
}
