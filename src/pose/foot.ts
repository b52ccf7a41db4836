import { HEEL_TO_BALL, INSTEP_ABOVE, INSTEP_AHEAD, KNEECAP_AHEAD, KNEECAP_DOWN } from '../body/constants'
import type { BodyModel, Side } from '../body/model'
import { along } from '../contact/pads'
import type { ContactKind, ContactSpan } from '../document/contacts'
import { apply, frameFromYZ, fromAngles, type Mat3, multiply } from '../space/rotation'
import { add, addScaled, dot, norm, reject, SHORT, scale, sub, unit, type Vec3 } from '../space/vec'

/** Where a planted knee joint is: above its kneecap's pad and behind it. */
export function kneeJoint(body: BodyModel, side: Side, knee: ContactSpan, ahead: Vec3): Vec3 {
  const radius = 2 * body.segments[`shank${side}`].spread[0]
  return add(
    knee.position,
    add(scale(knee.normal, KNEECAP_DOWN * radius), scale(ahead, -KNEECAP_AHEAD * radius)),
  )
}

/**
 * Which way a kneeling shin points, foot to knee, along the knee's surface: from where the foot bears
 * or is asked to be, else as the kneecap's own heading says.
 */
export function shinAhead(knee: ContactSpan, foot: Vec3): Vec3 {
  const flat = reject(sub(knee.position, foot), knee.normal)
  return norm(flat) < SHORT ? along(knee.normal, knee.heading).ahead : unit(flat)
}

/** Where, in the foot's own frame, each kind of contact bears: (y, z) from the ankle, m. */
export function footPoint(body: BodyModel, kind: ContactKind): { y: number; z: number } {
  const { foot, ankleHeight, heelToAnkle } = body.lengths
  switch (kind) {
    case 'instep':
      return { y: ankleHeight * INSTEP_ABOVE, z: foot * INSTEP_AHEAD }
    case 'sole':
      return { y: -ankleHeight, z: foot / 2 - heelToAnkle }
    default:
      return { y: -ankleHeight, z: foot * HEEL_TO_BALL - heelToAnkle }
  }
}

/**
 * A kneeling shank and foot: the ankle above the line from the knee joint to where the foot bears, in
 * the upright plane of both; the foot turns about it. Where the foot bears too far off or too near, it
 * slides along the ground to the nearest place it can have.
 */
export function kneelingFoot(
  body: BodyModel,
  knee: Vec3,
  pad: ContactSpan,
  ahead: Vec3,
): { ankle: Vec3; rotation: Mat3; slid: number } {
  const { y, z } = footPoint(body, pad.kind)
  const shank = body.lengths.shank
  const reach = Math.hypot(y, z)
  const up = unit(reject(pad.normal, ahead))
  const offset = sub(pad.position, knee)
  const drop = dot(offset, up)
  const asked = -dot(offset, ahead)
  // A foot bearing on its top or its toes is never straight in line with the shin, nor folded onto it.
  const longest = Math.sqrt(Math.max(0, ((shank + reach) * 0.9995) ** 2 - drop * drop))
  const shortest = Math.sqrt(Math.max(0, (Math.hypot(shank, reach) * 0.86) ** 2 - drop * drop))
  const back = Math.min(Math.max(asked, shortest), longest)
  const d = Math.hypot(back, drop)
  const u = (shank * shank - reach * reach + d * d) / (2 * d)
  const v = Math.sqrt(Math.max(0, shank * shank - u * u))
  // Unit vectors in (ahead, up): from the knee to the foot, and square to it on the upper side.
  const [ta, tu] = [-back / d, drop / d]
  const [na, nu] = [tu, -ta]
  const ankle = add(knee, add(scale(ahead, ta * u + na * v), scale(up, tu * u + nu * v)))
  const bearing = add(knee, add(scale(ahead, -back), scale(up, drop)))
  const toPad = sub(bearing, ankle)
  const pitch = Math.atan2(y, z) - Math.atan2(dot(toPad, up), dot(toPad, ahead))
  return {
    ankle,
    rotation: multiply(frameFromYZ(up, ahead), fromAngles({ turn: 0, list: 0, tilt: pitch })),
    slid: asked - back,
  }
}

/** A planted foot with its knee free: the foot's rotation, and the ankle it fixes. */
export function standingFoot(
  body: BodyModel,
  pad: ContactSpan,
  pitch: number,
): { ankle: Vec3; rotation: Mat3 } {
  const { y, z } = footPoint(body, pad.kind)
  const { ahead } = along(pad.normal, pad.heading)
  const tilt = pad.kind === 'sole' ? 0 : pitch
  const rotation = multiply(frameFromYZ(pad.normal, ahead), fromAngles({ turn: 0, list: 0, tilt }))
  return { ankle: sub(pad.position, apply(rotation, [0, y, z])), rotation }
}

/**
 * Heel, ball and toe of a foot. Bearing toes bend to lie along their surface, and the toes of a free
 * foot near the floor bend as far as it makes them, so that neither jumps when the foot leaves.
 */
export function footLandmarks(body: BodyModel, ankle: Vec3, rotation: Mat3, pad: ContactSpan | null) {
  const { foot, ankleHeight, heelToAnkle } = body.lengths
  const ball = add(ankle, apply(rotation, [0, -ankleHeight, foot * HEEL_TO_BALL - heelToAnkle]))
  const heel = add(ankle, apply(rotation, [0, -ankleHeight, -heelToAnkle]))
  const length = foot * (1 - HEEL_TO_BALL)
  const forward = apply(rotation, [0, 0, 1])
  const dorsum = apply(rotation, [0, 1, 0])
  const floor = pad?.kind === 'toes' || pad?.kind === 'ball' ? pad.position[1] : 0
  const room = Math.max(0, ball[1] - floor) / length
  // sin of the angle, up from straight ahead, at which the toes just clear the floor.
  const dip = -forward[1]
  const lift = dip > room ? bendToClear(forward[1], dorsum[1], room) : 0
  const toes = add(scale(forward, Math.cos(lift)), scale(dorsum, Math.sin(lift)))
  return { heel, ball, toe: addScaled(ball, toes, length) }
}

/** The smallest bend, 0 … 120°, that keeps toes pointing down by `forward` above −room. */
function bendToClear(forward: number, dorsum: number, room: number): number {
  const size = Math.hypot(forward, dorsum)
  if (size < 1e-9) return 0
  // forward cos b + dorsum sin b = size sin(b + a)
  const a = Math.atan2(forward, dorsum)
  const bend = Math.asin(Math.max(-1, Math.min(1, -room / size))) - a
  return Math.max(0, Math.min((2 * Math.PI) / 3, bend))
}

/** How far the lowest of heel and ball lies under the floor, m; 0 above it. */
export function underFloor(body: BodyModel, ankle: Vec3, rotation: Mat3): number {
  const { foot, ankleHeight, heelToAnkle } = body.lengths
  const height = (z: number) => ankle[1] + apply(rotation, [0, -ankleHeight, z])[1]
  return Math.max(0, -height(-heelToAnkle), -height(foot * HEEL_TO_BALL - heelToAnkle))
}

/**
 * How far a kneeling leg's pads lie from its knee joint along the ground: the kneecap's ahead, the
 * foot's behind, m. Tucked toes point down and 20° back,
 * an instep lies nearly flat. Ours.
 */
export function kneelReach(
  body: BodyModel,
  side: Side,
  kind: 'toes' | 'instep',
): { kneeAhead: number; footBehind: number } {
  const radius = 2 * body.segments[`shank${side}`].spread[0]
  const { y, z } = footPoint(body, kind)
  const pitch = (kind === 'toes' ? 110 : 172) * (Math.PI / 180)
  // The foot's bearing point from the ankle, ahead and up, at that pitch; toes point backward.
  const turned = {
    ahead: y * Math.sin(pitch) + z * Math.cos(pitch),
    up: y * Math.cos(pitch) - z * Math.sin(pitch),
  }
  const ankleHeight = -turned.up
  const shank = body.lengths.shank
  const level = Math.sqrt(Math.max(0, shank ** 2 - (ankleHeight - KNEECAP_DOWN * radius) ** 2))
  return { kneeAhead: KNEECAP_AHEAD * radius, footBehind: level - turned.ahead }
}
