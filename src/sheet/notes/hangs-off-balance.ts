import { LEAN } from '../../weigh/constants'
import { nearestIn } from '../../weigh/polygon'
import { HANGS } from './constants'
import { balance } from './fixes'
import { runsOf } from './runs'
import { stillOf } from './still'
import type { Measured, Rule } from './types'
import { frameAt, length, wayText } from './words'

/** The weight stays outside of what could hold it, and no motion of the body catches it. */
export const hangsOffBalance: Rule = {
  id: 'balance',
  name: 'Hangs off balance',
  pass: 'contacts',
  level: 'breaks',
  onBlocking: true,
  plainInGraphic: false,
  fires(measured) {
    const far = -HANGS.room * measured.stature
    // Outside both in motion and held still: what a move catches is outside in one of them only.
    const outside = (i: number) => roomAt(measured, i) < far && stillRoom(measured, i) < far
    return runsOf(measured.frames.length, outside)
      .filter(([first, last]) => (last - first + 1) * measured.dt > HANGS.time * measured.root)
      .map(([first, last]) => {
        const worst = worstOf(measured, first, last)
        const room = -stillRoom(measured, worst)
        const [x, z] = back(measured, worst)
        const [from, to] = [frameAt(measured, first), frameAt(measured, last)]
        const way = wayText(measured, x, z)
        return {
          from,
          to,
          number: room,
          sentence: `He hangs ${length(measured, room)} outside his supports for ${last - first + 1} drawings, and nothing catches him.`,
          remedy: {
            text: `Take the pelvis ${length(measured, Math.hypot(x, z) / LEAN.weightPerPelvis)} ${way}, or give him something to stand on there.`,
            fix: balance(from, to),
          },
        }
      })
  },
}

/** m; finite and negative only where contacts could hold the body elsewhere. */
function roomAt({ weighed }: Measured, i: number): number {
  const room = weighed[i]?.weighing.room
  return room === undefined || !Number.isFinite(room) ? 0 : room
}

function worstOf(measured: Measured, first: number, last: number): number {
  let worst = first
  for (let i = first; i <= last; i++) if (stillRoom(measured, i) < stillRoom(measured, worst)) worst = i
  return worst
}

const stillRoom = (measured: Measured, i: number): number => {
  const room = stillOf(measured, i)?.room
  return room === undefined || !Number.isFinite(room) ? 0 : room
}

/** The move of the weight that brings it inside, x and z, and as far again as the rule allows outside. */
function back(measured: Measured, i: number): [number, number] {
  const weighing = stillOf(measured, i)
  if (!weighing || weighing.region.length === 0) return [0, 0]
  const [x, , z] = weighing.plumb
  const to = nearestIn(weighing.region, [x, z])
  const [dx, dz] = [to[0] - x, to[1] - z]
  const far = Math.hypot(dx, dz)
  const more = far > 0 ? 1 + (HANGS.room * measured.stature) / far : 0
  return [dx * more, dz * more]
}
