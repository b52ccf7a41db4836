import { contactsAt, loadsAt, makeMotion } from '../../pose/between'
import { type ChainAsk, type Known, solveChain } from './chain'
import { BENDS, EFFORT, SHOWN } from './constants'
import type { Keys } from './key-pose'
import { timed } from './option'
import { describe, differs } from './options'
import { remediesFor } from './remedies'
import type { Found, Progress, Scene, ShiftAnswer, ShiftAsk, ShiftLimit, ShiftOption, Still } from './types'
import { handWays, WAYS, type Way } from './ways'

/**
 * Plans a shift of weight: from "this limb must go there" to key poses with frames. Yields how far it is, never
 * more than a few milliseconds apart, so that a thread can listen and stop it; bounded by evaluations, cold
 * every time, the same answer to the same question bit for bit.
 *
 * Every option is a take of its own that has been weighed in motion, frame by frame, before it is shown: push
 * ≤ 2 % W, room ≥ −0.5 % H, the mover's main pad leaves at ≤ 2 % W and trailing toes at ≤ 6 %, nothing planted is
 * missed, hip line ≤ 20°. Pelvis-led ones come first, those that bend far last. Where there is none, the answer names the limit that is
 * nearest to giving, by how much, and remedies that have been planned and passed the same gate.
 *
 * @throws RangeError when the asked frame is not in the take
 */
export function* planShift(ask: ShiftAsk): Generator<Progress, ShiftAnswer> {
  const found = yield* search(ask)
  if (found.options.length > 0) return { found: true, options: found.options }
  const remedies = yield* remediesFor(ask, found.limit, search)
  return { found: false, limit: found.limit, remedies }
}

/**
 * Tries the ways in order until enough different ones hold, or so many steps have been spent that a person would
 * rather ask for something else.
 */
export function* search(
  ask: ShiftAsk,
  ways: readonly Way[] = waysFor(ask),
  most: number = EFFORT.search,
): Generator<Progress, Found> {
  const { scene, start } = startOf(ask)
  let spent = 0
  let allowed = most
  function* telling<T>(steps: Generator<null, T>, told: Progress): Generator<Progress, T | null> {
    let step = steps.next()
    while (!step.done) {
      if (++spent > allowed) return null
      yield told
      step = steps.next()
    }
    return step.value
  }
  const options: ShiftOption[] = []
  const kept: (readonly Keys[])[] = []
  const known: Known = new Map()
  let limit: ShiftLimit = {
    code: 'nothing',
    by: Number.POSITIVE_INFINITY,
    text: 'This move does not fit how he stands.',
  }
  for (const [i, way] of ways.entries()) {
    if (options.length >= SHOWN || spent > most) break
    allowed = Math.min(most, spent + (options.length > 0 ? EFFORT.more : EFFORT.way))
    // What costs more poses is tried where plainer ways don't do.
    if (way.narrow > 0 && options.length > 0) continue
    // Where a plain way is too late, one that does something else first is later.
    if (limit.code === 'frames' && (way.hand !== null || way.narrow > 0)) continue
    if (way.hand !== null && (options.length >= ENOUGH || options.some(({ id }) => id === way.id))) continue
    const told: Progress = { done: i / ways.length, trying: way.name }
    const solved = yield* telling(solveChain(scene, start, chainAsk(ask), way, known), told)
    if (solved === null) continue
    if (!solved.ok) {
      limit = nearer(limit, solved.limit)
      continue
    }
    const chain = solved.value
    if (!kept.every((other) => differs(scene, chain, other))) continue
    const verified = yield* telling(timed(scene, ask, chain), told)
    if (verified === null) {
      limit = nearer(limit, UNTIMED)
      continue
    }
    if (!verified.ok) {
      limit = nearer(limit, verified.limit)
      continue
    }
    kept.push(chain)
    options.push(describe(ask, way, chain, verified.value))
  }
  return { options: ranked(options), limit: Number.isFinite(limit.by) ? limit : { ...limit, by: 0 } }
}

/** In the order of the ways, but those that bend far come after those that don't. */
const ranked = (options: readonly ShiftOption[]): ShiftOption[] => [
  ...options.filter(({ lean }) => lean <= BENDS),
  ...options.filter(({ lean }) => lean > BENDS),
]

/** The ways to try, in the order in which an animator would want them. */
function waysFor({ leads = 'pelvis', handHelp = true, mover, goal, foot }: ShiftAsk): Way[] {
  const plain =
    leads === 'pelvis'
      ? [WAYS.pelvis, WAYS['pelvis-chest'], WAYS['sit-back'], WAYS.chest]
      : [WAYS.chest, WAYS['pelvis-chest'], WAYS.pelvis, WAYS['sit-back']]
  if (mover.startsWith('arm') || goal.kind === 'heel-sit') return plain
  const helped = handHelp ? [...handWays('hand-front'), ...handWays('hand-side')] : []
  const narrowed = [WAYS.pelvis.ease, WAYS.chest.ease].flatMap((ease) =>
    NARROWER.map((narrow): Way => ({ ...WAYS.narrow, ease, narrow })),
  )
  return foot === 'stays' ? [...plain, ...helped] : [...plain, ...helped, ...narrowed]
}

/** Of a way that ever more frames did not mend. */
const UNTIMED: ShiftLimit = {
  code: 'motion',
  by: Number.POSITIVE_INFINITY,
  text: 'In motion it did not come to hold, however long it was made.',
}

/** So many ways without a hand are enough. */
const ENOUGH = 3

/** How much nearer each knee comes, over H, least first. */
const NARROWER: readonly number[] = [0.015, 0.0225, 0.03, 0.0375, 0.045]

const chainAsk = ({ goal, mover, foot = 'along', hitches = 1, push = 1 }: ShiftAsk): ChainAsk => ({
  goal,
  mover,
  foot,
  hitches,
  push,
})

function startOf({ body, ground, gravity, stiffness, fps, take, frame }: ShiftAsk): {
  scene: Scene
  start: Still
} {
  if (!(Number.isInteger(frame) && frame >= 0 && frame < take.length))
    throw new RangeError(`the take has frames 0 to ${take.length - 1}, not ${frame}`)
  const scene = {
    body,
    ground,
    gravity,
    stiffness,
    fps,
    loads: loadsAt(take, frame),
    picks: take.loads.filter(({ from }) => from > frame),
  }
  const { reached } = makeMotion(body, take).poseAt(frame)
  return { scene, start: { controls: reached, contacts: contactsAt(take, frame) } }
}

/** Of two limits the one that is nearer to giving. */
function nearer(a: ShiftLimit, b: ShiftLimit): ShiftLimit {
  if (rank(b) !== rank(a)) return rank(b) < rank(a) ? b : a
  return b.by < a.by ? b : a
}
const RANKS: readonly ShiftLimit['code'][] = [
  'frames',
  'motion',
  'weight',
  'hip-line',
  'flesh',
  'limb',
  'place',
  'nothing',
]
const rank = ({ code }: ShiftLimit) => RANKS.indexOf(code)
