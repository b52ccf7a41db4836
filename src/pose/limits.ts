import type { BodyModel, Side } from '../body/model'
import { SIDES } from '../body/model'
import type { Controls } from '../document/channels'
import type { ContactSpan } from '../document/contacts'
import { distance } from '../space/vec'
import type { ReachedArm } from './arm'
import { WORTH_SAYING } from './constants'
import type { LegBase, ReachedLeg } from './leg'
import type { PelvisSolution } from './solve'
import type { Limit } from './types'

type Both<T> = Readonly<Record<Side, T>>

/** The limbs that keep the pose from being the asked one, the one that stops the pelvis first. */
export function reachLimits(
  body: BodyModel,
  asked: Controls,
  solution: PelvisSolution,
  bases: Both<LegBase>,
  leg: Both<ReachedLeg>,
  arm: Both<ReachedArm>,
  hands: Both<ContactSpan | null>,
): Limit[] {
  const worth = WORTH_SAYING * body.stature
  const limits: Limit[] = []
  if (!solution.ok)
    limits.push({
      code: 'apart',
      limb: 'legL',
      by: 0,
      text: 'The knees are planted too far apart for his thighs: no pelvis reaches both.',
    })
  const moved = distance([asked['pelvis.x'], asked['pelvis.y'], asked['pelvis.z']], solution.place)
  const first = solution.pulls[0]
  if (first && moved > worth && first.pull > 2 * WORTH_SAYING * 0.5) limits.push(pelvisStop(first, moved))
  for (const side of SIDES) {
    const free = bases[side].knee === null && bases[side].foot === null
    const legOver = leg[side].over
    if (Math.abs(legOver) > (free ? worth : 1e-6 * body.stature))
      limits.push(limbLimit('leg', side, legOver, free))
    const armFree = hands[side] === null
    const armOver = arm[side].over
    if (Math.abs(armOver) > (armFree ? worth : 1e-6 * body.stature))
      limits.push(limbLimit('arm', side, armOver, armFree))
    if (Math.abs(bases[side].slid) > worth)
      limits.push({
        code: bases[side].slid > 0 ? 'leg-straight' : 'leg-folded',
        limb: `leg${side}`,
        by: Math.abs(bases[side].slid),
        text: `His ${word(side)} foot slides ${centimetres(bases[side].slid)} along the ground: the shin is ${
          bases[side].slid > 0 ? 'too short' : 'too long'
        } for where it was planted.`,
      })
  }
  return limits
}

function pelvisStop(first: PelvisSolution['pulls'][number], moved: number): Limit {
  const side = first.name.slice(-1) as Side
  const part = first.name.startsWith('arm') ? 'arm' : 'leg'
  const how =
    first.end === 'straight'
      ? part === 'arm'
        ? 'arm is as straight as it goes with the hand planted'
        : 'leg is as straight as it goes with the foot planted'
      : part === 'arm'
        ? 'arm is folded as far as it goes'
        : 'leg is folded as far as it goes'
  return {
    code: `${part}-${first.end}`,
    limb: `${part}${side}`,
    by: moved,
    text: `His ${word(side)} ${how}: it stops the pelvis ${centimetres(moved)} short.`,
  }
}

function limbLimit(part: 'arm' | 'leg', side: Side, over: number, free: boolean): Limit {
  const end = part === 'arm' ? 'hand' : 'foot'
  const text = free
    ? `His ${word(side)} ${part} is ${over > 0 ? 'too short' : 'too long'} for where the ${end} is asked, by ${centimetres(over)}.`
    : `His ${word(side)} ${part} can't meet what it is planted on: ${centimetres(over)} ${over > 0 ? 'short' : 'too near'}.`
  return {
    code: `${part}-${over > 0 ? 'straight' : 'folded'}`,
    limb: `${part}${side}`,
    by: Math.abs(over),
    text,
  }
}

const word = (side: Side) => (side === 'L' ? 'left' : 'right')
const centimetres = (metres: number) => `${Math.max(1, Math.round(Math.abs(metres) * 100))} cm`
