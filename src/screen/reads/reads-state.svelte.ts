import { BODY_LIMITS } from '../../body/spec'
import type { Plan } from '../../document/plan'
import type { FrameSpan } from '../../plan/edit/retime'
import type { SpanReading } from '../../worker/protocol'
import { type Desk, samePlan } from '../desk.svelte'
import { outliving } from '../outliving.svelte'

export type PanelId = 'size' | 'sizes' | 'loads' | 'acting'

/** What every timed span of a take reads as; `fresh` while it belongs to the take as it stands. */
export interface ReadSpans {
  readonly spans: readonly SpanReading[]
  readonly fresh: boolean
}

/**
 * What the open take's timing reads as, worked out on the calculation thread; which of its spans is looked at, and
 * the size that is wanted. One for each desk, only for this sitting.
 */
export class ReadsState {
  readonly #desk: Desk
  #read: { readonly of: Plan; readonly takeId: string; readonly spans: readonly SpanReading[] } | null =
    $state.raw(null)
  #asked: { readonly of: Plan; readonly chosen: FrameSpan | null } | null = null
  #panel: PanelId = $state.raw('size')
  #chosen: FrameSpan | null = $state.raw(null)
  #picked: string | null = $state.raw(null)
  #wanted: number | null = $state.raw(null)

  constructor(desk: Desk) {
    this.#desk = desk
  }

  get panel(): PanelId {
    return this.#panel
  }
  show(panel: PanelId): void {
    this.#panel = panel
  }

  /** A stretch chosen by hand, within the take; null where none is. */
  readonly chosen: FrameSpan | null = $derived.by(() => {
    const last = this.#desk.take.length - 1
    const chosen = this.#chosen
    if (chosen === null || last < 1) return null
    const from = Math.min(chosen.from, last - 1)
    return { from, to: Math.min(Math.max(chosen.to, from + 1), last) }
  })
  choose(span: FrameSpan | null): void {
    this.#chosen = span
    this.#picked = span === null ? null : 'chosen'
  }
  /** @param name as `nameOf` gives it */
  pick(name: string): void {
    this.#picked = name
    if (name !== 'chosen') this.#chosen = null
  }

  readonly readings: ReadSpans | null = $derived.by(() => {
    const { plan, take, takeId } = this.#desk
    const read = this.#read
    if (read?.takeId !== takeId) return null
    return { spans: read.spans, fresh: samePlan(read.of, plan, take) }
  })

  /** The span that is looked at: the picked one, else the mover's move, else the first. */
  readonly reading: SpanReading | null = $derived.by(() => {
    const spans = this.readings?.spans ?? []
    return (
      spans.find((one) => nameOf(one) === this.#picked) ??
      spans.find(({ span }) => span.limb === this.#desk.mover.limb) ??
      spans[0] ??
      null
    )
  })

  /** Stature that the timing should read as, m; the body's own until another is asked for. */
  get wanted(): number {
    return this.#wanted ?? this.#desk.plan.body.stature
  }
  want(stature: number): void {
    const [least, most] = BODY_LIMITS.stature
    this.#wanted = Math.min(most, Math.max(least, stature))
  }

  /** Asks for the open take as it stands, unless that has been done. */
  ask(): void {
    const { plan, take, takeId, busy, tools } = this.#desk
    if (busy || tools.worker === undefined) return
    const { chosen } = this
    const asked = this.#asked
    if (asked !== null && asked.chosen === chosen && samePlan(asked.of, plan, take)) return
    const of: Plan = { ...plan, takes: [take] }
    const now = { of, chosen }
    this.#asked = now
    tools.worker.request(
      'reads as',
      { plan: of, chosen },
      {
        pieces: ([spans]) => {
          if (spans && this.#asked === now) this.#read = { of, takeId, spans }
        },
        failed: (reason) => {
          if (this.#asked !== now) return
          this.#asked = null
          this.#desk.say(`The timing can’t be read: ${reason}. The plan is kept.`, 'problem')
        },
      },
    )
  }
}

/** What tells one span of a take from the others, also after the take has been retimed: 'legL 2', 'settle 1'. */
export const nameOf = ({ span: { kind, limb, turn } }: SpanReading): string =>
  kind === 'chosen' ? kind : `${limb ?? kind} ${turn}`

const states = new WeakMap<Desk, ReadsState>()

export function readsStateOf(desk: Desk): ReadsState {
  let state = states.get(desk)
  if (state === undefined) {
    state = outliving(() => new ReadsState(desk))
    states.set(desk, state)
  }
  return state
}

/** Keeps the open take's timing read while the component that calls it stands; asked for once the picture rests. */
export function keepReading(desk: () => Desk): void {
  $effect(() => {
    const { plan, takeId, busy } = desk()
    void [plan, takeId, readsStateOf(desk()).chosen]
    if (busy) return
    const later = setTimeout(() => readsStateOf(desk()).ask(), RESTING)
    return () => clearTimeout(later)
  })
}

/** ms */
const RESTING = 80
