import { SHIFT } from './constants'
import { leanBefore } from './fixes'
import { leanOf, owing, shiftFacts } from './shift-facts'
import type { Rule } from './types'
import { angle, frameAt, labelAt, length, wayText } from './words'

/** The chest does what the pelvis should. */
export const leansFromWaist: Rule = {
  id: 'waist',
  name: 'Leans from the waist',
  pass: 'pelvis',
  level: 'look',
  onBlocking: false,
  plainInGraphic: false,
  fires: (measured) =>
    measured.lifts
      .filter((lift) => lift.way !== null && lift.needed >= SHIFT.silent * measured.size)
      .flatMap((lift) => {
        const facts = shiftFacts(measured, lift)
        if (!facts || facts.chest <= SHIFT.chest || facts.pelvis >= SHIFT.pelvis) return []
        const gone = Math.max(0, facts.pelvis * lift.needed)
        return {
          from: frameAt(measured, lift.start),
          to: lift.frame,
          number: facts.pelvis,
          sentence: `The chest leans ${angle(facts.chest)} while the pelvis goes only ${length(measured, gone)} of ${length(measured, lift.needed)}.`,
          remedy: {
            text: `Let the pelvis lead ${wayText(measured, ...(lift.way ?? [0, 0]))} by ${labelAt(measured, lift.last)} and the chest follow.`,
            ...(owing(measured).includes(lift) ? { fix: leanBefore(leanOf(measured, lift)) } : {}),
          },
        }
      }),
}
