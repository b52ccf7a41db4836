import type { Point2 } from '../contact/hull'
import type { ContactKind, LimbId } from '../document/contacts'
import { sideOf } from '../document/contacts'
import type { Mover } from '../document/plan'
import type { ReachedPose } from '../pose/types'
import { PUSH_NONE } from '../weigh/constants'
import { nearestIn } from '../weigh/polygon'
import { moverPads } from '../weigh/pose'
import type { Verdict, Weighing } from '../weigh/types'
import { carriedBy } from './carried'
import { SAME } from './constants'
import { bodyWays, type They, wayWords } from './directions'
import { type LengthUnit, massText, neededText, percentText } from './format'
import { limbNoun } from './limbs'
import { headingOf } from './measures'

/**
 * Whether a mover can lift, in sentences: a headline ('His left leg is pinned here.') and the sentences
 * under it ('It carries 42 % (176 kg); it can’t carry less than 14 %. Empty when the weight is 10 cm further to
 * his right; safe at 11 cm.'). Distances are rounded up, so that whoever goes as far as they say is there.
 */
export function verdictWords(judged: Judged): VerdictWords {
  const they = judged.they ?? 'his'
  const { verdict } = judged
  const subject = moverName(judged.mover, kindsOf(judged.pose, judged.mover.limb), they)
  const carried = carriedBy(
    judged.weighing,
    moverPads(judged.pose.pads, judged.mover),
    verdict.least,
    judged.gravity,
  )
  const mass = (kilograms: number) => massText(kilograms, judged.pose.mass)
  const carries = `It carries ${percentText(carried.share)} (${mass(carried.mass)})`
  const least = `it can’t carry less than ${percentText(carried.least)}`
  return {
    headline: `${capital(subject)} ${HEADLINE[verdict.kind]}.`,
    sentences: {
      off: () => [],
      empty: () => [`${carries}.`, ...safeLater(judged)],
      'could let go': () => [`${carries}, and could carry nothing.`, ...safeLater(judged)],
      'on the edge': () => [`${carries}; ${least}.`, ...way(judged)],
      pinned: () => [`${carries}; ${least}.`, ...way(judged)],
    }
      [verdict.kind]()
      .concat(pushWords(judged) ?? []),
  }
}

export interface Judged {
  readonly mover: Mover
  readonly verdict: Verdict
  readonly weighing: Weighing
  readonly pose: ReachedPose
  /** m/s² */
  readonly gravity: number
  readonly unit: LengthUnit
  readonly they?: They
  /** What stops the body from going where it would be empty, as a clause: 'the left arm is straight'. */
  readonly limit?: string
}

export interface VerdictWords {
  readonly headline: string
  readonly sentences: readonly string[]
}

const HEADLINE: Readonly<Record<Verdict['kind'], string>> = {
  off: 'is off',
  empty: 'touches and is empty',
  'could let go': 'could let go here',
  'on the edge': 'is on the edge here',
  pinned: 'is pinned here',
}

/** 'his left leg', 'his left knee' where the toes stay, 'his right fist'. */
function moverName(mover: Mover, kinds: ReadonlySet<ContactKind>, they: They): string {
  const side = sideOf(mover.limb) === 'L' ? 'left' : 'right'
  const noun = mover.toesStay && mover.limb.startsWith('leg') ? 'knee' : limbNoun(mover.limb, kinds)
  return `${they} ${side} ${noun}`
}

/**
 * The push from nowhere in a sentence, or null where there is none: '44 kg of push from nowhere hold him here: he
 * would fall back and to his left.'
 */
function pushWords({
  weighing,
  pose,
  they = 'his',
}: Pick<Judged, 'weighing' | 'pose' | 'they'>): string | null {
  const { push } = weighing
  if (push.size < PUSH_NONE) return null
  const kilograms = massText(push.size * pose.mass, pose.mass)
  const { they: subject, them } = PERSON[they]
  const fall = joinWords('fall', fallWay(weighing, headingOf(pose), they))
  return `${kilograms} of push from nowhere hold ${them} here: ${subject} would ${fall}.`
}

/** Away from where the weight could be; where it could be nowhere, against the push. '' where that has no direction. */
function fallWay({ region, plumb, push }: Weighing, heading: number, they: They): string {
  const [x, , z] = plumb
  const way: Point2 = region.length > 0 ? awayFrom(region, [x, z]) : [-push.force[0], -push.force[2]]
  return Math.hypot(...way) < SAME ? '' : wayWords(...bodyWays(heading, ...way), they)
}

function awayFrom(region: readonly Point2[], point: Point2): Point2 {
  const near = nearestIn(region, point)
  return [point[0] - near[0], point[1] - near[1]]
}

const joinWords = (...words: string[]): string => words.filter(Boolean).join(' ')

/** Where a pinned mover is empty and where it is safe, or why nowhere. */
function way(judged: Judged): string[] {
  const { empty, safe, never } = judged.verdict
  if (judged.limit !== undefined) return [`Never from here: ${judged.limit}.`]
  if (empty === null) return [`Never from here: ${NEVER[never ?? 'no grip']}.`]
  const first = `Empty when the weight is ${further(judged, empty.move, empty.distance)}`
  if (safe === null) return [`${first}, but nowhere with room to spare.`]
  const same = directionOf(judged, safe.move) === directionOf(judged, empty.move)
  const distance = neededText(safe.distance, judged.unit)
  return [`${first}; safe at ${same ? distance : further(judged, safe.move, safe.distance)}.`]
}

const NEVER: Readonly<Record<NonNullable<Verdict['never']>, string>> = {
  'no other contact': 'nothing else touches',
  'no grip': 'the other contacts can’t hold the body without it, wherever its weight is',
  'load limit': 'the other contacts would carry more than they are allowed',
  'nothing presses down': 'nothing presses the body down',
}

/** What is left to do for a mover that may go, but without room to spare. */
function safeLater(judged: Judged): string[] {
  const { safe } = judged.verdict
  if (safe === null || safe.distance < 0.5 / (judged.unit.perMetre * 10 ** judged.unit.decimals)) return []
  return [`Safe when the weight is ${further(judged, safe.move, safe.distance)}.`]
}

const further = (judged: Judged, move: readonly [number, number], distance: number): string =>
  `${neededText(distance, judged.unit)} further ${directionOf(judged, move)}`

const directionOf = ({ pose, they = 'his' }: Judged, [x, z]: readonly [number, number]): string =>
  wayWords(...bodyWays(headingOf(pose), x, z), they)

const kindsOf = (pose: ReachedPose, limb: LimbId): ReadonlySet<ContactKind> =>
  new Set(pose.pads.filter((pad) => pad.limb === limb).map((pad) => pad.kind))

const PERSON: Readonly<Record<They, { readonly they: string; readonly them: string }>> = {
  his: { they: 'he', them: 'him' },
  her: { they: 'she', them: 'her' },
  its: { they: 'it', them: 'it' },
  their: { they: 'they', them: 'them' },
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
