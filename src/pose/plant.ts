import { FIST_REACH, KNEECAP_AHEAD, PALM_HALF_LENGTH } from '../body/constants'
import type { BodyModel } from '../body/model'
import { surfaceBelow } from '../contact/ground'
import { headingOf } from '../contact/pads'
import type { ContactKind, ContactPart, ContactSpan } from '../document/contacts'
import { partKind, sideOf } from '../document/contacts'
import type { Box, Ground } from '../document/plan'
import { apply, fromAngles, transpose } from '../space/rotation'
import { add, addScaled, dot, reject, scale, sub, UP, unit, type Vec3 } from '../space/vec'
import { footPoint } from './foot'
import type { ReachedPose } from './types'

/** Where and how a part touches; the span of frames is the plan's business. */
export type Planting = Pick<ContactSpan, 'part' | 'kind' | 'position' | 'heading' | 'normal' | 'on'>

/**
 * A contact that plants a part where it is in a pose: on the top or the ground straight below it, or with
 * a palm on the side of a block that is nearer than what lies below. Its heading is the one the part has.
 * World frame, m, rad.
 * @param kind one of the part's own, see KINDS_OF
 */
export function plantPart(
  body: BodyModel,
  ground: Ground,
  pose: ReachedPose,
  part: ContactPart,
  kind: ContactKind,
): Planting {
  const { at, ahead } = bearing(body, pose, part, kind)
  const below = surfaceBelow(ground, at, STEP_UP * body.stature)
  const wall = kind === 'palm' ? nearestWall(ground, at) : null
  const drop = at[1] - below.height
  if (wall && wall.off < Math.min(drop, WALL_REACH * body.stature))
    return { part, kind, position: wall.position, normal: wall.normal, on: wall.on, heading: 0 }
  return {
    part,
    kind,
    position: [at[0], below.height, at[2]],
    normal: below.normal,
    on: below.on,
    heading: headingOf(below.normal, ahead),
  }
}

/** A part sunk into a block by this much of the stature still lands on its top. Ours. */
const STEP_UP = 0.06
/** A palm takes a wall no further off than this share of the stature. Ours: a forearm's length. */
const WALL_REACH = 0.15

/** The point of a part that will bear, and where its pad will point. */
function bearing(body: BodyModel, pose: ReachedPose, part: ContactPart, kind: ContactKind): Bearing {
  const { joints, segments } = pose
  const side = sideOf(part)
  switch (partKind(part)) {
    case 'knee': {
      const radius = 2 * body.segments[`shank${side}`].spread[0]
      const knee = joints[`knee${side}`]
      const ahead = unit(
        reject(sub(knee, joints[`ankle${side}`]), UP),
        apply(segments[`shank${side}`].rotation, [0, 0, 1]),
      )
      return { at: addScaled(knee, ahead, KNEECAP_AHEAD * radius), ahead }
    }
    case 'foot': {
      const { rotation } = segments[`foot${side}`]
      const { y, z } = footPoint(body, kind)
      const at = add(joints[`ankle${side}`], apply(rotation, [0, y, z]))
      return { at, ahead: toesAhead(pose, part, kind) }
    }
    case 'hand': {
      const hand = segments[`hand${side}`].rotation
      const fingers: Vec3 = [-hand[1], -hand[4], -hand[7]]
      const reach = (kind === 'fist' ? FIST_REACH : PALM_HALF_LENGTH) * body.lengths.hand
      const front: Vec3 = [hand[2], hand[5], hand[8]]
      // Fingers that point down say nothing about where they will lie: the back of the hand does.
      const ahead = Math.abs(fingers[1]) < Math.SQRT1_2 ? fingers : front
      return { at: addScaled(joints[`wrist${side}`], fingers, reach), ahead }
    }
  }
}

interface Bearing {
  readonly at: Vec3
  readonly ahead: Vec3
}

/** A kneeling foot lies along its shin; a standing one points where its toes do. */
function toesAhead(pose: ReachedPose, part: ContactPart, kind: ContactKind): Vec3 {
  const side = sideOf(part)
  const knee = pose.pads.find((pad) => pad.part === `knee${side}`)
  if (knee && (kind === 'toes' || kind === 'instep'))
    return reject(sub(knee.centre, pose.joints[`ankle${side}`]), knee.normal)
  const rotation = pose.segments[`foot${side}`].rotation
  const toes = apply(rotation, [0, 0, 1])
  return Math.abs(toes[1]) < 0.9 ? toes : apply(rotation, [0, 1, 0])
}

function nearestWall(ground: Ground, at: Vec3) {
  const walls = ground.boxes.flatMap((box) => facesBeside(box, at))
  return walls.reduce<Wall | null>((best, wall) => (best === null || wall.off < best.off ? wall : best), null)
}

interface Wall {
  readonly on: string
  readonly position: Vec3
  readonly normal: Vec3
  /** How far the place stands off it, m. */
  readonly off: number
}

/** The upright faces of a box that a place stands before. */
function facesBeside(box: Box, at: Vec3): Wall[] {
  const frame = fromAngles({ turn: box.turn, list: 0, tilt: 0 })
  const local = apply(transpose(frame), sub(at, box.position))
  const half: Vec3 = [box.size[0] / 2, box.size[1], box.size[2] / 2]
  if (local[1] < 0 || local[1] > half[1]) return []
  return ([0, 2] as const).flatMap((axis): Wall[] => {
    const other = axis === 0 ? 2 : 0
    const sign = (local[axis] as number) < 0 ? -1 : 1
    const off = Math.abs(local[axis]) - half[axis]
    if (off < 0 || Math.abs(local[other]) > half[other]) return []
    const normal = apply(frame, axis === 0 ? [sign, 0, 0] : [0, 0, sign])
    const drop = dot(sub(at, box.position), normal) - half[axis]
    return [{ on: box.id, position: sub(at, scale(normal, drop)), normal, off }]
  })
}
