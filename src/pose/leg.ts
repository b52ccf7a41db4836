import type { BodyModel, Side } from '../body/model'
import type { ChannelId, Controls } from '../document/channels'
import { type ContactSpan, contactOfPart } from '../document/contacts'
import { frameFromYZ, fromAngles, type Mat3 } from '../space/rotation'
import { addScaled, distance, sub, unit, type Vec3 } from '../space/vec'
import type { Anchor } from './anchor'
import { footLandmarks, kneeJoint, kneelingFoot, shinAhead, standingFoot, underFloor } from './foot'
import { bendLimb, reachRange } from './limb'
import type { TieLists } from './ties'

/** What a leg's contacts fix before the pelvis is known. */
export interface LegBase {
  readonly side: Side
  readonly knee: ContactSpan | null
  readonly foot: ContactSpan | null
  /** Fixed by a planted kneecap. */
  readonly kneeJoint: Vec3 | null
  /** Fixed by a planted foot or by a planted kneecap and the asked ankle. */
  readonly ankle: Vec3 | null
  readonly footRotation: Mat3
  readonly slid: number
}

const triple = (controls: Controls, [x, y, z]: Places): Vec3 => [controls[x], controls[y], controls[z]]

type Places = readonly [ChannelId, ChannelId, ChannelId]

/** A leg's channels. Names are put together once: they are looked up in every pose. */
const ASKED = {
  L: asked('L'),
  R: asked('R'),
}

function asked(side: Side) {
  const places = (part: 'knee' | 'ankle'): Places => [
    `leg${side}.${part}.x`,
    `leg${side}.${part}.y`,
    `leg${side}.${part}.z`,
  ]
  return {
    knee: places('knee'),
    ankle: places('ankle'),
    pitch: `leg${side}.pitch` as const,
    turn: `leg${side}.turn` as const,
    name: `leg${side}` as const,
  }
}

export function legBase(
  body: BodyModel,
  side: Side,
  controls: Controls,
  contacts: readonly ContactSpan[],
): LegBase {
  const knee = contactOfPart(contacts, 'knee', side)
  const foot = contactOfPart(contacts, 'foot', side)
  const ask = ASKED[side]
  const pitch = controls[ask.pitch]
  if (knee === null) {
    if (foot === null)
      return {
        side,
        knee,
        foot,
        slid: 0,
        kneeJoint: null,
        ankle: null,
        footRotation: freeFoot(controls, side),
      }
    const { ankle, rotation } = standingFoot(body, foot, pitch)
    return { side, knee, foot, slid: 0, kneeJoint: null, ankle, footRotation: rotation }
  }
  const askedAnkle = triple(controls, ask.ankle)
  const ahead = shinAhead(knee, foot?.position ?? askedAnkle)
  const joint = kneeJoint(body, side, knee, ahead)
  if (foot === null) {
    const toAnkle = unit(sub(askedAnkle, joint), [-ahead[0], -ahead[1], -ahead[2]])
    const ankle = addScaled(joint, toAnkle, body.lengths.shank)
    return { side, knee, foot, slid: 0, kneeJoint: joint, ankle, footRotation: freeFoot(controls, side) }
  }
  const { ankle, rotation, slid } = kneelingFoot(body, joint, foot, ahead)
  return { side, knee, foot, slid, kneeJoint: joint, ankle, footRotation: rotation }
}

const freeFoot = (controls: Controls, side: Side): Mat3 =>
  fromAngles({ turn: controls[ASKED[side].turn], list: 0, tilt: controls[ASKED[side].pitch] })

/** Adds what a leg asks of the pelvis. */
export function tieLeg({ rods, ropes }: TieLists, body: BodyModel, base: LegBase, hip: Anchor): void {
  const { thigh, shank } = body.lengths
  const { name } = ASKED[base.side]
  if (base.kneeJoint) rods.push({ name, anchor: hip, target: base.kneeJoint, length: thigh })
  if (base.ankle === null) return
  const { max, easeMax, min, easeMin } = reachRange(thigh, shank, 'leg')
  // With the knee planted the thigh is a rod already; the leg can only fold too far.
  const rod = base.kneeJoint !== null
  const open = Number.POSITIVE_INFINITY
  ropes.push({
    name,
    anchor: hip,
    target: base.ankle,
    max: rod ? open : max,
    easeMax: rod ? open : easeMax,
    min,
    easeMin,
  })
}

export interface ReachedLeg {
  readonly knee: Vec3
  readonly ankle: Vec3
  readonly heel: Vec3
  readonly ball: Vec3
  readonly toe: Vec3
  readonly thighRotation: Mat3
  readonly shankRotation: Mat3
  readonly footRotation: Mat3
  /** How far a planted end was missed, or a free one asked too far, m. */
  readonly over: number
}

/** A leg once its hip is known. */
export function reachLeg(body: BodyModel, base: LegBase, hip: Vec3, controls: Controls): ReachedLeg {
  const { thigh, shank } = body.lengths
  let knee: Vec3
  let ankle: Vec3
  let over = 0
  if (base.kneeJoint && base.ankle) {
    // Exact when the solver met the rod; otherwise the thigh keeps its length and the knee comes off its pad.
    over = distance(hip, base.kneeJoint) - thigh
    knee =
      Math.abs(over) < 1e-9 * body.stature
        ? base.kneeJoint
        : addScaled(hip, unit(sub(base.kneeJoint, hip)), thigh)
    ankle = addScaled(knee, unit(sub(base.ankle, base.kneeJoint)), shank)
  } else {
    const asked =
      base.ankle ?? clearOfFloor(body, triple(controls, ASKED[base.side].ankle), base.footRotation)
    const pole = sub(triple(controls, ASKED[base.side].knee), hip)
    const bent = bendLimb(hip, asked, thigh, shank, pole, 'leg', base.ankle !== null)
    knee = bent.middle
    ankle = bent.end
    over = bent.over
  }
  return {
    knee,
    ankle,
    ...footLandmarks(body, ankle, base.footRotation, base.foot),
    // A knee bends backward: the thigh's front is away from the shank, the shank's where the thigh points.
    thighRotation: frameFromYZ(sub(hip, knee), sub(knee, ankle)),
    shankRotation: frameFromYZ(sub(knee, ankle), sub(knee, hip)),
    footRotation: base.footRotation,
    over,
  }
}

/** A free foot asked to be in the floor is lifted onto it. */
const clearOfFloor = (body: BodyModel, ankle: Vec3, rotation: Mat3): Vec3 => [
  ankle[0],
  ankle[1] + underFloor(body, ankle, rotation),
  ankle[2],
]
