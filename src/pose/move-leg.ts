import type { BodyModel, Side } from '../body/model'
import { along, headingOf } from '../contact/pads'
import type { ContactSpan } from '../document/contacts'
import { aboutAxis, apply, type Mat3 } from '../space/rotation'
import { add, addScaled, cross, distance, dot, lerp, norm, sub, unit, type Vec3 } from '../space/vec'
import { alongCircle, onSphere } from './aim'
import { controlled, type Grasp, type Moved, put, slid, spanOf, withinTurn } from './grasp'
import { handlePlace } from './handles'
import { reach } from './reach'
import { slideContact } from './slide'

/**
 * A planted knee slides over its surface; a free one goes round the hip, and over a foot that is planted or
 * stays it swings about the line from hip to ankle.
 */
export function moveKnee(grasp: Grasp, side: Side): Moved {
  const { start, target, free, body } = grasp
  const [knee, foot] = [spanOf(grasp, `knee${side}`), spanOf(grasp, `foot${side}`)]
  if (knee) return slideKnee(grasp, side, knee, foot)
  const at = start.joints[`knee${side}`]
  const hip = start.joints[`hip${side}`]
  const ankle = start.joints[`ankle${side}`]
  if (foot || grasp.foot === 'stays') {
    const axis = unit(sub(ankle, hip))
    const swing = alongCircle(hip, axis, at, target, free)
    return controlled(grasp, put(`leg${side}.knee`, add(hip, apply(aboutAxis(axis, swing), sub(at, hip)))))
  }
  const { thigh, shank } = body.lengths
  const to = onSphere(hip, thigh, target, free, at)
  const trails = grasp.foot === 'trails'
  const end = trails ? trail(at, to, ankle, shank) : add(ankle, sub(to, at))
  const turn = `leg${side}.turn` as const
  return controlled(grasp, {
    ...put(`leg${side}.knee`, to),
    ...put(`leg${side}.ankle`, end),
    ...(trails && { [turn]: grasp.asked[turn] + headingChange(sub(at, ankle), sub(to, end)) }),
  })
}

/** The pad goes as the knee does; the foot of the same shin goes along, trails or stays. */
function slideKnee(grasp: Grasp, side: Side, knee: ContactSpan, foot: ContactSpan | null): Moved {
  const { ground, start, target, body } = grasp
  const at = start.joints[`knee${side}`]
  const moved = slideContact(ground, knee, add(knee.position, sub(target, at)))
  const by = sub(moved.position, knee.position)
  const follow = (end: Vec3, from: Vec3, length: number) => {
    if (grasp.foot === 'stays') return end
    return grasp.foot === 'along' ? add(end, by) : trail(from, add(from, by), end, length)
  }
  if (foot === null) {
    const ankle = follow(start.joints[`ankle${side}`], at, body.lengths.shank)
    return {
      controls: controlled(grasp, put(`leg${side}.ankle`, ankle)).controls,
      contacts: slid(grasp, knee, moved).contacts,
    }
  }
  const { position } = foot
  const after = slideContact(ground, foot, follow(position, knee.position, distance(position, knee.position)))
  return slid({ ...grasp, contacts: slid(grasp, knee, moved).contacts }, foot, after)
}

/**
 * Where a shin's lower end comes to lie when its knee is drawn straight from one place to another and it
 * is not led: a rod's free end runs after the other one, keeping its height while the rod allows it (a
 * tractrix on the ground).
 */
function trail(from: Vec3, to: Vec3, end: Vec3, length: number): Vec3 {
  const pieces = Math.max(1, Math.min(TRAIL_MOST, Math.ceil((distance(from, to) / length) * TRAIL_PIECES)))
  let p = end
  for (let i = 1; i <= pieces; i++) {
    const lead = lerp(from, to, i / pieces)
    const rise = p[1] - lead[1]
    const level: Vec3 = [p[0] - lead[0], 0, p[2] - lead[2]]
    p =
      Math.abs(rise) < length && norm(level) > 1e-6 * length
        ? addScaled(add(lead, [0, rise, 0]), unit(level), Math.sqrt(length * length - rise * rise))
        : addScaled(lead, unit(sub(p, lead), [0, -1, 0]), length)
  }
  return p
}

/** A trailing shin follows in pieces of this share of its length, and in so many at the most. */
const TRAIL_PIECES = 32
const TRAIL_MOST = 128

/** A planted foot slides; a free one goes where it is asked, and its knee swings along. */
export function moveFoot(grasp: Grasp, side: Side): Moved {
  const { start, target, free, body, ground } = grasp
  const [knee, foot] = [spanOf(grasp, `knee${side}`), spanOf(grasp, `foot${side}`)]
  const at = handlePlace(body, start, `foot${side}`)
  if (foot) {
    const moved = slideContact(ground, foot, add(foot.position, sub(target, at)))
    return slid(grasp, foot, knee ? withinShin(grasp, moved) : moved)
  }
  const joint = start.joints[`knee${side}`]
  if (knee)
    return controlled(grasp, put(`leg${side}.ankle`, onSphere(joint, body.lengths.shank, target, free, at)))
  const hip = start.joints[`hip${side}`]
  const swung = apply(rotationTo(sub(at, hip), sub(target, hip)), sub(joint, hip))
  return controlled(grasp, { ...put(`leg${side}.ankle`, target), ...put(`leg${side}.knee`, add(hip, swung)) })
}

/** A kneeling foot's contact where the shin lets it be. */
function withinShin({ body, asked, contacts }: Grasp, foot: ContactSpan): ContactSpan {
  const pose = reach(
    body,
    asked,
    contacts.map((span) => (span.part === foot.part ? foot : span)),
  )
  const pad = pose.pads.find(({ part }) => part === foot.part)
  return pad ? { ...foot, position: pad.centre } : foot
}

/** A free foot pitches and turns; a planted one turns about its ankle on its surface. */
export function moveToe(grasp: Grasp, side: Side): Moved {
  const { start, target, free, ground, body } = grasp
  const foot = spanOf(grasp, `foot${side}`)
  const ankle = start.joints[`ankle${side}`]
  const toe = start.joints[`toe${side}`]
  const to = onSphere(ankle, distance(ankle, toe), target, free, toe)
  if (!foot) {
    // The toes may lie bent on the floor: the foot's own line turns as they do.
    const line = footLine(body, start.segments[`foot${side}`].rotation)
    const turned = apply(rotationTo(sub(toe, ankle), sub(to, ankle)), line)
    return controlled(grasp, footToward(grasp, body, side, turned))
  }
  const turn = headingOf(foot.normal, sub(to, ankle)) - headingOf(foot.normal, sub(toe, ankle))
  const pivot = addScaled(ankle, foot.normal, dot(sub(foot.position, ankle), foot.normal))
  const swung = add(pivot, apply(aboutAxis(foot.normal, turn), sub(foot.position, pivot)))
  return slid(grasp, foot, { ...slideContact(ground, foot, swung), heading: withinTurn(foot.heading + turn) })
}

/** A foot on its ball rolls: the heel goes round the ball. */
export function moveHeel(grasp: Grasp, side: Side): Moved {
  const foot = spanOf(grasp, `foot${side}`)
  if (!foot) return controlled(grasp, {})
  const { ahead } = along(foot.normal, foot.heading)
  const off = sub(grasp.target, grasp.start.joints[`ball${side}`])
  return controlled(grasp, { [`leg${side}.pitch`]: Math.atan2(dot(off, foot.normal), -dot(off, ahead)) })
}

/** From the ankle to the tip of toes that are straight, m. */
const footLine = ({ lengths }: BodyModel, foot: Mat3): Vec3 =>
  apply(foot, [0, -lengths.ankleHeight, lengths.foot - lengths.heelToAnkle])

/** Pitch and turn that point a free foot's toes along a direction; of the two ways the one nearer to now. */
function footToward({ start }: Grasp, body: BodyModel, side: Side, direction: Vec3) {
  const { foot, ankleHeight, heelToAnkle } = body.lengths
  const pitch = start.reached[`leg${side}.pitch`]
  const turn = start.reached[`leg${side}.turn`]
  const below = Math.atan2(ankleHeight, foot - heelToAnkle)
  const level = Math.hypot(direction[0], direction[2])
  const ways = [1, -1].map((sign) => ({
    turn: level < 1e-9 ? 0 : withinTurn(Math.atan2(sign * direction[0], sign * direction[2]) - turn),
    pitch: withinTurn(Math.atan2(-direction[1], sign * level) - below - pitch),
  }))
  const best = ways.reduce((a, b) =>
    Math.abs(b.turn) + Math.abs(b.pitch) < Math.abs(a.turn) + Math.abs(a.pitch) ? b : a,
  )
  return { [`leg${side}.pitch`]: pitch + best.pitch, [`leg${side}.turn`]: turn + best.turn }
}

/** The shortest rotation that takes one direction to another. */
function rotationTo(from: Vec3, to: Vec3): Mat3 {
  const axis = cross(from, to)
  return aboutAxis(unit(axis, [1, 0, 0]), Math.atan2(norm(axis), dot(from, to)))
}

/** How far a direction turned about the vertical, rad, −π … π; 0 where either is upright. */
function headingChange(from: Vec3, to: Vec3): number {
  if (Math.hypot(from[0], from[2]) < 1e-6 || Math.hypot(to[0], to[2]) < 1e-6) return 0
  return withinTurn(Math.atan2(to[0], to[2]) - Math.atan2(from[0], from[2]))
}
