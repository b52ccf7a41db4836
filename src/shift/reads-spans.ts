import { type LimbId, limbOf } from '../document/contacts'
import type { Take } from '../document/plan'
import type { MotionProblem } from '../weigh/dynamic'
import { touchesOf } from '../weigh/take-up'
import type { Body, Contact } from '../weigh/types'
import { leastFrames } from './least-frames'
import { paceOf } from './pace'
import { LAST_TENTH } from './reads-constants'

/**
 * The spans of a take that gravity times, in order: of every limb that leaves and comes down again, from the
 * last tenth of its load to its touch; and the settles.
 * @param loadAt normal load of a limb at a frame, any unit; undefined where the frame isn't weighed
 */
export function gravitySpans(
  take: Take,
  loadAt: (limb: LimbId, frame: number) => number | undefined,
): GravitySpan[] {
  const moves = movesOf(take).map(({ limb, leaves, touches }): GravitySpan => {
    let most = 0
    for (let frame = 0; frame <= leaves; frame++) most = Math.max(most, loadAt(limb, frame) ?? 0)
    let from = leaves
    while (from > 0 && (loadAt(limb, from - 1) ?? most) <= LAST_TENTH * most) from--
    return { kind: 'move', limb, from, to: touches }
  })
  const settles = take.phases
    .filter(({ name, from, to }) => name === 'settle' && to > from)
    .map(({ from, to }): GravitySpan => ({ kind: 'settle', limb: null, from, to }))
  return [...moves, ...settles].sort((a, b) => a.from - b.from)
}

/** Frames; the span lasts to − from of them. */
export interface GravitySpan {
  readonly kind: 'move' | 'settle'
  readonly limb: LimbId | null
  readonly from: number
  readonly to: number
}

/** Where a limb is off altogether between two touches: its last frame down and its first one down again. */
function movesOf(take: Take): { limb: LimbId; leaves: number; touches: number }[] {
  const spans = new Map(take.contacts.map((span) => [span.id, span]))
  const limbs = new Map<LimbId, { from: number; to: number }[]>()
  for (const [id, { from, to }] of touchesOf(take)) {
    const span = spans.get(id)
    if (!span) continue
    const limb = limbOf(span.part)
    limbs.set(limb, [...(limbs.get(limb) ?? []), { from, to }])
  }
  return [...limbs].flatMap(([limb, touches]) => {
    const ordered = touches.sort((a, b) => a.from - b.from)
    const found: { limb: LimbId; leaves: number; touches: number }[] = []
    let down = Number.NEGATIVE_INFINITY
    for (const { from, to } of ordered) {
      if (Number.isFinite(down) && from > down + 1) found.push({ limb, leaves: down, touches: from })
      down = Math.max(down, to)
    }
    return found
  })
}

/**
 * The time a span takes and the least it could, unrounded, from how fast each of its frames may go. Null where
 * a frame can't be held at any pace, or one isn't weighed. A least of 0 is a span at which gravity is no limit.
 * @param dynamicsAt what a frame asks of its contacts
 * @param matters whether a frame could be the one that limits; others are passed over
 */
export function timedSpan(
  { from, to }: Pick<GravitySpan, 'from' | 'to'>,
  fps: number,
  dynamicsAt: (frame: number) => { readonly contacts: readonly Contact[]; readonly body: Body } | undefined,
  matters: (frame: number) => boolean = () => true,
): { readonly seconds: number; readonly least: number } | null {
  let most = Number.POSITIVE_INFINITY
  for (let frame = from; frame <= to; frame++) {
    if (!matters(frame)) continue
    const asked = dynamicsAt(frame)
    const pace = asked ? paceOf(asked.contacts, asked.body) : null
    if (pace === null) return null
    most = Math.min(most, pace.most)
  }
  const seconds = (to - from) / fps
  return { seconds, least: seconds / Math.sqrt(most) }
}

/**
 * The same, found as the least frames of the span are: weighed again at the pace it could have, since few
 * frames hide what happens between them. Null where no even pace will do.
 */
export function timedBest(
  problem: MotionProblem,
  { from, to }: Pick<GravitySpan, 'from' | 'to'>,
): { readonly seconds: number; readonly least: number } | null {
  const least = leastFrames(problem, { from, to })
  return least.ok ? { seconds: (to - from) / problem.fps, least: least.seconds } : null
}
