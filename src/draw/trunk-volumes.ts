import { type BodyModel, SIDES } from '../body/model'
import type { Placement, ReachedPose } from '../pose/types'
import { apply } from '../space/rotation'
import { SHAPE } from './constants'
import { halves, out, pair, placed, type Volume, volume } from './volume'

/** Rib cage, belly, pelvis, and the yoke from shoulder to neck. */
export function trunkVolumes(body: BodyModel, { segments }: ReachedPose): Volume[] {
  const { lowerTrunk: low, middleTrunk: mid, upperTrunk: up } = segments
  const { lengths } = body
  const ribs = halves(body, 'upperTrunk')
  const belly = halves(body, 'middleTrunk')
  const neck = neckRadius(body)
  const shoulder = body.shoulderWidth / 2
  // The cage may be no broader than the arms leave it.
  const broad = Math.min(ribs.x, shoulder * SHAPE.cageWithinShoulders)
  const deep = Math.max(ribs.z, SHAPE.leastCageDepth * broad)
  const U = lengths.upperTrunk
  const costal = pair(
    up,
    Math.max(0, broad * 0.84 - deep * 0.86),
    -0.18 * lengths.middleTrunk,
    deep * 0.06,
    deep * 0.86,
  )
  const crest = crestOf(body, low)
  return [
    volume(
      'yoke',
      'trunk',
      'M',
      [
        ...pair(up, shoulder * 0.7, lengths.shoulderOnUpperTrunk + deep * 0.06, -deep * 0.02, deep * 0.36),
        [placed(up, [0, U * 1.03, -neck * 0.3]), neck * 0.66],
      ],
      { joins: ['ribs', 'neck', 'upperArmL', 'upperArmR'], frame: up.rotation, bias: -0.1 * deep },
    ),
    volume(
      'ribs',
      'trunk',
      'M',
      [
        ...pair(
          up,
          broad * 0.42,
          Math.min(U * 0.7, lengths.shoulderOnUpperTrunk) - deep * 0.3,
          -deep * 0.04,
          deep * 0.66,
        ),
        ...pair(up, Math.max(0, broad - deep), U * 0.34, deep * 0.1, deep),
        ...costal,
      ],
      { joins: ['belly', 'yoke', 'neck'], seam: 'soft', frame: up.rotation },
    ),
    volume(
      'belly',
      'trunk',
      'M',
      [
        ...costal.map(([c, r]) => [c, r * 0.9] as const),
        ...pair(
          mid,
          Math.max(0, belly.x * 0.94 - belly.z * 0.9),
          lengths.middleTrunk * 0.35,
          belly.z * 0.1,
          belly.z * 0.9,
        ),
        ...crest.map(([c, r]) => [c, r * 0.98] as const),
      ],
      { joins: ['ribs', 'pelvis'], frame: mid.rotation, bias: -0.35 * deep },
    ),
    pelvisVolume(body, low),
    volume(
      'neck',
      'head',
      'M',
      [
        [placed(up, [0, U * 0.9, -neck * 0.3]), neck * 1.04],
        [placed(segments.head, [0, lengths.head * 0.36, -neck * 0.02]), neck * 0.94],
      ],
      { joins: ['ribs', 'yoke'], frame: segments.head.rotation, bias: -0.3 * deep },
    ),
  ]
}

/** The spheres of the pelvis's upper rim. */
function crestOf(body: BodyModel, low: Placement) {
  const hips = halves(body, 'lowerTrunk')
  return pair(low, Math.max(0, hips.x * 1.1 - hips.z * 0.74), body.lengths.lowerTrunk * 0.5, 0, hips.z * 0.74)
}

export function pelvisVolume(body: BodyModel, low: Placement): Volume {
  const hips = halves(body, 'lowerTrunk')
  const L = body.lengths.lowerTrunk
  const breadth = Math.max(hips.x, body.hipWidth / 2 + halves(body, 'thighL').x * 0.62)
  return volume(
    'pelvis',
    'trunk',
    'M',
    [
      ...crestOf(body, low),
      ...pair(low, Math.max(0, breadth - hips.z * 0.86), L * 0.02, -hips.z * 0.08, hips.z * 0.86),
      ...pair(low, body.hipWidth * 0.28, -L * 0.2, -hips.z * 0.34, hips.z * 0.74),
      ...pair(low, body.hipWidth * 0.1, -L * 0.34, hips.z * 0.08, hips.z * 0.5),
    ],
    { joins: ['belly', 'thighL', 'thighR'], seam: 'soft', frame: low.rotation },
  )
}

const neckRadius = (body: BodyModel) => {
  const { x, z } = halves(body, 'head')
  return (x + z) * 0.5 * SHAPE.neckOverHead
}

/** Skull and jaw, brow and nose. */
export function headVolumes(body: BodyModel, { segments }: ReachedPose): Volume[] {
  const { head } = segments
  const { x, z } = halves(body, 'head')
  const H = body.lengths.head
  const r = (x + z) / 2
  const top = H - r * 0.98
  const brow = top + r * 0.06
  const frame = head.rotation
  return [
    volume(
      'skull',
      'head',
      'M',
      [
        [placed(head, [0, top, -z * 0.12]), r * 0.98],
        [placed(head, [0, top - r * 0.1, z * 0.12]), r * 0.92],
        ...pair(head, x * 0.26, H * 0.3, z * 0.42, r * 0.36),
        ...pair(head, x * 0.46, H * 0.4, z * 0.0, r * 0.44),
      ],
      { joins: [], frame },
    ),
    volume('brow', 'head', 'M', pair(head, x * 0.6, brow, z * 0.74, r * 0.2), {
      joins: ['skull'],
      frame,
      pull: apply(frame, [0, -1, 0]),
      bias: 0.2 * r,
      pen: 0.75,
    }),
    volume(
      'nose',
      'head',
      'M',
      [
        [placed(head, [0, brow - r * 0.06, z * 0.94]), r * 0.13],
        [placed(head, [0, brow - r * 0.58, z * 1.12]), r * 0.19],
        [placed(head, [0, brow - r * 0.64, z * 0.98]), r * 0.2],
      ],
      { joins: ['brow', 'skull'], frame, pull: apply(frame, [-0.7, -0.7, 0]), bias: 0.35 * r, pen: 0.8 },
    ),
    ...SIDES.map((side) =>
      volume(
        `ear${side}`,
        'head',
        side,
        [
          [placed(head, [out(side) * r * 0.92, brow - r * 0.24, -z * 0.06]), r * 0.15],
          [placed(head, [out(side) * r * 0.88, brow - r * 0.46, 0]), r * 0.11],
        ],
        { joins: [], bias: 0, pen: 0.7 },
      ),
    ),
  ]
}
