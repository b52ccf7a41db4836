import { HIP_WIDTH, NATURAL_MASS, NATURAL_STATURE } from './constants'
import { makeBody } from './model'
import { type BodySpec, SHAPES, type Shape } from './spec'
import { DRILLIS_CONTINI } from './tables'

/**
 * Presets of our own, from child to giant. Their proportions are invented; what the table gives for
 * them is not.
 */
export const BUILDS: readonly Build[] = [
  build('adult', 'Grown person', { stature: 1.75 }),
  build('child', 'Child', {
    stature: 1.15,
    length: { head: 1.5, thigh: 0.9, shank: 0.9, upperArm: 0.92, forearm: 0.92 },
    bulk: { head: 1.3 },
  }),
  build('mason', 'Stone-troll mason', {
    stature: 2.6,
    mass: 420,
    hips: 1.3,
    shoulders: 1.12,
    length: { upperArm: 1.15, forearm: 1.2, hand: 1.4, thigh: 0.88, shank: 0.88, foot: 1.1 },
    bulk: { trunk: 1.15, upperArm: 1.35, forearm: 1.45, hand: 1.4, head: 0.9 },
  }),
  build('giant', 'Giant of 6 m', {
    stature: 6,
    hips: 1.15,
    shoulders: 1.15,
    length: { head: 0.8 },
    bulk: { trunk: 1.15, thigh: 1.1, shank: 1.1, upperArm: 1.1, forearm: 1.1 },
  }),
  build('barrel', 'Huge chest, small feet', {
    stature: 2.1,
    shoulders: 1.45,
    hips: 0.9,
    length: { trunk: 1.2, thigh: 0.75, shank: 0.75, foot: 0.65, upperArm: 1.1 },
    bulk: { trunk: 1.6, upperArm: 1.4, forearm: 1.3, thigh: 0.85, shank: 0.75, foot: 0.7 },
  }),
  build('longarms', 'Long arms', {
    stature: 1.9,
    shoulders: 1.1,
    length: { upperArm: 1.45, forearm: 1.45, hand: 1.25, thigh: 0.85, shank: 0.85 },
  }),
  build('round', 'Round one of 1.2 m', {
    stature: 1.2,
    hips: 1.5,
    shoulders: 1.15,
    length: { head: 1.9, thigh: 0.6, shank: 0.6, upperArm: 0.8, forearm: 0.8, foot: 1.1 },
    bulk: { trunk: 1.9, head: 1.8, thigh: 1.4, shank: 1.3, upperArm: 1.2, forearm: 1.2 },
  }),
]

export interface Build {
  readonly id: string
  readonly name: string
  readonly spec: BodySpec
}

/** Eight lengths of a rig, in the rig's own units. */
export interface RigLengths {
  readonly hipToHip: number
  readonly hipToKnee: number
  readonly kneeToAnkle: number
  readonly foot: number
  readonly shoulderToShoulder: number
  readonly upperArm: number
  readonly forearmToKnuckle: number
  readonly hipToCrown: number
}

/**
 * The spec of a body with a rig's lengths: joint centre to joint centre, heel to toe for the foot,
 * wrist included in forearm to knuckle, hip joint to crown measured upright.
 * @param unitsPerMetre scene units in one metre (100 for a scene in centimetres); must be > 0
 * @param bulk thickness over the table's for every part; the mass is the natural one for it
 */
export function fromRig(rig: RigLengths, unitsPerMetre: number, bulk = 1): BodySpec {
  const metres = (value: number) => value / unitsPerMetre
  const table = makeBody(plain(1)).lengths
  const stature = metres(rig.hipToKnee + rig.kneeToAnkle + rig.hipToCrown) / (1 - table.ankleHeight)
  const over = (value: number, tableLength: number) => metres(value) / (tableLength * stature)
  const spine = over(rig.hipToCrown, hipToCrown(table))
  const forearm = over(rig.forearmToKnuckle, table.forearm + table.hand)
  return withNaturalMass({
    ...plain(stature),
    hipWidth: metres(rig.hipToHip),
    shoulderWidth: metres(rig.shoulderToShoulder),
    length: {
      head: spine,
      trunk: spine,
      upperArm: over(rig.upperArm, table.upperArm),
      forearm,
      hand: forearm,
      thigh: over(rig.hipToKnee, table.thigh),
      shank: over(rig.kneeToAnkle, table.shank),
      foot: over(rig.foot, table.foot),
    },
    bulk: every(bulk),
  })
}

/** The eight lengths of a body, in scene units: what `fromRig` would take to give it back. */
export function toRig(spec: BodySpec, unitsPerMetre: number): RigLengths {
  const { lengths } = makeBody(spec)
  const units = (metres: number) => metres * unitsPerMetre
  return {
    hipToHip: units(spec.hipWidth),
    hipToKnee: units(lengths.thigh),
    kneeToAnkle: units(lengths.shank),
    foot: units(lengths.foot),
    shoulderToShoulder: units(spec.shoulderWidth),
    upperArm: units(lengths.upperArm),
    forearmToKnuckle: units(lengths.forearm + lengths.hand),
    hipToCrown: units(hipToCrown(lengths)),
  }
}

/** 75 kg × (H / 1.75 m)³ × the parts' volume over the table's (length × bulk² of each). Ours. */
export function naturalMass(spec: BodySpec): number {
  return NATURAL_MASS * (spec.stature / NATURAL_STATURE) ** 3 * makeBody(spec).volume
}

function withNaturalMass(spec: BodySpec): BodySpec {
  return { ...spec, mass: naturalMass(spec) }
}

/** The same body at another stature; widths go along, mass with the cube. */
export function resized(spec: BodySpec, stature: number): BodySpec {
  const s = stature / spec.stature
  return {
    ...spec,
    stature,
    mass: spec.mass * s ** 3,
    hipWidth: spec.hipWidth * s,
    shoulderWidth: spec.shoulderWidth * s,
  }
}

const hipToCrown = (l: { lowerTrunk: number; middleTrunk: number; upperTrunk: number; head: number }) =>
  l.lowerTrunk + l.middleTrunk + l.upperTrunk + l.head

function every(value: number): Record<Shape, number> {
  return Object.fromEntries(SHAPES.map((shape) => [shape, value])) as Record<Shape, number>
}

/** The table's own proportions, sexes blended evenly. */
function plain(stature: number): BodySpec {
  return {
    stature,
    mass: NATURAL_MASS * (stature / NATURAL_STATURE) ** 3,
    blend: 0.5,
    hipWidth: HIP_WIDTH * stature,
    shoulderWidth: 2 * DRILLIS_CONTINI.halfShoulder * stature,
    length: every(1),
    bulk: every(1),
  }
}

interface BuildOptions {
  stature: number
  mass?: number
  hips?: number
  shoulders?: number
  length?: Partial<Record<Shape, number>>
  bulk?: Partial<Record<Shape, number>>
}

function build(id: string, name: string, o: BuildOptions): Build {
  const base = plain(o.stature)
  const spec: BodySpec = {
    ...base,
    hipWidth: base.hipWidth * (o.hips ?? 1),
    shoulderWidth: base.shoulderWidth * (o.shoulders ?? 1),
    length: { ...base.length, ...o.length },
    bulk: { ...base.bulk, ...o.bulk },
  }
  return { id, name, spec: o.mass === undefined ? withNaturalMass(spec) : { ...spec, mass: o.mass } }
}
