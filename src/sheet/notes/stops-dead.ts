import { MOVES } from './constants'
import { channelsOf, delay } from './fixes'
import { type Move, movesOf } from './moves'
import { followBy } from './starts-together'
import { type Finding, type Measured, PARTS, type PartId, type Rule } from './types'
import { frameAt, framesText, label, labelAt, seconds } from './words'

/** Everything ends at once and nothing moves after it: a stop no body makes. */
export const stopsDead: Rule = {
  id: 'dead',
  name: 'Stops dead, or goes still after the accent',
  pass: 'timing',
  level: 'look',
  onBlocking: false,
  plainInGraphic: true,
  fires(measured) {
    const rest = Math.round((MOVES.rest * measured.root) / measured.dt)
    return stops(measured).flatMap((stop) => {
      const { start, still } = stillAfter(measured, stop.last + 1)
      const [from, to] = [frameAt(measured, start), frameAt(measured, start + still)]
      const held = measured.holds.some((hold) => hold.from <= from + measured.on && hold.to >= from)
      return still > rest && !held ? finding(measured, stop, from, to) : []
    })
  },
}

interface Stop {
  /** Last drawn interval in which anything moves. */
  readonly last: number
  /** The parts that end with it, and whether from speed. */
  readonly parts: readonly PartId[]
  readonly dead: boolean
}

/** Where all that moves ends within MOVES.stop drawn frames. */
function stops(measured: Measured): Stop[] {
  const moves = PARTS.flatMap((part) => movesOf(measured, part))
  const lasts = [...new Set(moves.map(({ last }) => last))].sort((a, b) => a - b)
  return lasts.flatMap((last) => {
    if (moves.some((move) => move.first <= last + 1 && move.last > last)) return []
    const ending = moves.filter((move) => move.last <= last && move.last >= last - MOVES.stop)
    // Another part that ended a little earlier trails: then it isn't one stop. A limb that came down has landed.
    const trails = moves.filter(
      (move) =>
        move.last < last - MOVES.stop &&
        move.last > last - TRAIL * MOVES.stop &&
        !ending.some(({ part }) => part === move.part) &&
        !lands(measured, move),
    )
    if (ending.length < STOPPING || trails.length > 0) return []
    const dead = ending.some(
      ({ part, peak, last: end }) => (measured.speeds[part][end - MOVES.stop + 1] ?? 0) > MOVES.dead * peak,
    )
    return { last, parts: ending.map(({ part }) => part), dead }
  })
}

/** Whether a move ends because its limb touches something. */
const lands = ({ touches }: Measured, { part, last }: Move): boolean =>
  touches.some(({ limb, begins, first }) => limb === part && begins && Math.abs(first - last) <= MOVES.stop)

/** Parts that must end for a stop: one limb alone that stops is a gesture. */
const STOPPING = 2
/** Over MOVES.stop: how long before the end a part may have ended to count as part of the settling. */
const TRAIL = 4

/** Where the stillness begins: a tremble of MOVES.stop drawn frames that is no move may come before it. */
function stillAfter(measured: Measured, end: number): { start: number; still: number } {
  let best = { start: end, still: stillFor(measured, end) }
  for (let start = end + 1; start <= end + MOVES.stop; start++) {
    const still = stillFor(measured, start)
    if (still > best.still) best = { start, still }
  }
  return best
}

function stillFor(measured: Measured, start: number): number {
  const steps = measured.speeds.pelvis.length
  let i = start
  while (i < steps && PARTS.every((part) => still(measured, part, i))) i++
  return i - start
}

function still({ speeds }: Measured, part: PartId, i: number): boolean {
  const top = speeds[part].reduce((a, b) => Math.max(a, b), 0)
  return (speeds[part][i] ?? 0) <= MOVES.still * top
}

function finding(measured: Measured, stop: Stop, from: number, to: number): Finding {
  const by = followBy(measured)
  const time = ((to - from) / measured.on) * measured.dt
  const how = stop.dead ? 'stops dead' : 'goes still'
  return {
    from,
    to,
    number: time,
    sentence: `Everything ${how} at ${label(measured, from)} and nothing moves for ${seconds(time)}.`,
    remedy: {
      text: `Let the parts end one after the other, ${framesText(by)} apart: pelvis, chest, head, hands, into a moving hold; it starts at ${labelAt(measured, stop.last)}.`,
      fix: (plan, takeId) =>
        LATER.reduce((changing, [part, times]) => {
          const channels = channelsOf(part)
          const take = changing.takes.find(({ id }) => id === takeId)
          if (!take) return changing
          return channels.reduce((one, id) => {
            const key = take.channels[id].findLast(({ frame }) => frame <= from + measured.on)
            return key ? delay(one, takeId, key.frame, times * by, [id]) : one
          }, changing)
        }, plan),
    },
  }
}

const LATER: readonly (readonly [string, number])[] = [
  ['chest', 1],
  ['head', 2],
  ['armL', 3],
  ['armR', 2],
]
