import { norm, scale, sub, type Vec3 } from '../../space/vec'
import { PUSHED } from './constants'
import { stretch } from './fixes'
import type { Finding, Measured, Rule } from './types'
import { frameAt, mass, number2, wayText } from './words'

/** Weight that moves as nothing that touches it could make it: it floats, is yanked down or shoved. */
export const pushedFromNowhere: Rule = {
  id: 'push',
  name: 'Floats, yanked down, shoved',
  pass: 'timing',
  level: 'breaks',
  onBlocking: false,
  plainInGraphic: true,
  fires(measured) {
    const spans = merged(measured, flagged(measured))
    return spans.map(([first, last]) => finding(measured, first, last))
  },
}

/** Drawn frames with a push too long or too large, as [first, last] in order. */
function flagged(measured: Measured): [number, number][] {
  const { root, dt, frames } = measured
  const found: [number, number][] = []
  const window = Math.max(1, Math.round((PUSHED.within * root) / dt))
  for (let i = 0; i < frames.length; i++) {
    if (forceful(measured, i) && forceful(measured, i + 1)) found.push([i, i + 1])
    let gathered: Vec3 = [0, 0, 0]
    for (let k = i; k < Math.min(frames.length, i + window); k++) {
      gathered = sub(gathered, scale(velocityAt(measured, k), -1))
      if (norm(gathered) <= PUSHED.velocity * root) continue
      found.push([i, k])
      break
    }
  }
  return found.filter(([first]) => norm(velocityAt(measured, first)) > 0 || forceful(measured, first))
}

/** Velocity that nothing explains, gained within a drawn frame, m/s. */
function velocityAt({ weighed, dt }: Measured, i: number): Vec3 {
  const frame = weighed[i]
  return frame ? scale(frame.weighing.push.force, dt / frame.body.mass) : [0, 0, 0]
}

function forceful({ weighed }: Measured, i: number): boolean {
  const frame = weighed[i]
  if (!frame) return false
  const { push } = frame.weighing
  const force = norm(push.force) / (frame.body.mass * frame.body.gravity)
  return push.size > PUSHED.size && force > PUSHED.forced * push.size
}

function merged(measured: Measured, spans: readonly [number, number][]): [number, number][] {
  const out: [number, number][] = []
  const gap = Math.round((PUSHED.within * measured.root) / measured.dt / 2)
  for (const [first, last] of spans) {
    const before = out.at(-1)
    if (before && first <= before[1] + gap) before[1] = Math.max(before[1], last)
    else out.push([first, last])
  }
  return out
}

function finding(measured: Measured, first: number, last: number): Finding {
  const worst = worstOf(measured, first, last)
  const frame = measured.weighed[worst]
  const push = frame?.weighing.push
  const force: Vec3 = push?.force ?? [0, 0, 0]
  const kilograms = push && frame ? push.size * frame.body.mass : 0
  let gained: Vec3 = [0, 0, 0]
  for (let i = first; i <= last; i++) gained = sub(gained, scale(velocityAt(measured, i), -1))
  const speed = norm(gained)
  const times = Math.max(
    Math.sqrt((push?.size ?? 0) / PUSHED.size),
    speed / (PUSHED.velocity * measured.root),
    LEAST_STRETCH,
  )
  return {
    from: frameAt(measured, first),
    to: frameAt(measured, last),
    number: kilograms,
    sentence: `He ${how(measured, force)} with ${mass(measured, kilograms)} from nowhere: ${number2(speed)} m/s that nothing gives him.`,
    remedy: {
      text: 'Give the move more frames, or let it start earlier and stop later.',
      fix: stretch(frameAt(measured, first), frameAt(measured, last), Math.min(MOST_STRETCH, times * MARGIN)),
    },
  }
}

/** A stretch: no less than this, no more than that, and a little more than is worked out. */
const LEAST_STRETCH = 1.15
const MOST_STRETCH = 3
const MARGIN = 1.1

function worstOf({ weighed }: Measured, first: number, last: number): number {
  let worst = first
  for (let i = first; i <= last; i++)
    if ((weighed[i]?.weighing.push.size ?? 0) > (weighed[worst]?.weighing.push.size ?? 0)) worst = i
  return worst
}

function how(measured: Measured, [x, y, z]: Vec3): string {
  if (Math.abs(y) > Math.hypot(x, z)) return y > 0 ? 'floats' : 'is yanked down'
  return `is shoved ${wayText(measured, x, z)}`
}
