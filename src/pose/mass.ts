import { type BodyModel, SEGMENTS, type SegmentId, SIDES, type Side } from '../body/model'
import type { CarriedLoad, LoadPlace } from '../document/plan'
import { apply, type Mat3 } from '../space/rotation'
import { add, addScaled, lerp, scale, type Vec3, ZERO } from '../space/vec'
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
  for (const s of SIDES) {
    place(`thigh${s}`, joints[`hip${s}`], leg[s].thighRotation)
    place(`shank${s}`, joints[`knee${s}`], leg[s].shankRotation)
    place(`foot${s}`, joints[`ankle${s}`], leg[s].footRotation)
    place(`upperArm${s}`, joints[`shoulder${s}`], arm[s].upperArmRotation)
    place(`forearm${s}`, joints[`elbow${s}`], arm[s].forearmRotation)
    place(`hand${s}`, joints[`wrist${s}`], arm[s].handRotation)
  }
  return {
    segments,
    ...centreOfMass([
      ...SEGMENTS.map((id) => ({ mass: body.segments[id].mass, at: segments[id].com })),
      ...loads.map((load) => ({ mass: load.mass, at: loadPlace(load, joints, segments) })),
    ]),
  }
}

/** Total mass and centre of several masses. */
export function centreOfMass(parts: readonly { readonly mass: number; readonly at: Vec3 }[]): {
  mass: number
  com: Vec3
} {
  let mass = 0
  let moment: Vec3 = ZERO
  for (const part of parts) {
    mass += part.mass
    moment = addScaled(moment, part.at, part.mass)
  }
  return { mass, com: scale(moment, 1 / mass) }
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
