import { padOutline } from '../../contact/pads'
import type { ContactPart } from '../../document/contacts'
import { limbOf, sideOf } from '../../document/contacts'
import type { ReachedPose } from '../../pose/types'
import { addScaled, distance, sub } from '../../space/vec'
import { inset, nearestIn } from '../../weigh/polygon'
import { contactOf } from '../../weigh/pose'
import { weigh } from '../../weigh/weigh'
import { HAND_PLACES, LEAST_ROOM } from './constants'
import { aheadOf, handSpot, leftOf, outward } from './moves'
import { plumbOf, poseOf } from './region'
import type { Scene, Spot, Still, Transfer } from './types'

/**
 * Places where a free hand could help to free the mover, best first: those that bring the weight nearest to
 * where the others with this hand could hold it, for the least reaching.
 * @param where in front of the midline, or beside it on the lifting side
 * @param release what the mover will take away
 */
export function helpingHands(
  scene: Scene,
  still: Still,
  mover: Transfer['limb'],
  release: readonly ContactPart[],
  where: 'front' | 'side',
): Transfer[] {
  const pose = poseOf(scene, still)
  const side = sideOf(mover)
  if (still.contacts.some(({ part }) => part === `hand${side}`)) return []
  const { stature, lengths } = scene.body
  const shoulder = pose.joints[`shoulder${side}`]
  const [ahead, left] = [aheadOf(pose), leftOf(pose)]
  const outside = Math.max(KNEE_ASIDE, kneeAside(pose, mover) / stature)
  const beside = BESIDE.map(([x, z]) => [x + outside, z] as const)
  const places = (where === 'front' ? FRONT : beside).map(([x, z]) => {
    const over = addScaled(
      addScaled(pose.joints.midHip, left, outward(side) * x * stature),
      ahead,
      z * stature,
    )
    return handSpot(scene, pose, side, [over[0], shoulder[1], over[2]])
  })
  const arm = lengths.upperArm + lengths.forearm
  const rated = places.map((spot) => ({
    spot,
    cost:
      shortOf(scene, pose, release, spot) +
      REACHING * Math.max(0, distance(shoulder, spot.position) - arm) +
      LOW * Math.max(0, pose.joints.midHip[1] - spot.position[1]),
  }))
  return rated
    .filter(({ cost }) => Number.isFinite(cost))
    .sort((a, b) => a.cost - b.cost)
    .slice(0, HAND_PLACES)
    .map(
      ({ spot }): Transfer => ({
        limb: `arm${side}`,
        release: [],
        plant: [spot],
        reach: null,
        ends: 'as-before',
        kind: 'help',
      }),
    )
}

/** How far out the mover's knee is, m. */
function kneeAside(pose: ReachedPose, mover: Transfer['limb']): number {
  const side = sideOf(mover)
  const way = sub(pose.joints[`knee${side}`], pose.joints.midHip)
  const left = leftOf(pose)
  return outward(side) * (way[0] * left[0] + way[2] * left[2])
}
/** Where a knee is that stands under its hip, over H. */
const KNEE_ASIDE = 0.1

/** Over H: to the lifting side, ahead of the hips. */
const FRONT: readonly (readonly [number, number])[] = [0, 0.06, 0.12].flatMap((x) =>
  [0.14, 0.2, 0.26, 0.32].map((z) => [x, z] as const),
)
/** From the knee outward, and ahead of the hips. */
const BESIDE: readonly (readonly [number, number])[] = [0.06, 0.1, 0.15].flatMap((x) =>
  [0.02, 0.1, 0.18].map((z) => [x, z] as const),
)
/** What a metre beyond the arm costs against a metre of weight to shift, and a metre below the hips. */
const REACHING = 1
const LOW = 0.25

/** How far the weight is from where the others and this hand could hold it, m. */
function shortOf(scene: Scene, pose: ReachedPose, release: readonly ContactPart[], spot: Spot): number {
  const side = sideOf(spot.part)
  const pad = {
    ...spot,
    id: spot.part,
    limb: limbOf(spot.part),
    centre: spot.position,
    vertices: padOutline(scene.body, spot.kind, side, spot.position, spot.heading, spot.normal),
  }
  const pads = [...pose.pads.filter(({ part }) => !release.includes(part)), pad]
  const body = { mass: pose.mass, com: pose.com, stature: scene.body.stature, gravity: scene.gravity }
  const { region } = weigh(
    pads.map((one) => contactOf(scene.ground, one)),
    body,
    { ranges: false },
  )
  const inner = inset(region, LEAST_ROOM * scene.body.stature)
  if (inner.length === 0) return Number.POSITIVE_INFINITY
  const at = plumbOf(pose)
  const near = nearestIn(inner, at)
  return Math.hypot(near[0] - at[0], near[1] - at[1])
}
