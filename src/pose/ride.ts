import { SIDES, type Side } from '../body/model'
import type { ChannelId, Controls } from '../document/channels'
import type { ContactSpan } from '../document/contacts'
import { apply, fromAngles, type Mat3, multiply, toAngles, transpose } from '../space/rotation'
import { add, sub, type Vec3 } from '../space/vec'
import type { Placement, ReachedPose } from './types'

/**
 * Controls whose free arms have been carried along by the chest and whose free legs by the pelvis,
 * rigidly, from one pose to another.
 * @param controls what else is asked; only free limbs' places and free feet's angles are replaced
 * @param asked the controls of `start`
 */
export function ride(
  controls: Controls,
  asked: Controls,
  contacts: readonly ContactSpan[],
  start: ReachedPose,
  now: ReachedPose,
): Controls {
  const chest = motionOf(start.segments.upperTrunk, now.segments.upperTrunk)
  const pelvis = motionOf(start.segments.lowerTrunk, now.segments.lowerTrunk)
  const held = (part: 'hand' | 'knee' | 'foot', side: Side) =>
    contacts.some((c) => c.part === `${part}${side}`)
  const carried: Partial<Record<ChannelId, number>> = {}
  const carry = (id: `arm${Side}.hand` | `leg${Side}.${'knee' | 'ankle'}`, move: (p: Vec3) => Vec3) => {
    const [x, y, z] = move([asked[`${id}.x`], asked[`${id}.y`], asked[`${id}.z`]])
    carried[`${id}.x`] = x
    carried[`${id}.y`] = y
    carried[`${id}.z`] = z
  }
  for (const side of SIDES) {
    if (!held('hand', side)) carry(`arm${side}.hand`, chest.move)
    if (held('knee', side) || held('foot', side)) continue
    carry(`leg${side}.knee`, pelvis.move)
    carry(`leg${side}.ankle`, pelvis.move)
    Object.assign(carried, turnedFoot(asked, side, pelvis.turn))
  }
  return { ...controls, ...carried }
}

function motionOf(before: Placement, after: Placement): { turn: Mat3; move: (p: Vec3) => Vec3 } {
  const turn = multiply(after.rotation, transpose(before.rotation))
  return { turn, move: (p) => add(after.origin, apply(turn, sub(p, before.origin))) }
}

/** A foot's pitch and turn after a rotation of the whole leg; what would be its list is left out. */
function turnedFoot(asked: Controls, side: Side, turn: Mat3): Partial<Controls> {
  const before = { turn: asked[`leg${side}.turn`], list: 0, tilt: asked[`leg${side}.pitch`] }
  const after = toAngles(multiply(turn, fromAngles(before)))
  const nearest = (angle: number) => Math.atan2(Math.sin(angle), Math.cos(angle))
  return {
    [`leg${side}.pitch`]: before.tilt + nearest(after.tilt - before.tilt),
    [`leg${side}.turn`]: before.turn + nearest(after.turn - before.turn),
  }
}
