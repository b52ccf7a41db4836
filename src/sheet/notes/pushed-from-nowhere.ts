import { add, norm, type Vec3 } from '../../space/vec'
import { PUSH_NONE } from '../../weigh/constants'
import { HANGS, PUSHED } from './constants'
import { balance, stretch } from './fixes'
import { slidesUnderLoad } from './slides-under-load'
import { stillOf } from './still'
import type { DrawnPush, Finding, Measured, Rule } from './types'
import { frameAt, mass, number2, wayText } from './words'

/** Weight that moves as nothing that touches it could make it: it floats, is yanked down or shoved. */
export const pushedFromNowhere: Rule = {
  id: 'push',
  name: 'Floats, yanked down, shoved',
  pass: 'timing',
  level: 'breaks',
  onBlocking: false,
  plainInGraphic: true,
  fires: (measured) => pushSpans(measured).map(([first, last]) => finding(measured, first, last)),
}

/** The spans with such a push, drawn frames; without what a slide does, which has a note of its own. */
export function pushSpans(measured: Measured): [number, number][] {
  const slides = slidesUnderLoad.fires(measured)
  return merged(measured, flagged(measured)).filter(
    ([first, last]) =>
      !slides.some(
        ({ from, to }) => from <= frameAt(measured, first) && frameAt(measured, last) <= to + measured.on,
      ),
  )
}

/** Drawn frames with a push too long or too large, as [first, last] in order. */
function flagged(measured: Measured): [number, number][] {
  const { root, dt, pushes } = measured
  const found: [number, number][] = []
  const window = Math.max(1, Math.round((PUSHED.within * root) / dt))
  for (let i = 0; i < pushes.length; i++) {
    const first = pushes[i] as DrawnPush
    if (first.size < PUSH_NONE) continue
    if (forceful(first) && forceful(pushes[i + 1])) found.push([i, i + 1])
    let gained: Vec3 = [0, 0, 0]
    for (let k = i; k < Math.min(pushes.length, i + window); k++) {
      gained = add(gained, (pushes[k] as DrawnPush).velocity)
      if (norm(gained) <= PUSHED.velocity * root) continue
      found.push([i, k])
      break
    }
  }
  return found
}

const forceful = (push: DrawnPush | undefined): boolean =>
  push !== undefined && push.size > PUSHED.size && norm(push.force) > PUSHED.forced * push.size

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
  const { pushes, root, weighed } = measured
  const span = pushes.slice(first, last + 1)
  const worst = span.reduce((a, b) => (b.size > a.size ? b : a))
  const gained = mostGained(span)
  const kilograms = worst.size * (weighed[first]?.body.mass ?? 0)
  const times = Math.max(
    Math.sqrt(worst.size / PUSHED.size),
    norm(gained) / (PUSHED.velocity * root),
    LEAST_STRETCH,
  )
  const [from, to] = [frameAt(measured, first), frameAt(measured, last)]
  return {
    from,
    to,
    number: kilograms,
    sentence: `He ${how(measured, gained)} with ${mass(measured, kilograms)} from nowhere: ${number2(norm(gained))} m/s that nothing gives him.`,
    remedy: {
      text: leans(measured, first, last)
        ? 'Take the pelvis over what holds him: more frames alone don’t help.'
        : 'Give the move more frames, or let it start earlier and stop later.',
      fix(plan, takeId) {
        const balanced = leans(measured, first, last) ? balance(from, to)(plan, takeId) : plan
        if (balanced !== plan) return balanced
        return stretch(from, to, Math.min(MOST_STRETCH, times * MARGIN))(plan, takeId)
      },
    },
  }
}

/** The largest velocity gained over any part of a span, m/s. */
function mostGained(span: readonly DrawnPush[]): Vec3 {
  let most: Vec3 = [0, 0, 0]
  for (let i = 0; i < span.length; i++) {
    let gained: Vec3 = [0, 0, 0]
    for (const { velocity } of span.slice(i)) {
      gained = add(gained, velocity)
      if (norm(gained) > norm(most)) most = gained
    }
  }
  return most
}

/** Whether he could not be held still there either: then it is his place that is pushed, not his pace. */
function leans(measured: Measured, first: number, last: number): boolean {
  for (let i = first; i <= last; i++)
    if ((stillOf(measured, i)?.room ?? 0) < -HANGS.room * measured.stature) return true
  return false
}

/** A stretch: no less than this, no more than that, and a little more than is worked out. */
const LEAST_STRETCH = 1.15
const MOST_STRETCH = 3
const MARGIN = 1.1

function how(measured: Measured, [x, y, z]: Vec3): string {
  if (Math.abs(y) > Math.hypot(x, z)) return y > 0 ? 'floats' : 'is yanked down'
  return `is shoved ${wayText(measured, x, z)}`
}
