import { SIDES, type Side } from '../../body/model'
import type { ChannelId } from '../../document/channels'
import { HAND } from './constants'
import { addAt, pin } from './fixes'
import { windowsOf } from './runs'
import { between, betweenAxes, relative } from './turns'
import type { Finding, Measured, Rule } from './types'
import { angle, frameAt, labelAt } from './words'

/** The forearm swings and its free hand is stiff. */
export const handIgnoresForearm: Rule = {
  id: 'hand',
  name: 'Hand ignores the forearm',
  pass: 'arms',
  level: 'style',
  onBlocking: false,
  plainInGraphic: false,
  fires: (measured) => SIDES.flatMap((side) => stiff(measured, side)),
}

function stiff(measured: Measured, side: Side): Finding[] {
  const { frames, root, dt } = measured
  const window = Math.max(1, Math.round((HAND.within * root) / dt))
  const swings = windowsOf(frames.length, window, HAND.forearm, (a, b) =>
    free(measured, side, a, b) ? swing(measured, side, a, b) : 0,
  )
  return swings.flatMap(([a, b]) => {
    if (bend(measured, side, a, b) >= HAND.hand) return []
    const name = side === 'L' ? 'left' : 'right'
    const wrist: ChannelId = `arm${side}.wrist`
    const [from, to] = [frameAt(measured, a), frameAt(measured, b)]
    return {
      from,
      to,
      number: swing(measured, side, a, b),
      sentence: `The ${name} forearm swings ${angle(swing(measured, side, a, b))} and its hand doesn’t drag.`,
      remedy: {
        text: `Bend the ${name} wrist some degrees against the swing by ${labelAt(measured, b)}.`,
        fix: (plan, takeId) => addAt(pin(plan, takeId, from, [wrist]), takeId, to, { [wrist]: DRAG }),
      },
    }
  })
}

/** rad */
const DRAG = (8 * Math.PI) / 180

/** In the air all the time, and nothing in it. */
function free({ poses, take, frames }: Measured, side: Side, a: number, b: number): boolean {
  for (let i = a; i <= b; i++) {
    if (poses[i]?.pads.some(({ part }) => part === `hand${side}`)) return false
    const frame = frames[i] ?? 0
    const holds = take.loads.some(
      ({ on, from, to }) => (on === `hand${side}` || on === 'hands') && from <= frame && frame <= to,
    )
    if (holds) return false
  }
  return true
}

function swing({ poses }: Measured, side: Side, a: number, b: number): number {
  const [from, to] = [poses[a], poses[b]]
  if (!from || !to) return 0
  return betweenAxes(from.segments[`forearm${side}`].rotation, to.segments[`forearm${side}`].rotation, 1)
}

/** The greatest angle between the hand against the forearm now and at the start of the window. */
function bend({ poses }: Measured, side: Side, a: number, b: number): number {
  const against = (i: number) => {
    const segments = poses[i]?.segments
    return segments ? relative(segments[`forearm${side}`].rotation, segments[`hand${side}`].rotation) : null
  }
  const from = against(a)
  let most = 0
  for (let i = a + 1; i <= b; i++) {
    const now = against(i)
    if (from && now) most = Math.max(most, between(from, now))
  }
  return most
}
