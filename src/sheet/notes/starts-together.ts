import { MOVES } from './constants'
import { channelsOf, delay, pin } from './fixes'
import { lasts, type Move, movesOf } from './moves'
import { type Measured, PARTS, type Rule } from './types'
import { frameAt, framesText, labelAt, listed, partWord } from './words'

/** Everything begins at once: nothing leads and nothing follows. */
export const startsTogether: Rule = {
  id: 'together',
  name: 'Starts together',
  pass: 'timing',
  level: 'look',
  onBlocking: false,
  plainInGraphic: true,
  fires(measured) {
    const moves = PARTS.flatMap((part) => movesOf(measured, part))
      .filter((move) => lasts(measured, move) > MOVES.time * measured.root)
      .sort((a, b) => a.begun - b.begun)
    return groups(moves).map((group) => {
      const [first, last] = [group[0]?.begun ?? 0, group.at(-1)?.begun ?? 0]
      const names = listed(group.map(({ part }) => partWord(part)))
      const by = followBy(measured)
      return {
        from: frameAt(measured, first),
        to: frameAt(measured, last + 1),
        number: group.length,
        sentence: `${capital(names)} all start at ${labelAt(measured, first)}.`,
        remedy: {
          text: `Let one lead: chest ${framesText(by)} after the pelvis, head and hands after that.`,
          fix: (plan: Parameters<typeof pin>[0], takeId: string) =>
            FOLLOW.reduce((changing, [part, times]) => {
              const move = group.find((one) => one.part === part)
              if (!move) return changing
              const frame = frameAt(measured, move.first)
              const channels = channelsOf(part)
              return delay(pin(changing, takeId, frame, channels), takeId, frame, times * by, channels)
            }, plan),
        },
      }
    })
  },
}

/** Who follows, and after how many steps. */
const FOLLOW: readonly (readonly [string, number])[] = [
  ['chest', 1],
  ['head', 2],
  ['armL', 3],
  ['armR', 2],
]

/** A step of following, frames: two drawings at 24 frames a second, as long at any rate. */
export const followBy = ({ on, fps, root }: Measured): number =>
  Math.max(1, Math.ceil((2 * root * fps) / (24 * on))) * on

/** Groups of different parts that begin within MOVES.start of each other, large enough, none overlapping. */
function groups(moves: readonly Move[]): Move[][] {
  const found: Move[][] = []
  for (let i = 0; i < moves.length; ) {
    const start = moves[i]?.begun ?? 0
    const near = moves.slice(i).filter((move) => move.begun <= start + MOVES.start)
    const parts = [...new Map(near.map((move) => [move.part, move])).values()]
    if (parts.length >= MOVES.together) {
      found.push(parts)
      i += near.length
    } else i++
  }
  return found
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
