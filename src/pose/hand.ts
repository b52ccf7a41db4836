import { FIST_REACH, PALM_HALF_LENGTH, PALM_HEIGHT } from '../body/constants'
import type { BodyModel } from '../body/model'
import { along } from '../contact/pads'
import type { ContactSpan } from '../document/contacts'
import { frameFromYZ, type Mat3 } from '../space/rotation'
import { add, addScaled, dot, scale, sub, unit, type Vec3 } from '../space/vec'
import { FIST_BEND, FIST_SOFT } from './constants'

/**
 * A planted hand on its surface: a palm lies flat with its fingers along the heading, a fist stands on
 * its knuckles and leans toward the forearm so that the wrist stays within about 20° of straight.
 * @param toward a direction from the pad to the forearm's elbow end; the normal leaves the hand upright
 */
export function plantedHand(
  body: BodyModel,
  pad: ContactSpan,
  toward: Vec3,
  ahead = headingOfHand(pad),
): PlantedHand {
  const hand = body.lengths.hand
  if (pad.kind === 'palm') {
    const wrist = add(
      pad.position,
      add(scale(ahead, -PALM_HALF_LENGTH * hand), scale(pad.normal, PALM_HEIGHT * hand)),
    )
    return { wrist, rotation: frameFromYZ(scale(ahead, -1), pad.normal) }
  }
  const lean = leanToward(pad.normal, unit(toward, pad.normal))
  return {
    wrist: addScaled(pad.position, lean, FIST_REACH * hand),
    rotation: frameFromYZ(lean, ahead),
  }
}

/** Where the fingers point: the same however the hand leans. */
export const headingOfHand = (pad: ContactSpan): Vec3 => along(pad.normal, pad.heading).ahead

export interface PlantedHand {
  readonly wrist: Vec3
  /** The hand's frame: +Y to the wrist, the palm to −Z. */
  readonly rotation: Mat3
}

/** `normal` turned toward `toward` by what their angle exceeds the fist's bend, softly begun. */
function leanToward(normal: Vec3, toward: Vec3): Vec3 {
  const angle = Math.acos(Math.max(-1, Math.min(1, dot(normal, toward))))
  const s = Math.sin(angle)
  if (s < 1e-9) return normal
  const excess = angle - FIST_BEND
  const lean = (excess + Math.hypot(excess, FIST_SOFT)) / 2
  return unit(
    add(scale(normal, Math.sin(angle - lean) / s), scale(toward, Math.sin(Math.min(lean, angle)) / s)),
  )
}

/** The knuckles of a hand, and how far it bends at the wrist toward the palm, rad. */
export function wristBend(forearm: Mat3, hand: Mat3): number {
  const y: Vec3 = [hand[1], hand[4], hand[7]]
  const up: Vec3 = [forearm[1], forearm[4], forearm[7]]
  const front: Vec3 = [forearm[2], forearm[5], forearm[8]]
  return Math.atan2(dot(y, front), dot(y, up))
}

export const knuckles = (body: BodyModel, wrist: Vec3, hand: Mat3): Vec3 =>
  sub(wrist, scale([hand[1], hand[4], hand[7]], body.lengths.hand))
