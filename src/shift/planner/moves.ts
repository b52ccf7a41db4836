import type { Side } from '../../body/model'
import { surfaceBelow } from '../../contact/ground'
import { along, headingOf } from '../../contact/pads'
import { type ContactPart, type LimbId, partsOf, sideOf } from '../../document/contacts'
import { kneelReach } from '../../pose/foot'
import { slideContact } from '../../pose/slide'
import type { ReachedPose } from '../../pose/types'
import { add, addScaled, distance, scale, sub, type Vec3 } from '../../space/vec'
import { poseOf } from './region'
import type { Goal, Scene, ShiftAsk, Spot, Still, Transfer } from './types'

/**
 * The transfers of weight that a goal takes, in order. They are made from the pose that they start with, so
 * that the later ones of a chain are asked for again when their turn comes.
 * @returns null where the goal doesn't fit the stance, such as a half kneel of a leg that stands
 */
export function transferFor(scene: Scene, still: Still, ask: Aim): Transfer | null {
  const { goal, mover } = ask
  const pose = poseOf(scene, still)
  const side = sideOf(mover)
  const planted = (part: ContactPart) => still.contacts.find((c) => c.part === part)
  const base = { limb: mover, reach: null, ends: 'as-before', kind: 'move' } as const
  const release = partsOf(mover).filter((part) => planted(part))
  if (mover.startsWith('arm')) return handTransfer(scene, pose, still, mover, goal, release)
  const knee = planted(`knee${side}`)
  const foot = planted(`foot${side}`)
  switch (goal.kind) {
    case 'shuffle':
      return shuffled(scene, still, ask, scale(leftOf(pose), goal.by))
    case 'place': {
      const main = knee ?? foot
      if (!main) return null
      return shuffled(scene, still, ask, sub(goal.to, main.position))
    }
    case 'half-kneel':
      if (!knee) return null
      return { ...base, release, plant: [soleAhead(scene, pose, side, ask.wide ?? WIDE[0])] }
    case 'onto-foot':
      // A kneeling leg whose other foot stands: the knee leaves, the toes stay, and he rises.
      if (knee && foot && planted(`foot${other(side)}`)?.kind === 'sole')
        return { ...base, release: [`knee${side}`], plant: [], ends: 'rise' }
      return knee
        ? { ...base, release, plant: [soleAhead(scene, pose, side, ask.wide ?? WIDE[0])], ends: 'rise' }
        : null
    case 'heel-sit':
      if (knee) return { ...base, release: [], plant: [], ends: 'sit' }
      return foot ? { ...base, release, plant: kneelBack(scene, pose, still, side), ends: 'sit' } : null
    default:
      return null
  }
}

/** What of a question decides the transfers. */
export type Aim = Pick<ShiftAsk, 'goal' | 'mover'> & {
  readonly foot: NonNullable<ShiftAsk['foot']>
  /** How wide a foot is set down that comes forward: the knee's distance from the midline times this. */
  readonly wide?: number
}

/** What is raised first, and gives after contact. */
export const comesDown = ({ kind }: Transfer): boolean => kind === 'strike' || kind === 'set-down'

/** Spreads that are tried, the usual one first. */
export const WIDE: readonly [number, ...number[]] = [1.1, 1.75, 2.5]

/** A share of the way: for hitches. */
export function partOfGoal(still: Still, ask: Aim, share: number): Goal {
  const { goal, mover } = ask
  if (goal.kind === 'shuffle') return { kind: 'shuffle', by: goal.by * share }
  if (goal.kind !== 'place') return goal
  const main = partsOf(mover)
    .map((part) => still.contacts.find((c) => c.part === part))
    .find((c) => c !== undefined)
  if (!main) return goal
  return { kind: 'place', to: addScaled(main.position, sub(goal.to, main.position), share) }
}

export const other = (side: Side): Side => (side === 'L' ? 'R' : 'L')
export const outward = (side: Side) => (side === 'L' ? 1 : -1)

/** Level unit vectors of the pelvis. */
export function leftOf(pose: ReachedPose): Vec3 {
  const r = pose.segments.lowerTrunk.rotation
  const size = Math.hypot(r[0], r[6])
  return size < 1e-9 ? [1, 0, 0] : [r[0] / size, 0, r[6] / size]
}
export function aheadOf(pose: ReachedPose): Vec3 {
  const [x, , z] = leftOf(pose)
  return [-z, 0, x]
}

/** Every pad of the limb goes by the same way, its foot along, trailing or staying. */
function shuffled(scene: Scene, still: Still, ask: Aim, by: Vec3): Transfer {
  const side = sideOf(ask.mover)
  const knee = still.contacts.find((c) => c.part === `knee${side}`)
  const foot = still.contacts.find((c) => c.part === `foot${side}`)
  const level: Vec3 = [by[0], 0, by[2]]
  const move = (contact: NonNullable<typeof knee>, way: Vec3): Spot => {
    const to = add(contact.position, way)
    const below = surfaceBelow(
      scene.ground,
      [to[0], Math.max(to[1], contact.position[1] + by[1]), to[2]],
      0.06 * scene.body.stature,
    )
    const slid = below.on === contact.on ? slideContact(scene.ground, contact, to) : null
    const position: Vec3 = slid ? slid.position : [to[0], below.height, to[2]]
    return {
      part: contact.part,
      kind: contact.kind,
      position,
      heading: contact.heading,
      normal: below.normal,
      on: slid ? contact.on : below.on,
    }
  }
  if (!knee)
    return {
      limb: ask.mover,
      release: foot ? [foot.part] : [],
      plant: foot ? [move(foot, level)] : [],
      reach: null,
      ends: 'as-before',
      kind: 'move',
    }
  const plant = [move(knee, level)]
  const release: ContactPart[] = [knee.part]
  if (foot && ask.foot !== 'stays') {
    release.push(foot.part)
    const landed = move(foot, level)
    plant.push(ask.foot === 'along' ? landed : trailed(plant[0] as Spot, foot.position, landed))
  }
  return { limb: ask.mover, release, plant, reach: null, ends: 'as-before', kind: 'move' }
}

/** The foot on the line from where it was to the knee, as far off as before. */
function trailed(knee: Spot, was: Vec3, landed: Spot): Spot {
  const to = sub(was, knee.position)
  const far = Math.hypot(to[0], to[2])
  const long = distance([landed.position[0], 0, landed.position[2]], [knee.position[0], 0, knee.position[2]])
  if (far < 1e-9) return landed
  const position: Vec3 = [
    knee.position[0] + (to[0] / far) * long,
    landed.position[1],
    knee.position[2] + (to[2] / far) * long,
  ]
  return { ...landed, position }
}

/** The sole of a half kneel: its shin upright, a little outside the hip, on what lies below. */
function soleAhead(scene: Scene, pose: ReachedPose, side: Side, spread: number): Spot {
  const { body } = scene
  const { thigh, shank, ankleHeight, foot, heelToAnkle } = body.lengths
  const hip = pose.joints.midHip
  const ahead = aheadOf(pose)
  const left = leftOf(pose)
  const wide = Math.abs(dotLevel(sub(pose.joints[`knee${side}`], hip), left))
  const aside = outward(side) * Math.max(body.hipWidth * 0.62, Math.min(wide * spread, body.stature * 0.2))
  const place = (height: number): Vec3 => {
    const drop = Math.min(thigh * 0.99, Math.max(0, hip[1] - height - shank - ankleHeight))
    const reach = Math.sqrt(thigh * thigh - drop * drop) * 0.93
    return addScaled(addScaled(hip, left, aside), ahead, reach + foot / 2 - heelToAnkle)
  }
  const from = place(pose.joints[`ankle${side}`][1] - ankleHeight)
  const below = surfaceBelow(scene.ground, [from[0], hip[1] * 0.7, from[2]])
  const at = place(below.height)
  return {
    part: `foot${side}`,
    kind: 'sole',
    position: [at[0], below.height, at[2]],
    heading: headingOf(below.normal, ahead),
    normal: below.normal,
    on: below.on,
  }
}

/** A standing foot goes back to a kneel beside the other knee. */
function kneelBack(scene: Scene, pose: ReachedPose, still: Still, side: Side): Spot[] {
  const { body, ground } = scene
  const beside = still.contacts.find((c) => c.part === `knee${other(side)}`)
  const kind =
    still.contacts.find((c) => c.part === `foot${other(side)}`)?.kind === 'instep' ? 'instep' : 'toes'
  const ahead = aheadOf(pose)
  const left = leftOf(pose)
  const reach = kneelReach(body, side, kind)
  const hip = pose.joints.midHip
  const along0 = beside ? dotLevel(sub(beside.position, hip), ahead) : reach.kneeAhead
  const wide = beside ? Math.abs(dotLevel(sub(beside.position, hip), left)) : body.hipWidth * 0.62
  const spot = (part: ContactPart, contact: Spot['kind'], on: number): Spot => {
    const at = addScaled(addScaled(hip, left, outward(side) * wide), ahead, along0 + on)
    const below = surfaceBelow(ground, [at[0], hip[1] * 0.5, at[2]])
    return {
      part,
      kind: contact,
      position: [at[0], below.height, at[2]],
      heading: headingOf(below.normal, ahead),
      normal: below.normal,
      on: below.on,
    }
  }
  return [spot(`knee${side}`, 'kneecap', 0), spot(`foot${side}`, kind, -reach.footBehind - reach.kneeAhead)]
}

const dotLevel = (a: Vec3, b: Vec3) => a[0] * b[0] + a[2] * b[2]

function handTransfer(
  scene: Scene,
  pose: ReachedPose,
  still: Still,
  limb: LimbId,
  goal: Goal,
  release: readonly ContactPart[],
): Transfer | null {
  const side = sideOf(limb)
  const base = { limb, release, reach: null, ends: 'as-before', kind: 'move', plant: [] } as const
  switch (goal.kind) {
    case 'reach':
      return { ...base, reach: goal.to }
    case 'place':
      return { ...base, plant: [handSpot(scene, pose, side, goal.to)] }
    case 'set-down':
    case 'strike':
      return { ...base, plant: [handSpot(scene, pose, side, goal.to)], kind: goal.kind }
    case 'hand-to-wall': {
      const wall = nearestFace(scene, pose, side)
      return wall && { ...base, plant: [wall] }
    }
    case 'shuffle': {
      const hand = still.contacts.find((c) => c.part === `hand${side}`)
      if (!hand) return null
      const to = addScaled(hand.position, leftOf(pose), goal.by)
      return { ...base, plant: [{ ...handSpot(scene, pose, side, to), kind: hand.kind }] }
    }
    default:
      return null
  }
}

/** A hand on what lies below a place: a fist, so that the wrist stays near to straight. */
export function handSpot(scene: Scene, pose: ReachedPose, side: Side, to: Vec3): Spot {
  const below = surfaceBelow(scene.ground, to, 0.06 * scene.body.stature)
  return {
    part: `hand${side}`,
    kind: 'fist',
    position: [to[0], below.height, to[2]],
    heading: headingOf(below.normal, aheadOf(pose)),
    normal: below.normal,
    on: below.on,
  }
}

/** The upright face that a palm reaches most easily, at the shoulder's height or a little lower. */
function nearestFace(scene: Scene, pose: ReachedPose, side: Side): Spot | null {
  const shoulder = pose.joints[`shoulder${side}`]
  const arm = scene.body.lengths.upperArm + scene.body.lengths.forearm
  let best: Spot | null = null
  let least = arm * 1.6
  for (const box of scene.ground.boxes) {
    const c = Math.cos(box.turn)
    const s = Math.sin(box.turn)
    for (const [nx, nz, half, wide] of [
      [c, -s, box.size[0] / 2, box.size[2] / 2],
      [-c, s, box.size[0] / 2, box.size[2] / 2],
      [s, c, box.size[2] / 2, box.size[0] / 2],
      [-s, -c, box.size[2] / 2, box.size[0] / 2],
    ] as const) {
      const normal: Vec3 = [nx, 0, nz]
      const off = dotLevel(sub(shoulder, box.position), normal) - half
      if (off <= 0.02 * scene.body.stature) continue
      const tangent: Vec3 = [-nz, 0, nx]
      const aside = dotLevel(sub(shoulder, box.position), tangent)
      const margin = Math.min(wide, scene.body.lengths.hand)
      const at = Math.max(-wide + margin, Math.min(wide - margin, aside))
      const top = box.position[1] + box.size[1] - scene.body.lengths.hand * 0.7
      const height = Math.min(top, shoulder[1] - 0.12 * arm)
      if (height < shoulder[1] - arm || height < box.position[1]) continue
      const position = addScaled(
        addScaled([box.position[0], height, box.position[2]], tangent, at),
        normal,
        half,
      )
      const far = distance(shoulder, position)
      if (far >= least) continue
      least = far
      best = {
        part: `hand${side}`,
        kind: 'palm',
        position,
        heading: headingOf(normal, along(normal, 0).ahead),
        normal,
        on: box.id,
      }
    }
  }
  return best
}
