import { nearestIn } from '../../weigh/polygon'
import { HANGS } from './constants'
import { addAt, type Fix, takeOf } from './fixes'
import { runsOf } from './runs'
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
    const outside = (i: number) => roomAt(measured, i) < -HANGS.room * measured.stature
    return runsOf(measured.frames.length, outside)
      .filter(([first, last]) => (last - first + 1) * measured.dt > HANGS.time * measured.root)
      .map(([first, last]) => {
        const worst = worstOf(measured, first, last)
        const room = -roomAt(measured, worst)
        const [x, z] = back(measured, worst)
        const [from, to] = [frameAt(measured, first), frameAt(measured, last)]
        const way = wayText(measured, x, z)
        return {
          from,
          to,
          number: room,
          sentence: `He hangs ${length(measured, room)} outside his supports for ${last - first + 1} drawings, and nothing catches him.`,
          remedy: {
            text: `Take the pelvis ${length(measured, Math.hypot(x, z) / WEIGHT_PER_PELVIS)} ${way}, or give him something to stand on there.`,
            fix: carryPelvis(from, to, frameAt(measured, worst), [x, z]),
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
  for (let i = first; i <= last; i++) if (roomAt(measured, i) < roomAt(measured, worst)) worst = i
  return worst
}

/** The move of the weight that brings it inside, x and z, with as much again as the rule allows outside. */
function back({ weighed, stature }: Measured, i: number): [number, number] {
  const weighing = weighed[i]?.weighing
  if (!weighing || weighing.region.length === 0) return [0, 0]
  const [x, , z] = weighing.plumb
  const to = nearestIn(weighing.region, [x, z])
  const [dx, dz] = [to[0] - x, to[1] - z]
  const far = Math.hypot(dx, dz)
  const more = far > 0 ? 1 + (HANGS.room * stature) / far : 0
  return [dx * more, dz * more]
}

/** How far the weight goes for a move of the pelvis: measured on the table's bodies, 0.7 to 0.85. */
const WEIGHT_PER_PELVIS = 0.77

/** The pelvis's keys in the span carried along, and one where it is worst. */
function carryPelvis(from: number, to: number, worst: number, [x, z]: readonly [number, number]): Fix {
  const offset = { 'pelvis.x': x / WEIGHT_PER_PELVIS, 'pelvis.z': z / WEIGHT_PER_PELVIS }
  return (plan, takeId) => {
    const keyed = takeOf(plan, takeId).channels['pelvis.x'].map(({ frame }) => frame)
    const inside = keyed.filter((frame) => frame >= from && frame <= to)
    const frames = inside.length > 0 ? inside : [worst]
    return frames.reduce((changing, frame) => addAt(changing, takeId, frame, offset), plan)
  }
}
