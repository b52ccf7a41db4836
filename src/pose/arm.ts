import type { BodyModel, Side } from '../body/model'
import type { Controls } from '../document/channels'
import type { ContactSpan } from '../document/contacts'
import { aboutAxis, apply, frameFromYZ, type Mat3, multiply } from '../space/rotation'
import { addScaled, distance, reject, scale, sub, unit, type Vec3 } from '../space/vec'
import type { Anchor } from './anchor'
import { headingOfHand, knuckles, type PlantedHand, plantedHand, wristBend } from './hand'
import { type BentLimb, bendLimb, reachRange } from './limb'
import type { TieLists } from './ties'

/** Where an elbow hangs to, in the chest's frame for a left arm: behind, a little down and outward. */
const ELBOW_POLE: Vec3 = [0.5, -0.2, -1]
/** Rounds that settle a fist's lean and its elbow against each other. */
const FIST_ROUNDS = 4

/** Adds what a planted hand asks of the pelvis. */
export function tieArm(
  { ropes }: TieLists,
  body: BodyModel,
  side: Side,
  hand: ContactSpan,
  shoulder: Anchor,
): void {
  // Held upright on its pad, so that what the arm asks doesn't depend on where the pelvis was asked to be.
  const { wrist } = plantedHand(body, hand, hand.normal)
  const { max, easeMax, min, easeMin } = reachRange(body.lengths.upperArm, body.lengths.forearm, 'arm')
  ropes.push({ name: ASKED[side].name, anchor: shoulder, target: wrist, max, easeMax, min, easeMin })
}

export interface ReachedArm {
  readonly elbow: Vec3
  readonly wrist: Vec3
  readonly knuckle: Vec3
  readonly upperArmRotation: Mat3
  readonly forearmRotation: Mat3
  readonly handRotation: Mat3
  readonly bend: number
  readonly over: number
}

/** An arm once its shoulder is known. */
export function reachArm(
  body: BodyModel,
  side: Side,
  hand: ContactSpan | null,
  shoulder: Vec3,
  chest: Mat3,
  controls: Controls,
): ReachedArm {
  return hand === null
    ? freeArm(body, side, shoulder, chest, controls)
    : bearingArm(body, side, hand, shoulder, chest, controls)
}

function bearingArm(
  body: BodyModel,
  side: Side,
  hand: ContactSpan,
  shoulder: Vec3,
  chest: Mat3,
  controls: Controls,
): ReachedArm {
  const ahead = headingOfHand(hand)
  let planted = plantedHand(body, hand, hand.normal, ahead)
  let bent = bendTo(body, side, planted, shoulder, chest, controls)
  for (let round = 0; round < FIST_ROUNDS && hand.kind === 'fist'; round++) {
    const leaning = plantedHand(body, hand, sub(bent.middle, hand.position), ahead)
    const next = bendTo(body, side, leaning, shoulder, chest, controls)
    if (next.over !== 0) break
    planted = leaning
    bent = next
  }
  const forearmRotation = frameFromYZ(sub(bent.middle, bent.end), sub(shoulder, bent.middle))
  return {
    elbow: bent.middle,
    wrist: bent.end,
    knuckle: knuckles(body, bent.end, planted.rotation),
    // An elbow bends forward: the upper arm's front is toward the forearm, the forearm's toward the shoulder.
    upperArmRotation: frameFromYZ(sub(shoulder, bent.middle), sub(bent.end, bent.middle)),
    forearmRotation,
    handRotation: planted.rotation,
    bend: wristBend(forearmRotation, planted.rotation),
    over: bent.over,
  }
}

/** The arm of a planted hand as it stands. */
function bendTo(
  body: BodyModel,
  side: Side,
  { wrist }: PlantedHand,
  shoulder: Vec3,
  chest: Mat3,
  controls: Controls,
): BentLimb {
  const { upperArm, forearm } = body.lengths
  const pole = elbowPole(side, chest, sub(wrist, shoulder), controls)
  return bendLimb(shoulder, wrist, upperArm, forearm, pole, 'arm', true)
}

/** The hand's place is its knuckles'; with the wrist bent, forearm and hand are one bone from elbow to knuckles. */
function freeArm(body: BodyModel, side: Side, shoulder: Vec3, chest: Mat3, controls: Controls): ReachedArm {
  const { upperArm, forearm, hand } = body.lengths
  const bend = controls[ASKED[side].wrist]
  const asked = handTarget(side, controls)
  const reach = reachToKnuckles(forearm, hand, bend)
  const pole = elbowPole(side, chest, sub(asked, shoulder), controls)
  const bent = bendLimb(shoulder, asked, upperArm, reach, pole, 'arm', false)
  const front = scale(bent.side, -1)
  const v = unit(sub(bent.end, bent.middle))
  const beside = unit(reject(front, v))
  const cosine = (forearm + hand * Math.cos(bend)) / reach
  const sine = (hand * Math.sin(bend)) / reach
  const wrist = addScaled(addScaled(bent.middle, v, forearm * cosine), beside, forearm * sine)
  const forearmRotation = frameFromYZ(sub(bent.middle, wrist), sub(shoulder, bent.middle))
  return {
    elbow: bent.middle,
    wrist,
    knuckle: bent.end,
    upperArmRotation: frameFromYZ(sub(shoulder, bent.middle), sub(wrist, bent.middle)),
    forearmRotation,
    handRotation: multiply(forearmRotation, aboutAxis([1, 0, 0], bend)),
    bend,
    over: bent.over,
  }
}

/** Elbow to knuckles with the wrist bent, m. */
export const reachToKnuckles = (forearm: number, hand: number, bend: number): number =>
  Math.sqrt(forearm ** 2 + hand ** 2 + 2 * forearm * hand * Math.cos(bend))

function handTarget(side: Side, controls: Controls): Vec3 {
  const [x, y, z] = ASKED[side].hand
  return [controls[x], controls[y], controls[z]]
}

const asked = <S extends Side>(side: S) => ({
  hand: [`arm${side}.hand.x`, `arm${side}.hand.y`, `arm${side}.hand.z`] as const,
  wrist: `arm${side}.wrist` as const,
  elbow: `arm${side}.elbow` as const,
  name: `arm${side}` as const,
})

/** An arm's channels. Names are put together once: they are looked up in every pose. */
const ASKED = { L: asked('L'), R: asked('R') }

/** The elbow's resting direction swung about the arm's line by the elbow control, outward > 0. */
function elbowPole(side: Side, chest: Mat3, arm: Vec3, controls: Controls): Vec3 {
  const out = side === 'L' ? 1 : -1
  const rest = apply(chest, [ELBOW_POLE[0] * out, ELBOW_POLE[1], ELBOW_POLE[2]])
  const swing = controls[ASKED[side].elbow] * out
  if (swing === 0 || distance(arm, [0, 0, 0]) < 1e-9) return rest
  const axis = unit(arm)
  return apply(aboutAxis(axis, swing), reject(rest, axis))
}
