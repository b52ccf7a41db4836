import { LIMBS, type LimbId, sideOf } from '../../document/contacts'
import { REACH } from './constants'
import { moveHeld } from './reach-fix'
import { runsOf } from './runs'
import type { Finding, Measured, Rule } from './types'
import { frameAt, labelAt, length, partWord } from './words'

/** A limb is asked to go further than it is long. */
export const beyondReach: Rule = {
  id: 'reach',
  name: 'Reach',
  pass: 'contacts',
  level: 'look',
  onBlocking: true,
  plainInGraphic: false,
  fires: (measured) => LIMBS.flatMap((limb) => far(measured, limb)),
}

function far(measured: Measured, limb: LimbId): Finding[] {
  const { body, style, poses, frames } = measured
  const side = sideOf(limb)
  const whole = limb.startsWith('leg')
    ? body.lengths.thigh + body.lengths.shank
    : body.lengths.upperArm + body.lengths.forearm + body.lengths.hand
  const over = (i: number) => overAt(poses[i], limb)
  const stands = (i: number) =>
    measured.touches.some((touch) => touch.limb === limb && touch.first <= i && i <= touch.last)
  return runsOf(frames.length, (i) => over(i) > REACH[style] * whole).map(([first, last]) => {
    let worst = first
    for (let i = first; i <= last; i++) if (over(i) > over(worst)) worst = i
    const unmet = stands(worst) && !poses[worst]?.pads.some((pad) => pad.limb === limb)
    const end = limb.startsWith('leg') ? 'foot' : 'hand'
    return {
      from: frameAt(measured, first),
      to: frameAt(measured, last),
      number: over(worst),
      ...(unmet ? { level: 'breaks' as const } : {}),
      sentence: `The ${partWord(limb)} is ${length(measured, over(worst))} too short for where its ${end} is asked to be.`,
      remedy: {
        text: `Bring the pelvis or the chest nearer to the ${end} at ${labelAt(measured, worst)}, or ask for less.`,
        fix: moveHeld(limb, side, frameAt(measured, first), frameAt(measured, last)),
      },
    }
  })
}

/** m; a limb that meets what it is planted on stops the pelvis instead, and isn't asked too much. */
function overAt(pose: Measured['poses'][number] | undefined, limb: LimbId): number {
  if (pose?.pads.some((pad) => pad.limb === limb)) return 0
  const limits = pose?.limits.filter((limit) => limit.limb === limb && limit.code.endsWith('-straight')) ?? []
  return limits.reduce((most, { by }) => Math.max(most, by), 0)
}
