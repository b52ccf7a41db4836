import { degrees } from '../../space/units'
import { SHIFT } from './constants'
import { leanBefore } from './fixes'
import { leanOf, owing, shiftFacts } from './shift-facts'
import type { Rule } from './types'
import { angle, frameAt, labelAt, length, limbName, wayText } from './words'

/** The weight stays where it was while a limb is made ready to leave. */
export const turnsDoesntTravel: Rule = {
  id: 'turns',
  name: 'Turns, doesn’t travel',
  pass: 'pelvis',
  level: 'breaks',
  onBlocking: false,
  plainInGraphic: false,
  fires: (measured) =>
    owing(measured).flatMap((lift) => {
      const facts = shiftFacts(measured, lift)
      if (!facts || facts.weight >= SHIFT.weight) return []
      const gone = Math.max(0, lift.needed - lift.left)
      const way = length(measured, lift.needed)
      const part =
        gone < SHIFT.seen * lift.needed
          ? `goes none of the ${way}`
          : `goes only ${length(measured, gone)} of the ${way}`
      const turns = degrees(facts.turn) >= 1 ? `The hips turn ${angle(facts.turn)}, but the` : 'The'
      return {
        from: frameAt(measured, lift.start),
        to: lift.frame,
        number: facts.weight,
        sentence: `${turns} weight ${part} it has to go before the ${limbName(lift.limb)} leaves.`,
        remedy: {
          text: `Carry the pelvis ${wayText(measured, ...(lift.way ?? [0, 0]))} until the weight is over what stays, by ${labelAt(measured, lift.last)}.`,
          fix: leanBefore(leanOf(measured, lift)),
        },
      }
    }),
}
