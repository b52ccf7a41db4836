import { SIDES, type Side } from '../../body/model'
import { toAngles } from '../../space/rotation'
import { HIP_DROP } from './constants'
import { addAt } from './fixes'
import { runsOf } from './runs'
import type { Measured, Rule } from './types'
import { angle, frameAt, labelAt } from './words'

/** All on one leg, and the hip line stays level. */
export const noHipDrop: Rule = {
  id: 'hip-drop',
  name: 'No hip drop',
  pass: 'pelvis',
  level: 'look',
  onBlocking: false,
  plainInGraphic: false,
  fires: (measured) => SIDES.flatMap((side) => level(measured, side)),
}

function level(measured: Measured, side: Side) {
  const bears = (i: number) =>
    (measured.weighed[i]?.weighing.limbs.find(({ id }) => id === `leg${side}`)?.share ?? 0) > HIP_DROP.bears
  return runsOf(measured.frames.length, bears)
    .filter(([first, last]) => (last - first + 1) * measured.dt >= HIP_DROP.time * measured.root)
    .flatMap(([first, last]) => {
      let most = 0
      for (let i = first; i <= last; i++) most = Math.max(most, Math.abs(listAt(measured, i)))
      if (most >= HIP_DROP.level) return []
      const middle = Math.floor((first + last) / 2)
      const bearing = side === 'L' ? 'left' : 'right'
      const free = side === 'L' ? 'right' : 'left'
      return {
        from: frameAt(measured, first),
        to: frameAt(measured, last),
        number: most,
        sentence: `All his weight is on the ${bearing} leg, and the hip line stays within ${angle(most)} of level.`,
        remedy: {
          text: `Let the ${free} hip drop 3° to 5° at ${labelAt(measured, middle)}: the bearing hip stands high.`,
          fix: (plan: Parameters<typeof addAt>[0], takeId: string) =>
            addAt(plan, takeId, frameAt(measured, middle), {
              // A list > 0 raises the left side.
              'pelvis.list': (side === 'L' ? 1 : -1) * DROP - listAt(measured, middle),
            }),
        },
      }
    })
}

/** rad */
const DROP = (4 * Math.PI) / 180

const listAt = ({ poses }: Measured, i: number): number => {
  const pose = poses[i]
  return pose ? toAngles(pose.segments.lowerTrunk.rotation).list : 0
}
