import type { Point2 } from '../contact/hull'
import { COULD_LET_GO, EMPTY_SHARE, PUSH_NONE, ROUND_OFF, SAFE_ROOM } from './constants'
import { inset, nearestIn } from './polygon'
import type { Body, Contact, Move, Verdict, Weighing } from './types'
import { regionOn } from './weigh'
import { ranges, recall, regions, system } from './workspace'

export type { Verdict } from './types'

/**
 * Can these contacts be lifted, all together, and if not, how far must the weight go first?
 * `weighing` is the answer of `weigh` for the same contacts and body; `mover` holds contact ids, of which
 * those that aren't there are passed over. Distances are level moves of the centre of mass, after which
 * the other contacts can give this frame's force and moment without the mover's.
 */
export function judge(
  contacts: readonly Contact[],
  body: Body,
  weighing: Weighing,
  mover: ReadonlySet<string>,
): Verdict {
  recall(contacts, body, weighing)
  const moves = Uint8Array.from(contacts, ({ id }) => (mover.has(id) ? 1 : 0))
  const others = moves.map((one) => 1 - one)
  const touches = moves.includes(1)
  const region = touches || weighing.region.length === 0 ? regionOn(others, body) : weighing.region
  if (!touches) return { kind: 'off', load: 0, least: 0, empty: null, safe: null, region, never: null }
  const load = system.loadOf(moves)
  const least = leastOf(moves, contacts, weighing)
  const kind = kindOf(load, least)
  const free = kind === 'could let go' && weighing.push.size < PUSH_NONE
  return {
    kind,
    load: load * system.weight,
    least: least * system.weight,
    empty: free && region.length > 0 ? STAY : moveInto(region, body),
    safe: moveInto(inset(region, SAFE_ROOM * body.stature), body),
    region,
    never: region.length > 0 ? null : reason(others),
  }
}

const STAY: Move = { move: [0, 0], distance: 0 }

function kindOf(load: number, least: number): Verdict['kind'] {
  if (load < EMPTY_SHARE) return 'empty'
  if (least < COULD_LET_GO) return 'could let go'
  return least < EMPTY_SHARE ? 'on the edge' : 'pinned'
}

/** In W; the weighing's own number where the mover is one of its contacts or limbs, so that the two never differ. */
function leastOf(moves: Uint8Array, contacts: readonly Contact[], weighing: Weighing): number {
  const ids = contacts.filter((_, c) => moves[c] === 1)
  const limb = ids[0]?.limb
  const known =
    ids.length === 1
      ? weighing.contacts[moves.indexOf(1)]
      : contacts.every((contact, c) => (contact.limb === limb) === (moves[c] === 1))
        ? weighing.limbs.find(({ id }) => id === limb)
        : undefined
  if (known && weighing.ranged) return known.least / system.weight
  ranges.begin(system)
  return ranges.least(moves)
}

function moveInto(region: readonly Point2[], { com }: Body): Move | null {
  if (region.length === 0) return null
  const from: Point2 = [com[0], com[2]]
  const to = nearestIn(region, from)
  const move: Point2 = [to[0] - from[0], to[1] - from[1]]
  return { move, distance: Math.hypot(move[0], move[1]) }
}

function reason(others: Uint8Array): Verdict['never'] {
  if (!others.includes(1)) return 'no other contact'
  if ((system.wrench[1] as number) <= ROUND_OFF) return 'nothing presses down'
  return regions.couldHold(system, others) ? 'load limit' : 'no grip'
}
