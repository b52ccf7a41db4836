import type { ContactSpan } from '../document/contacts'
import type { Mover } from '../document/plan'
import type { Vec3 } from '../space/vec'
import { dot } from '../space/vec'
import type { DynamicFrame } from '../weigh/dynamic'
import { bodyWays, wayWords } from './directions'
import { type LengthUnit, lengthText, massText, number, SPACE } from './format'
import { PUSH_FORCED, THROWN } from './motion-constants'
import type { MotionFlag, SaidLanding } from './motion-flags'
import { partName } from './notes/words'

/** What sentences about a moving body need to know of it. */
export interface MotionSpeaker {
  /** The number that frame 0 carries on the sheet. */
  readonly firstFrame: number
  readonly contacts: readonly ContactSpan[]
  /** kg: what loads and pushes are said beside. */
  readonly mass: number
  readonly unit: LengthUnit
  /** Which way the body faces, rad. */
  readonly heading: number
}

/**
 * The mover's verdict in motion beside the one held still, with what makes the difference: 'Pinned if he held
 * still here; empty, because he is being thrown across.' Null where nobody asked for a verdict.
 */
export function bothWords({ verdict, body, velocity }: DynamicFrame, mover: Mover): string | null {
  if (verdict === null) return null
  const { moving, still, motion } = verdict
  const limb = `${mover.limb.endsWith('L') ? 'left' : 'right'} ${mover.limb.startsWith('leg') ? 'leg' : 'hand'}`
  if (motion === 'nothing') return `His ${limb}, in motion as held still: ${moving.kind}.`
  const cause = motion === 'frees' ? freedBy(body) : heldBy(body, velocity)
  return `His ${limb} would be ${still.kind} if he held still here; in motion it is ${moving.kind}, because he is ${cause}.`
}

function freedBy(body: DynamicFrame['body']): string {
  const [across, up] = accelerations(body)
  if (-up > across) return 'dropping'
  return across > THROWN ? 'being thrown across' : 'turning'
}

function heldBy(body: DynamicFrame['body'], velocity: Vec3): string {
  const weight = body.mass * body.gravity
  const gained = dot([body.force[0], body.force[1] - weight, body.force[2]], velocity)
  return gained < 0 ? 'being brought to a stop' : 'being set going'
}

/** Sideways and upward acceleration over gravity. */
function accelerations({ force, mass, gravity }: DynamicFrame['body']): [across: number, up: number] {
  const weight = mass * gravity
  return [Math.hypot(force[0], force[2]) / weight, force[1] / weight - 1]
}

/** '43 kg of push from nowhere shove him forward.'; null where there is none. */
export function pushWords(frame: DynamicFrame, speaker: MotionSpeaker): string | null {
  const { push, weighing, body } = frame
  if (push.kilograms === 0) return null
  const kilograms = massText(push.kilograms, body.mass)
  const [x, y, z] = weighing.push.force
  const forced = Math.hypot(x, y, z) / (body.mass * body.gravity) >= PUSH_FORCED * weighing.push.size
  const across = wayWords(...bodyWays(speaker.heading, x, z), 'his')
  if (!forced) return `${kilograms} of push from nowhere turn him.`
  if (Math.abs(y) > Math.hypot(x, z))
    return `${kilograms} of push from nowhere ${y > 0 ? 'hold him up' : 'pull him down'}.`
  return `${kilograms} of push from nowhere shove him ${across}.`
}

/** What a flag says: where, how many kilograms, which frame is worst. */
export function flagWords(flag: MotionFlag, speaker: MotionSpeaker): string {
  const kilograms = massText(flag.kilograms, speaker.mass)
  const worst = speaker.firstFrame + flag.frame
  if (flag.kind === 'push') return `Push from nowhere ${spanText(flag, speaker)}: ${kilograms} at ${worst}.`
  const far = lengthText(flag.moved, speaker.unit)
  const { name, verb } = nameOf(flag.id, speaker)
  return `${name} ${verb} ${far} under load ${spanText(flag, speaker)}: ${kilograms} on it at ${worst}.`
}

/** 'Left foot lands at 1053 with 0.40 m/s; the ground takes 120 N·s.', or that it touches without a blow. */
export function landingWords(landing: SaidLanding, speaker: MotionSpeaker): string {
  const { name } = nameOf(landing.id, speaker)
  const frame = speaker.firstFrame + landing.frame
  if (landing.speed < NO_BLOW) return `${name} touches at ${frame} without a blow.`
  return `${name} lands at ${frame} with ${number(landing.speed, 2)}${SPACE}m/s; the ground takes ${number(landing.impulse, 0)}${SPACE}N·s.`
}

/** 'Left knee slides 3 cm in this frame; it drags with 12 kg.' */
export function dragWords(
  drag: DynamicFrame['drags'][number],
  gravity: number,
  speaker: MotionSpeaker,
): string {
  const { name, verb } = nameOf(drag.id, speaker)
  const far = lengthText(drag.moved, speaker.unit)
  return `${name} ${verb} ${far} in this frame and drags with ${massText(drag.force / gravity, speaker.mass)}.`
}

function nameOf(id: string, { contacts }: MotionSpeaker): { name: string; verb: string } {
  const span = contacts.find((one) => one.id === id)
  const toes = span?.kind === 'toes'
  const name = span
    ? toes
      ? partName(span.part, span.kind).replace('foot', 'toes')
      : partName(span.part, span.kind)
    : 'It'
  return { name, verb: toes ? 'slide' : 'slides' }
}

/** Slower than this a touch is none of a blow, m/s: it would be said as 0. */
const NO_BLOW = 0.005

const spanText = ({ from, to }: MotionFlag, { firstFrame }: MotionSpeaker): string =>
  from === to ? `at ${firstFrame + from}` : `from ${firstFrame + from} to ${firstFrame + to}`
