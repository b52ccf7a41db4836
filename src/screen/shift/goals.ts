import { surfaceBelow } from '../../contact/ground'
import { type ContactSpan, type LimbId, partsOf, sideOf } from '../../document/contacts'
import type { Ground } from '../../document/plan'
import type { PosePad, ReachedPose } from '../../pose/types'
import type { Goal } from '../../shift/planner/types'
import { add, type Vec3 } from '../../space/vec'

export type GoalKind = Goal['kind']

/** A move as it is asked for. */
export interface NamedGoal {
  readonly kind: GoalKind
  readonly name: string
  /** What it is for, physically. */
  readonly hint: string
  /** What has to be said besides: how far, or where. */
  readonly needs: 'nothing' | 'way' | 'place'
}

const GOALS: readonly NamedGoal[] = [
  {
    kind: 'half-kneel',
    name: 'forward to half kneel',
    hint: 'The foot comes forward onto its sole; everything hangs on the other knee meanwhile.',
    needs: 'nothing',
  },
  {
    kind: 'onto-foot',
    name: 'up onto the foot',
    hint: 'Onto the foot and up: the weight has to come forward over a small sole before he can rise.',
    needs: 'nothing',
  },
  {
    kind: 'shuffle',
    name: 'shuffle sideways',
    hint: 'The limb goes sideways by so much; the weight has to be off it for the whole way.',
    needs: 'way',
  },
  {
    kind: 'heel-sit',
    name: 'back to heel sit',
    hint: 'Back and down onto the heels: the weight goes behind the knees.',
    needs: 'nothing',
  },
  {
    kind: 'place',
    name: 'to a place',
    hint: 'The limb comes down where the mark stands; drag the mark in any view.',
    needs: 'place',
  },
  {
    kind: 'reach',
    name: 'reach',
    hint: 'The hand goes to the mark and touches nothing; the body leans against its weight. A load that the hand carries later in the take is picked up there.',
    needs: 'place',
  },
  {
    kind: 'hand-to-wall',
    name: 'hand to the wall',
    hint: 'A palm on the nearest upright face: it takes weight sideways, and widens what holds him.',
    needs: 'nothing',
  },
  {
    kind: 'set-down',
    name: 'set down',
    hint: 'The fist comes down where the mark stands, and load follows slowly. What the hand carries stays there.',
    needs: 'place',
  },
  {
    kind: 'strike',
    name: 'strike',
    hint: 'The fist hits where the mark stands; the hips go on falling just after.',
    needs: 'place',
  },
]

export const nameOf = (kind: GoalKind): string => GOALS.find((goal) => goal.kind === kind)?.name ?? kind

const FOR_ARMS: readonly GoalKind[] = ['reach', 'set-down', 'strike', 'hand-to-wall', 'place', 'shuffle']
const FOR_KNEES: readonly GoalKind[] = ['half-kneel', 'onto-foot', 'shuffle', 'heel-sit', 'place']
const FOR_FEET: readonly GoalKind[] = ['shuffle', 'place', 'heel-sit']
const KNEES: readonly string[] = ['kneeL', 'kneeR']

/** The moves that a limb can be asked for as it touches now, the usual one first. */
export function goalsFor(limb: LimbId, pads: readonly PosePad[]): readonly NamedGoal[] {
  const down = new Set(pads.filter((pad) => pad.limb === limb).map(({ part }) => part))
  const kinds = limb.startsWith('arm')
    ? FOR_ARMS.filter((kind) => kind !== 'shuffle' || down.size > 0)
    : down.has(`knee${sideOf(limb)}`)
      ? FOR_KNEES
      : down.size > 0
        ? FOR_FEET.filter((kind) => kind !== 'heel-sit' || pads.some(({ part }) => KNEES.includes(part)))
        : []
  return kinds.flatMap((kind) => GOALS.filter((goal) => goal.kind === kind))
}

/** Where a limb bears now, or where its hand or foot hangs: what a place is measured from. World, m. */
export function placeOf(limb: LimbId, pose: ReachedPose, contacts: readonly ContactSpan[]): Vec3 {
  const main = partsOf(limb)
    .map((part) => contacts.find((contact) => contact.part === part))
    .find((contact) => contact !== undefined)
  if (main) return main.position
  const side = sideOf(limb)
  return limb.startsWith('arm') ? pose.joints[`wrist${side}`] : pose.joints[`ankle${side}`]
}

/** A first place for the mark: a little outward and ahead, where the limb gets without being asked too much. */
export function firstPlace(
  limb: LimbId,
  kind: GoalKind,
  pose: ReachedPose,
  from: Vec3,
  stature: number,
): Vec3 {
  const out = sideOf(limb) === 'L' ? 1 : -1
  if (limb.startsWith('leg')) return add(from, [out * 0.03 * stature, 0, 0.04 * stature])
  const shoulder = pose.joints[`shoulder${sideOf(limb)}`]
  const [aside, down, ahead] = kind === 'reach' ? [0.05, -0.05, 0.3] : [0.04, 0, 0.22]
  return add(shoulder, [out * aside * stature, down * stature, ahead * stature])
}

/** The same place on what lies below it; a reach stays in the air. */
export function settled(kind: GoalKind, place: Vec3, ground: Ground, pose: ReachedPose): Vec3 {
  if (kind === 'reach') return place
  const over = pose.joints.midHip[1] + (pose.joints.shoulderL[1] - pose.joints.midHip[1]) / 2
  return [place[0], surfaceBelow(ground, [place[0], over, place[2]]).height, place[2]]
}
