import type { Take } from '../../document/plan'
import { GATE, PRESS, ROUNDS, STRETCH } from './constants'
import { type Checked, check } from './gate'
import type { Keys } from './key-pose'
import { failed, type Solved, solved } from './sound'
import { type Layout, layOut, type Pacing } from './take'
import type { Scene, ShiftAsk, ShiftLimit } from './types'

/** A chain that has passed the gate. */
export interface Verified {
  readonly layout: Layout
  readonly checked: Checked
  /** Frames over those of a careful move by the table. */
  readonly slowed: number
}

/**
 * Gives a chain the time it needs: laid out by the table, checked in motion, and the spans that fail made
 * longer until all of it holds. Waits first where the mover may not leave before a frame. Yields between frames.
 */
export function* timed(
  scene: Scene,
  ask: ShiftAsk,
  chain: readonly Keys[],
): Generator<null, Solved<Verified>> {
  const { take: old, frame, pace = 0, notBefore, downBy } = ask
  const allowed = allowedPush(ask)
  const mover: Take['mover'] = { limb: ask.mover, toesStay: toesStay(chain) }
  const lay = (pacing: Pacing) => layOut(scene, old, frame, chain, pacing, mover)
  let stretch = chain.map(({ keys }) => keys.map(() => 1))
  const table = lay({ pace: 0, stretch, early: [], wait: 0 })
  let early: readonly number[] = chain.map(() => 0)
  let wait = 0
  const stuck = new Stuck()
  let limit: ShiftLimit = { code: 'motion', by: 0, text: 'It does not hold in motion.' }
  for (let round = 0; round < ROUNDS; round++) {
    const pacing = { pace, stretch, early, wait }
    wait = notBefore === undefined ? 0 : Math.max(0, wait + notBefore - leavesAt(lay(pacing)))
    const layout = lay({ ...pacing, wait })
    const checked = yield* check(
      scene,
      layout,
      chain,
      allowed,
      round < PRESS.rounds ? PRESS.careful + (PRESS.thrown - PRESS.careful) * pace : Number.POSITIVE_INFINITY,
    )
    if (checked.limit === null) {
      const late = downBy === undefined ? 0 : touchesAt(layout, chain) - downBy
      if (late > 0) return failed('frames', late, `He needs ${late} more frames to be down.`)
      return solved({ layout, checked, slowed: (layout.to - frame - wait) / (table.to - frame) })
    }
    limit = checked.limit
    if (checked.slow.length === 0 && checked.early.length === 0) break
    if (stuck.on(checked.slow)) return failed(limit.code, limit.by, `However long it takes: ${limit.text}`)
    early = early.map((share, s) => checked.early.find(([at]) => at === s)?.[1] ?? share)
    stretch = stretch.map((row, s) =>
      row.map((x, i) => {
        const [, , over] = checked.slow.find(([a, b]) => a === s && b === i) ?? []
        return over === undefined ? x : x * longer(over)
      }),
    )
  }
  return { ok: false, limit }
}

/** Notices spans that more time does not help: a pose that jumps pushes the same however long its span is. */
class Stuck {
  private last = new Map<string, { readonly over: number; readonly rounds: number }>()

  /** @param slow the spans that fail in a round, all of which were made longer after the round before */
  on(slow: Checked['slow']): boolean {
    const now: typeof this.last = new Map()
    for (const [s, i, over] of slow) {
      const before = this.last.get(`${s} ${i}`)
      const same = before !== undefined && over > STRETCH.helps * before.over + STRETCH.spare
      now.set(`${s} ${i}`, { over, rounds: same ? before.rounds + 1 : 0 })
    }
    this.last = now
    return [...now.values()].some(({ over, rounds }) => rounds >= (over > STRETCH.large ? 1 : STRETCH.stuck))
  }
}

/** What may be pushed from nowhere, W: past the gate only on purpose. */
const allowedPush = ({ push = 1 }: ShiftAsk): number => GATE.push + (push - 1) * PUSHED
const PUSHED = 0.4

const longer = (over: number) =>
  Math.max(
    STRETCH.least,
    Math.min(STRETCH.most, Math.sqrt(1 + (Math.max(0, over) + STRETCH.spare) / STRETCH.gives)),
  )

const toesStay = (chain: readonly Keys[]) => {
  const release = chain.at(-1)?.transfer.release ?? []
  return release.length === 1 && release[0]?.startsWith('knee') === true
}

/** The last frame before the last transfer's main pad leaves; the start of the shift where nothing does. */
export const leavesAt = ({ leaves, from }: Layout): number => leaves.at(-1) ?? from

/** The frame at which it is down. */
export function touchesAt({ frames, to }: Layout, chain: readonly Keys[]): number {
  const touches = chain.at(-1)?.touches ?? -1
  return touches < 0 ? to : (frames.at(-1)?.[touches] ?? to)
}
