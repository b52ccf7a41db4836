import { partsOf, sideOf } from '../../document/contacts'
import { scale } from '../../space/vec'
import { helpingHands } from './help'
import { firstHeld } from './job'
import type { Keys } from './key-pose'
import { solveKeys } from './keys'
import { type Aim, leftOf, other, outward, partOfGoal, transferFor, WIDE } from './moves'
import { poseOf } from './region'
import { failed, type Solved, solved } from './sound'
import type { Scene, ShiftLimit, Still, Transfer } from './types'
import { WAYS, type Way } from './ways'

/** What decides a chain of transfers, beside the way. */
export interface ChainAsk extends Aim {
  readonly hitches: number
  readonly push: number
}

/**
 * Solves the chain of transfers that a goal takes in one way: a hand planted or knees narrowed first where the
 * way says so, then the move, in hitches where asked. Yields between poses.
 */
export function* solveChain(
  scene: Scene,
  start: Still,
  ask: ChainAsk,
  way: Way,
  known: Known = new Map(),
): Generator<null, Solved<readonly Keys[]>> {
  if (way.hand !== null) return yield* withHand(scene, start, ask, way)
  if (way.narrow === 0) return yield* moves(scene, start, ask, way)
  // Coming nearer takes four transfers; where it wouldn't help, that shows in one.
  const there = yield* moves(scene, withNearerKnees(scene, start, ask, way.narrow), ask, way)
  if (!there.ok) return there
  const before = known.get(way.narrow) ?? known.get(NEVER) ?? (yield* narrowed(scene, start, ask, way.narrow))
  known.set(way.narrow, before)
  if (!before.ok) {
    // The first knee leaves before anything depends on how far it goes.
    if (before.first) known.set(NEVER, before)
    return before
  }
  const rest = yield* moves(scene, before.end, ask, way)
  return rest.ok ? solved([...before.value, ...rest.value]) : rest
}

/** How narrowings by so much of the stature went, for other ways of the same question. */
export type Known = Map<number, Narrowed>
type Narrowed =
  | { readonly ok: true; readonly value: readonly Keys[]; readonly end: Still }
  | { readonly ok: false; readonly limit: ShiftLimit; readonly first: boolean }
const NEVER = 0

/** The knees nearer, one part after the other. */
function* narrowed(scene: Scene, start: Still, ask: ChainAsk, by: number): Generator<null, Narrowed> {
  const chain: Keys[] = []
  let still = start
  for (const make of narrowing(ask, by)) {
    const transfer = make(scene, still)
    if (!transfer)
      return { ...failed('nothing', 0, 'His knees are not both down: nothing to narrow.'), first: true }
    const keys = yield* firstSolved(scene, still, transfer, NARROWING, 1)
    if (!keys.ok) return { ...keys, first: chain.length === 0 && keys.limit.code === 'weight' }
    chain.push(keys.value)
    still = endOf(keys.value)
  }
  return { ok: true, value: chain, end: still }
}

/** Ways of getting the weight off a knee that comes nearer, the plainest first. */
const NARROWING: readonly Way[] = [WAYS.pelvis, WAYS['sit-back'], WAYS['pelvis-chest'], WAYS.chest]

/** The move itself, in as many hitches as asked; between two the other leg of a shuffle follows. */
function* moves(
  scene: Scene,
  start: Still,
  ask: ChainAsk,
  way: Way,
): Generator<null, Solved<readonly Keys[]>> {
  const chain: Keys[] = []
  let still = start
  for (let i = 0; i < ask.hitches; i++) {
    const share = 1 / (ask.hitches - i)
    const goal =
      ask.goal.kind === 'shuffle' ? partOfGoal(still, ask, 1 / ask.hitches) : partOfGoal(still, ask, share)
    const steps: Aim[] = [{ ...ask, goal }]
    if (i < ask.hitches - 1 && goal.kind === 'shuffle' && ask.mover.startsWith('leg'))
      steps.push({ ...ask, mover: `leg${other(sideOf(ask.mover))}`, goal })
    for (const step of steps) {
      const foot = way.toesStay ? 'stays' : step.foot
      const tries = (goal.kind === 'half-kneel' ? WIDE : [1]).flatMap((wide) =>
        [way.ease, ...way.more].map((ease) => ({ wide, ease })),
      )
      const keys = yield* firstHeld(tries, ({ wide, ease }) =>
        oneMove(scene, still, { ...step, wide, foot }, { ...way, ease }, ask.push),
      )
      if (!keys.ok) return keys
      chain.push(keys.value)
      still = endOf(keys.value)
    }
  }
  return solved(chain)
}

function* oneMove(
  scene: Scene,
  still: Still,
  aim: Aim,
  way: Way,
  push: number,
): Generator<null, Solved<Keys>> {
  const transfer = transferFor(scene, still, aim)
  if (!transfer) return failed('nothing', 0, 'This move does not fit how he stands.')
  if (way.toesStay && !kneeAlone(transfer)) return failed('nothing', 0, 'Toes cannot stay in this move.')
  return yield* solveKeys(scene, still, transfer, way, push)
}

/** Only a move of the kneecap leaves the toes. */
const kneeAlone = ({ release }: Transfer) => release.length === 1 && release[0]?.startsWith('knee')

function* withHand(
  scene: Scene,
  start: Still,
  ask: ChainAsk,
  way: Way,
): Generator<null, Solved<readonly Keys[]>> {
  const transfer = transferFor(scene, start, ask)
  const release = transfer?.release ?? partsOf(ask.mover)
  const help = helpingHands(scene, start, ask.mover, release, way.hand ?? 'front')[way.place]
  if (!help) return failed('place', 0, 'There is nothing within reach for a hand.')
  const hand = yield* solveKeys(scene, start, help, WAYS.pelvis)
  if (!hand.ok) return hand
  const rest = yield* moves(scene, endOf(hand.value), ask, { ...way, hand: null })
  return rest.ok ? solved([hand.value, ...rest.value]) : rest
}

function* firstSolved(
  scene: Scene,
  still: Still,
  transfer: Transfer,
  ways: readonly Way[],
  push: number,
): Generator<null, Solved<Keys>> {
  let last: Solved<Keys> = failed('nothing', 0, '')
  for (const way of ways) {
    last = yield* solveKeys(scene, still, transfer, way, push)
    if (last.ok) return last
  }
  return last
}

/** As if he knelt with each knee nearer from the start. */
function withNearerKnees(scene: Scene, start: Still, ask: ChainAsk, by: number): Still {
  let { controls, contacts } = start
  for (const make of narrowing(ask, by)) {
    const transfer = make(scene, { controls, contacts })
    const spot = transfer?.plant[0]
    if (spot)
      contacts = contacts.map((contact) => (contact.part === spot.part ? { ...contact, ...spot } : contact))
  }
  return { controls: poseOf(scene, { controls, contacts }).reached, contacts }
}

/** Knee by knee toward the midline: the kneecap with its toes left, then the toes after it. */
function narrowing(ask: ChainAsk, by: number): ((scene: Scene, still: Still) => Transfer | null)[] {
  const sides = [sideOf(ask.mover), other(sideOf(ask.mover))] as const
  return sides.flatMap((side) =>
    (['knee', 'foot'] as const).map((part) => (scene: Scene, still: Still): Transfer | null => {
      const contact = still.contacts.find((c) => c.part === `${part}${side}`)
      const knee = still.contacts.find((c) => c.part === `knee${side}`)
      if (!contact || !knee) return null
      const way = scale(leftOf(poseOf(scene, still)), -outward(side) * by * scene.body.stature)
      const [x, y, z] = contact.position
      const { kind, heading, normal, on } = contact
      const position = [x + way[0], y, z + way[2]] as const
      return {
        limb: `leg${side}`,
        release: [contact.part],
        plant: [{ part: contact.part, kind, position, heading, normal, on }],
        reach: null,
        ends: 'as-before',
        kind: 'help',
      }
    }),
  )
}

/** What a transfer ends in. */
function endOf({ keys }: Keys): Still {
  const last = keys.at(-1)
  if (!last) throw new RangeError('a transfer has a key at least')
  return last.still
}
