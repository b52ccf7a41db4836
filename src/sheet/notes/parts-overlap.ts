import type { Limit } from '../../pose/types'
import { runsOf } from './runs'
import type { Measured, Rule } from './types'
import { frameAt, labelAt, length } from './words'

/** Parts run into each other deeper than flesh gives. */
export const partsOverlap: Rule = {
  id: 'overlap',
  name: 'Parts overlap',
  pass: 'texture',
  level: 'look',
  onBlocking: false,
  plainInGraphic: false,
  fires(measured) {
    const names = new Set(measured.poses.flatMap(({ limits }) => limits.filter(isFlesh).map(nameOf)))
    return [...names].flatMap((name) => {
      const deep = (i: number) => depth(measured, i, name)
      return runsOf(measured.frames.length, (i) => deep(i) > 0).map(([first, last]) => {
        let worst = first
        for (let i = first; i <= last; i++) if (deep(i) > deep(worst)) worst = i
        return {
          from: frameAt(measured, first),
          to: frameAt(measured, last),
          number: deep(worst),
          sentence: `${name} ${length(measured, deep(worst))}.`,
          remedy: {
            text: `Take them apart at ${labelAt(measured, worst)}: swing the elbow or the knee out.`,
          },
        }
      })
    })
  },
}

const isFlesh = ({ code }: Limit) => code === 'flesh'

/** 'His left forearm runs into the thigh by' */
const nameOf = ({ text }: Limit) => text.replace(/ \d+ cm\.$/, '')

const depth = ({ poses }: Measured, i: number, name: string): number =>
  poses[i]?.limits.find((limit) => isFlesh(limit) && nameOf(limit) === name)?.by ?? 0
