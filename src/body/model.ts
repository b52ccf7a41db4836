import type { Vec3 } from '../space/vec'
import { HEEL_TO_ANKLE } from './constants'
import type { BodySpec, Shape } from './spec'
import { DE_LEVA, type Part, SHOULDER_HEIGHT_ON_TRUNK, TABLE_STATURE, type TableRow } from './tables'

/**
 * A body made from its spec: lengths in m, masses in kg, inertia in kg m².
 *
 * Every segment has a frame of its own whose origin is the joint it hangs from, and whose axes are the
 * world's when the body stands upright with its arms down (+X left, +Y up, +Z forward).
 */
export function makeBody(spec: BodySpec): BodyModel {
  const rows = blendedRows(spec.blend)
  const factor = (part: Part) => spec.length[shapeOf(part)]
  const stack = STACK.map((part) => rows[part].length * factor(part))
  const ankleFraction = 1 - sum(STACK.map((part) => rows[part].length))
  const fit = spec.stature / (ankleFraction + sum(stack))
  const length = mapParts((part) => rows[part].length * factor(part) * fit)

  const rawMass = mapParts((part) => {
    const bulk = spec.bulk[shapeOf(part)]
    return rows[part].mass * (length[part] / (rows[part].length * spec.stature)) * bulk * bulk
  })
  const total = sum(SEGMENTS.map((id) => rawMass[partOf(id)]))
  const toKilograms = spec.mass / total

  const trunk = length.lowerTrunk + length.middleTrunk + length.upperTrunk
  const lengths: Lengths = {
    ...length,
    ankleHeight: ankleFraction * fit,
    heelToAnkle: length.foot * HEEL_TO_ANKLE,
    shoulderOnUpperTrunk: trunk * shoulderFraction(spec.blend) - length.lowerTrunk - length.middleTrunk,
  }
  const segments = Object.fromEntries(
    SEGMENTS.map((id) => {
      const part = partOf(id)
      const bulk = spec.bulk[shapeOf(part)]
      return [id, segment(part, rows[part], rawMass[part] * toKilograms, lengths, bulk * spec.stature)]
    }),
  ) as Record<SegmentId, Segment>
  return {
    stature: spec.stature,
    mass: spec.mass,
    volume: total,
    hipWidth: spec.hipWidth,
    shoulderWidth: spec.shoulderWidth,
    lengths,
    segments,
  }
}

export type Side = 'L' | 'R'
export const SIDES: readonly Side[] = ['L', 'R']

export type SegmentId =
  | 'head'
  | 'upperTrunk'
  | 'middleTrunk'
  | 'lowerTrunk'
  | `${'upperArm' | 'forearm' | 'hand' | 'thigh' | 'shank' | 'foot'}${Side}`

export const SEGMENTS: readonly SegmentId[] = [
  'lowerTrunk',
  'middleTrunk',
  'upperTrunk',
  'head',
  'upperArmL',
  'forearmL',
  'handL',
  'upperArmR',
  'forearmR',
  'handR',
  'thighL',
  'shankL',
  'footL',
  'thighR',
  'shankR',
  'footR',
]

export interface Segment {
  readonly mass: number
  readonly length: number
  /** Centre of mass in the segment's own frame, m. */
  readonly com: Vec3
  /** Principal moments about the centre of mass and the segment's own x, y, z, kg m². */
  readonly inertia: Vec3
  /** Standard deviation of the mass along x, y, z, m: a uniform cylinder of radius r has r/2 across. */
  readonly spread: Vec3
}

export interface Lengths extends Readonly<Record<Part, number>> {
  /** Ankle joint above the sole: what the stacked segments leave of the stature. */
  readonly ankleHeight: number
  readonly heelToAnkle: number
  /** Middle of the shoulder joints above the upper trunk's lower end. */
  readonly shoulderOnUpperTrunk: number
}

export interface BodyModel {
  readonly stature: number
  readonly mass: number
  /** Volume over that of the table's body of the same stature. */
  readonly volume: number
  readonly hipWidth: number
  readonly shoulderWidth: number
  readonly lengths: Lengths
  readonly segments: Readonly<Record<SegmentId, Segment>>
}

/** The table's part of a segment: 'thighL' → 'thigh'. */
export const partOf = (id: SegmentId): Part => id.replace(/[LR]$/, '') as Part

/** The shape whose factors a table part takes. */
const shapeOf = (part: Part): Shape =>
  part === 'upperTrunk' || part === 'middleTrunk' || part === 'lowerTrunk' ? 'trunk' : part

const STACK: readonly Part[] = ['shank', 'thigh', 'lowerTrunk', 'middleTrunk', 'upperTrunk', 'head']

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0)

const PARTS = Object.keys(DE_LEVA) as Part[]
const mapParts = (f: (part: Part) => number) =>
  Object.fromEntries(PARTS.map((part) => [part, f(part)])) as Record<Part, number>

/** Table rows for a blend of the sexes; lengths over stature, mass, centre and radii as fractions. */
function blendedRows(blend: number): Record<Part, TableRow> {
  const mix = (male: number, female: number) => male * blend + female * (1 - blend)
  return Object.fromEntries(
    PARTS.map((part) => {
      const { male, female } = DE_LEVA[part]
      const radius = (i: 0 | 1 | 2) => mix(male.radii[i], female.radii[i]) / 100
      return [
        part,
        {
          mass: mix(male.mass, female.mass) / 100,
          length: mix(male.length / TABLE_STATURE.male, female.length / TABLE_STATURE.female),
          centre: mix(male.centre, female.centre) / 100,
          radii: [radius(0), radius(1), radius(2)],
        },
      ]
    }),
  ) as unknown as Record<Part, TableRow>
}

/** Height of the shoulder joints' middle over the whole trunk's length. */
function shoulderFraction(blend: number): number {
  const of = (sex: 'male' | 'female') =>
    SHOULDER_HEIGHT_ON_TRUNK[sex] /
    (DE_LEVA.upperTrunk[sex].length + DE_LEVA.middleTrunk[sex].length + DE_LEVA.lowerTrunk[sex].length)
  return of('male') * blend + of('female') * (1 - blend)
}

/**
 * Mass, centre and inertia of one segment. The three radii of gyration give the spread of the mass
 * along the segment and across it (k_sag² = σ_side² + σ_long² and so on); the spread along goes with
 * the length, the spread across with the bulk, so that a thicker limb turns harder about its own axis.
 */
function segment(part: Part, row: TableRow, mass: number, lengths: Lengths, across: number): Segment {
  const length = lengths[part]
  const [sag, trans, long] = row.radii.map((k) => k * k) as [number, number, number]
  const along = length * Math.sqrt((sag + trans - long) / 2)
  const side = row.length * across * Math.sqrt((sag + long - trans) / 2)
  const depth = row.length * across * Math.sqrt((trans + long - sag) / 2)
  const spread: Vec3 = part === 'foot' ? [side, depth, along] : [side, along, depth]
  const [x2, y2, z2] = spread.map((s) => s * s) as [number, number, number]
  return {
    mass,
    length,
    com: centre(part, row.centre, lengths),
    inertia: [mass * (y2 + z2), mass * (x2 + z2), mass * (x2 + y2)],
    spread,
  }
}

/** Centre of mass in the segment's own frame: trunk and head stand on their lower end, limbs hang. */
function centre(part: Part, fromFirstEnd: number, lengths: Lengths): Vec3 {
  const length = lengths[part]
  if (part === 'foot') return [0, -lengths.ankleHeight / 2, length * fromFirstEnd - lengths.heelToAnkle]
  const stands = shapeOf(part) === 'trunk' || part === 'head'
  return [0, stands ? length * (1 - fromFirstEnd) : -length * fromFirstEnd, 0]
}
