import type { BodyModel, Side } from '../body/model'
import type { Controls } from '../document/channels'
import type { ContactSpan } from '../document/contacts'
import { frameFromYZ, fromAngles, type Mat3 } from '../space/rotation'
import { addScaled, distance, sub, unit, type Vec3 } from '../space/vec'
import type { Anchor } from './anchor'
import { footLandmarks, kneeJoint, kneelingFoot, shinAhead, standingFoot, underFloor } from './foot'
import { bendLimb, reachRange } from './limb'
import type { Rod, Rope } from './ties'

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

const triple = (controls: Controls, id: `leg${Side}.${'knee' | 'ankle'}`): Vec3 => [
  controls[`${id}.x`],
  controls[`${id}.y`],
  controls[`${id}.z`],
]

export function legBase(
  body: BodyModel,
  side: Side,
  controls: Controls,
  contacts: readonly ContactSpan[],
): LegBase {
  const knee = contacts.find((c) => c.part === `knee${side}`) ?? null
  const foot = contacts.find((c) => c.part === `foot${side}`) ?? null
  const pitch = controls[`leg${side}.pitch`]
  const free = fromAngles({ turn: controls[`leg${side}.turn`], list: 0, tilt: pitch })
  const base = { side, knee, foot, slid: 0 }
  if (knee === null) {
    if (foot === null) return { ...base, kneeJoint: null, ankle: null, footRotation: free }
    const { ankle, rotation } = standingFoot(body, foot, pitch)
    return { ...base, kneeJoint: null, ankle, footRotation: rotation }
  }
  const askedAnkle = triple(controls, `leg${side}.ankle`)
  const ahead = shinAhead(knee, foot?.position ?? askedAnkle)
  const joint = kneeJoint(body, side, knee, ahead)
  if (foot === null) {
    const toAnkle = unit(sub(askedAnkle, joint), [-ahead[0], -ahead[1], -ahead[2]])
    const ankle = addScaled(joint, toAnkle, body.lengths.shank)
    return { ...base, kneeJoint: joint, ankle, footRotation: free }
  }
  const { ankle, rotation, slid } = kneelingFoot(body, joint, foot, ahead)
  return { ...base, kneeJoint: joint, ankle, footRotation: rotation, slid }
}

/** What a leg asks of the pelvis. */
export function legTies(body: BodyModel, base: LegBase, hip: Anchor): { rods: Rod[]; ropes: Rope[] } {
  const { thigh, shank } = body.lengths
  const name = `leg${base.side}`
  const rods: Rod[] = base.kneeJoint ? [{ name, anchor: hip, target: base.kneeJoint, length: thigh }] : []
  if (base.ankle === null) return { rods, ropes: [] }
  const range = reachRange(thigh, shank, 'leg')
  const rope: Rope = { name, anchor: hip, target: base.ankle, ...range }
  // With the knee planted the thigh is a rod already; the leg can only fold too far.
  return base.kneeJoint
    ? { rods, ropes: [{ ...rope, max: Number.POSITIVE_INFINITY, easeMax: Number.POSITIVE_INFINITY }] }
    : { rods, ropes: [rope] }
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
      base.ankle ?? clearOfFloor(body, triple(controls, `leg${base.side}.ankle`), base.footRotation)
    const pole = sub(triple(controls, `leg${base.side}.knee`), hip)
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
