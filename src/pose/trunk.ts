import type { BodyModel } from '../body/model'
import type { Controls } from '../document/channels'
import { apply, fraction, fromAngles, type Mat3, multiply } from '../space/rotation'
import { add, type Vec3 } from '../space/vec'

/** Rotations of the trunk's parts and the head within the pelvis's frame. */
export interface Spine {
  readonly middle: Mat3
  readonly chest: Mat3
  readonly head: Mat3
}

/** The middle trunk takes half of the chest's rotation to the pelvis, about the same axis. */
export function spine(controls: Controls): Spine {
  const chest = fromAngles({
    turn: controls['chest.turn'],
    list: controls['chest.list'],
    tilt: controls['chest.tilt'],
  })
  const head = fromAngles({
    turn: controls['head.turn'],
    list: controls['head.list'],
    tilt: controls['head.tilt'],
  })
  return {
    middle: fraction(chest, 0.5),
    chest,
    head: multiply(chest, head),
  }
}

/** Joints of the trunk in the pelvis's frame, from the middle of the hip joints, m. */
export function trunkJoints(body: BodyModel, { middle, chest, head }: Spine) {
  const { lengths, hipWidth, shoulderWidth } = body
  const waist: Vec3 = [0, lengths.lowerTrunk, 0]
  const breastbone = add(waist, apply(middle, [0, lengths.middleTrunk, 0]))
  const neck = add(breastbone, apply(chest, [0, lengths.upperTrunk, 0]))
  const shoulder = lengths.shoulderOnUpperTrunk
  return {
    midHip: [0, 0, 0] as Vec3,
    hipL: [hipWidth / 2, 0, 0] as Vec3,
    hipR: [-hipWidth / 2, 0, 0] as Vec3,
    waist,
    breastbone,
    neck,
    crown: add(neck, apply(head, [0, lengths.head, 0])),
    shoulderL: add(breastbone, apply(chest, [shoulderWidth / 2, shoulder, 0])),
    shoulderR: add(breastbone, apply(chest, [-shoulderWidth / 2, shoulder, 0])),
  }
}
