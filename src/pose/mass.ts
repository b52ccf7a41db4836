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
  const segments = {} as Record<SegmentId, Placement>
  const place = (id: SegmentId, origin: Vec3, rotation: Mat3) => {
    segments[id] = { origin, rotation, com: add(origin, apply(rotation, body.segments[id].com)) }
  }
  place('lowerTrunk', joints.midHip, trunk.lowerTrunk)
  place('middleTrunk', joints.waist, trunk.middleTrunk)
  place('upperTrunk', joints.breastbone, trunk.upperTrunk)
  place('head', joints.neck, trunk.head)
  // Names written out: names put together at every pose are looked up slowly.
  place('thighL', joints.hipL, leg.L.thighRotation)
  place('shankL', joints.kneeL, leg.L.shankRotation)
  place('footL', joints.ankleL, leg.L.footRotation)
  place('upperArmL', joints.shoulderL, arm.L.upperArmRotation)
  place('forearmL', joints.elbowL, arm.L.forearmRotation)
  place('handL', joints.wristL, arm.L.handRotation)
  place('thighR', joints.hipR, leg.R.thighRotation)
  place('shankR', joints.kneeR, leg.R.shankRotation)
  place('footR', joints.ankleR, leg.R.footRotation)
  place('upperArmR', joints.shoulderR, arm.R.upperArmRotation)
  place('forearmR', joints.elbowR, arm.R.forearmRotation)
  place('handR', joints.wristR, arm.R.handRotation)
  const parts: Part[] = SEGMENTS.map((id) => ({ mass: body.segments[id].mass, at: segments[id].com }))
  for (const load of loads) parts.push({ mass: load.mass, at: loadPlace(load, joints, segments) })
  const { mass, com } = centreOfMass(parts)
  return { segments, mass, com }
}

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
