import { LIFTS_EARLY } from './constants'
import { leanBefore } from './fixes'
import { leanOf } from './shift-facts'
import type { Finding, Lift, Measured, Rule } from './types'
import { frameAt, labelAt, length, mass, partName, wayText } from './words'

/** A part leaves while the body can't do without it. */
export const liftsTooEarly: Rule = {
  id: 'lifts-early',
  name: 'Lifts too early',
  pass: 'contacts',
  level: 'breaks',
  onBlocking: true,
  plainInGraphic: false,
  fires: (measured) => measured.lifts.flatMap((lift) => early(measured, lift) ?? []),
}

function early(measured: Measured, lift: Lift): Finding | null {
  const [before, least] = lift.least
  if (!(Math.min(before, least) > LIFTS_EARLY.least) || pushesOff(measured, lift)) return null
  const frame = measured.weighed[lift.last]
  if (!frame) return null
  const part = lift.parts[0]
  if (!part) return null
  const name = lift.parts.length > 1 ? `${partName(part).split(' ')[0]} leg` : partName(part)
  const gone = Math.min(before, least) * frame.body.mass
  const way = lift.way && lift.left > 0 ? lift : null
  return {
    from: frameAt(measured, Math.max(0, lift.last - 1)),
    to: lift.frame,
    number: Math.min(before, least),
    sentence: `${name} leaves with ${mass(measured, gone)} that nothing else can carry.`,
    remedy: {
      text: way
        ? `Bring the weight ${length(measured, lift.left)} further ${wayText(measured, ...(lift.way ?? [0, 0]))} by ${labelAt(measured, lift.last)}, or lift later.`
        : 'Lift later: the rest doesn’t hold him alone yet.',
      ...(way ? { fix: leanBefore(leanOf(measured, lift)) } : {}),
    },
  }
}

/** The ground gives more than the weight, and more through this limb from frame to frame. */
function pushesOff({ weighed, plan }: Measured, { least, last }: Lift): boolean {
  const body = weighed[last]?.body
  if (!body) return false
  const up = body.force[1] / (body.mass * plan.gravity)
  return least[1] - least[0] >= LIFTS_EARLY.rising && up >= LIFTS_EARLY.pushOff
}
