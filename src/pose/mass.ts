import { type BodyModel, SEGMENTS, type SegmentId, type Side } from '../body/model'
import type { CarriedLoad, LoadPlace } from '../document/plan'
import { apply, type Mat3 } from '../space/rotation'
import { add, lerp, type Vec3 } from '../space/vec'
import type { ReachedArm } from './arm'
import type { ReachedLeg } from './leg'
import type { Joints, Placement } from './types'

type Trunk = Readonly<Record<'lowerTrunk' | 'middleTrunk' | 'upperTrunk' | 'head', Mat3>>

/** Where every segment is, and the whole's mass (kg) and centre (world, m), carried loads included. */
export function massOf(
  body: BodyModel,
  joints: Joints,
  trunk: Trunk,
  leg: Readonly<Record<Side, ReachedLeg>>,
  arm: Readonly<Record<Side, ReachedArm>>,
  loads: readonly CarriedLoad[],
) {
  // Names written out: names put together at every pose are looked up slowly.
  const own = body.segments
  const segments: Record<SegmentId, Placement> = {
    lowerTrunk: placed(own.lowerTrunk.com, joints.midHip, trunk.lowerTrunk),
    middleTrunk: placed(own.middleTrunk.com, joints.waist, trunk.middleTrunk),
    upperTrunk: placed(own.upperTrunk.com, joints.breastbone, trunk.upperTrunk),
    head: placed(own.head.com, joints.neck, trunk.head),
    thighL: placed(own.thighL.com, joints.hipL, leg.L.thighRotation),
    shankL: placed(own.shankL.com, joints.kneeL, leg.L.shankRotation),
    footL: placed(own.footL.com, joints.ankleL, leg.L.footRotation),
    upperArmL: placed(own.upperArmL.com, joints.shoulderL, arm.L.upperArmRotation),
    forearmL: placed(own.forearmL.com, joints.elbowL, arm.L.forearmRotation),
    handL: placed(own.handL.com, joints.wristL, arm.L.handRotation),
    thighR: placed(own.thighR.com, joints.hipR, leg.R.thighRotation),
    shankR: placed(own.shankR.com, joints.kneeR, leg.R.shankRotation),
    footR: placed(own.footR.com, joints.ankleR, leg.R.footRotation),
    upperArmR: placed(own.upperArmR.com, joints.shoulderR, arm.R.upperArmRotation),
    forearmR: placed(own.forearmR.com, joints.elbowR, arm.R.forearmRotation),
    handR: placed(own.handR.com, joints.wristR, arm.R.handRotation),
  }
  const parts: Part[] = SEGMENTS.map((id) => ({ mass: body.segments[id].mass, at: segments[id].com }))
  for (const load of loads) parts.push({ mass: load.mass, at: loadPlace(load, joints, segments) })
  const { mass, com } = centreOfMass(parts)
  return { segments, mass, com }
}

const placed = (com: Vec3, origin: Vec3, rotation: Mat3): Placement => ({
  rotation,
  origin,
  com: add(origin, apply(rotation, com)),
})

interface Part {
  /** kg */
  readonly mass: number
  readonly at: Vec3
}

/** Total mass and centre of several masses. */
export function centreOfMass(parts: readonly Part[]): { mass: number; com: Vec3 } {
  let [mass, x, y, z] = [0, 0, 0, 0]
  for (const part of parts) {
    mass += part.mass
    x += part.mass * part.at[0]
    y += part.mass * part.at[1]
    z += part.mass * part.at[2]
  }
  return { mass, com: [x / mass, y / mass, z / mass] }
}

/** Where a carried load's centre is, world, m. */
export function loadPlace(
  load: Pick<CarriedLoad, 'on' | 'offset'>,
  joints: Joints,
  segments: Readonly<Record<SegmentId, Placement>>,
): Vec3 {
  const hold: Record<LoadPlace, readonly [Vec3, SegmentId]> = {
    handL: [joints.knuckleL, 'handL'],
    handR: [joints.knuckleR, 'handR'],
    hands: [lerp(joints.knuckleL, joints.knuckleR, 0.5), 'upperTrunk'],
    back: [joints.breastbone, 'upperTrunk'],
    head: [joints.crown, 'head'],
    hips: [joints.waist, 'lowerTrunk'],
  }
  const [at, part] = hold[load.on]
  return add(at, apply(segments[part].rotation, load.offset))
}
