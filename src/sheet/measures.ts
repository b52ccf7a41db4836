import { type BodyModel, SIDES, type Side } from '../body/model'
import type { ReachedPose } from '../pose/types'
import { toAngles } from '../space/rotation'
import { reject, sub, unit, type Vec3 } from '../space/vec'
import { STRAIGHT_WITHIN } from './constants'
import { bodyAxes } from './directions'
import type { ElbowWay, HandRow, LeanRow, PelvisRow, SegmentRow, ThighRow } from './types'

/**
 * What a sheet says of a pose in lengths and angles, but for its loads.
 * @param first the pose of the first frame, from which travel is measured; it also gives the heading whose
 *   sides are left and right, forward and back
 */
export function measuresOf(
  body: BodyModel,
  first: ReachedPose,
  pose: ReachedPose,
): {
  pelvis: PelvisRow
  thighs: Record<Side, ThighRow>
  chest: SegmentRow
  head: SegmentRow
  hands: Record<Side, HandRow>
} {
  const heading = headingOf(first)
  return {
    pelvis: pelvisOf(first, pose, heading),
    thighs: both((side) => thighOf(pose, side, heading)),
    chest: segmentOf(pose, 'chest'),
    head: segmentOf(pose, 'head'),
    hands: both((side) => handOf(body, pose, side)),
  }
}

/** Which way the pelvis faces, rad about the vertical from +Z, to the body's left > 0. */
export const headingOf = (pose: ReachedPose): number => toAngles(pose.segments.lowerTrunk.rotation).turn

const both = <T>(f: (side: Side) => T): Record<Side, T> => ({ L: f('L'), R: f('R') })

function pelvisOf(first: ReachedPose, pose: ReachedPose, heading: number): PelvisRow {
  const [side, up, fore] = bodyAxes(heading, sub(pose.joints.midHip, first.joints.midHip))
  const { list, turn } = toAngles(pose.segments.lowerTrunk.rotation)
  return { side, up, fore, list, turn }
}

function thighOf({ joints }: ReachedPose, thigh: Side, heading: number): ThighRow {
  const [side, up, fore] = bodyAxes(heading, unit(sub(joints[`hip${thigh}`], joints[`knee${thigh}`])))
  return {
    angle: Math.atan2(Math.hypot(side, fore), up),
    side: Math.atan2(side, up),
    fore: Math.atan2(fore, up),
  }
}

function segmentOf({ segments, reached }: ReachedPose, part: 'chest' | 'head'): SegmentRow {
  const world = toAngles(segments[part === 'chest' ? 'upperTrunk' : 'head'].rotation)
  return {
    world: lean(world.list, world.tilt, world.turn),
    parent: lean(reached[`${part}.list`], reached[`${part}.tilt`], reached[`${part}.turn`]),
  }
}

/** A list raises the left side, so the upper end leans to the right. */
const lean = (list: number, tilt: number, turn: number): LeanRow => ({ side: list, fore: tilt, turn })

function handOf(body: BodyModel, pose: ReachedPose, side: Side): HandRow {
  const shoulder = pose.joints[`shoulder${side}`]
  const elbow = pose.joints[`elbow${side}`]
  const wrist = pose.joints[`wrist${side}`]
  const { upperArm, forearm } = body.lengths
  const reach = Math.hypot(...sub(wrist, shoulder))
  const cosine = (upperArm ** 2 + forearm ** 2 - reach ** 2) / (2 * upperArm * forearm)
  const elbowBend = Math.PI - Math.acos(Math.max(-1, Math.min(1, cosine)))
  const beside = reject(sub(elbow, shoulder), unit(sub(wrist, shoulder)))
  const chest = toAngles(pose.segments.upperTrunk.rotation).turn
  const pad = pose.pads.find((p) => p.part === `hand${side}`)
  return {
    elbow: elbowBend < STRAIGHT_WITHIN ? null : elbowWay(bodyAxes(chest, beside), side),
    elbowBend,
    wrist: pose.reached[`arm${side}.wrist`],
    fingers: pad === undefined ? 'free' : pad.kind === 'fist' ? 'fist' : 'flat',
  }
}

function elbowWay([left, up, fore]: Vec3, side: Side): ElbowWay {
  const out = side === 'L' ? left : -left
  const most = Math.max(Math.abs(out), Math.abs(up), Math.abs(fore))
  if (Math.abs(out) === most) return out > 0 ? 'out' : 'in'
  if (Math.abs(fore) === most) return fore > 0 ? 'forward' : 'back'
  return up > 0 ? 'up' : 'down'
}

/** The legs' supports at the first frame: a kneecap where one is down, else what of the foot is. */
export function legSupports(pose: ReachedPose) {
  return SIDES.map(
    (side) =>
      pose.pads.find((pad) => pad.part === `knee${side}`) ??
      pose.pads.find((pad) => pad.part === `foot${side}`),
  )
}
