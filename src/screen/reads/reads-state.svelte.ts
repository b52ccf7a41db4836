import type { Plan } from '../../document/plan'
import type { SpanReading } from '../../worker/protocol'
import { type Desk, samePlan } from '../desk.svelte'
import { outliving } from '../outliving.svelte'

export type PanelId = 'size' | 'beside' | 'act'

/** What the open take's timing reads as; the last answer stays until the new one is in. One for each desk. */
export class ReadsState {
  readonly #desk: Desk
  #read: { readonly of: Plan; readonly takeId: string; readonly spans: readonly SpanReading[] } | null =
    $state.raw(null)
  #asked: Plan | null = null
  #panel: PanelId = $state.raw('size')
  #picked: number | null = $state.raw(null)
  #size: number | null = $state.raw(null)
  #person = $state.raw(PERSON)

  constructor(desk: Desk) {
    this.#desk = desk
  }

  get panel(): PanelId {
    return this.#panel
  }
  show(panel: PanelId): void {
    this.#panel = panel
  }

  readonly spans: { readonly list: readonly SpanReading[]; readonly fresh: boolean } | null = $derived.by(
    () => {
      const { plan, take, takeId } = this.#desk
      const read = this.#read
      return read?.takeId === takeId ? { list: read.spans, fresh: samePlan(read.of, plan, take) } : null
    },
  )

  /** The span that is spoken of: the picked one, else the first move of a limb. */
  readonly current: SpanReading | null = $derived.by(() => {
    const list = this.spans?.list ?? []
    const picked = this.#picked === null ? undefined : list[this.#picked]
    return picked ?? list.find(({ span }) => span.kind === 'move') ?? list[0] ?? null
  })
  pick(index: number): void {
    this.#picked = index
  }

  /** The stature it should read as, m: the body's own at first. */
  get size(): number {
    return this.#size ?? this.#desk.body.stature
  }
  setSize(metres: number): void {
    this.#size = metres
  }

  /** Stature of the person who acts it out, m. */
  get person(): number {
    return this.#person
  }
  setPerson(metres: number): void {
    this.#person = metres
  }

  ask(): void {
    const { plan, take, takeId, frame, busy, tools } = this.#desk
    if (busy || tools.worker === undefined) return
    if (this.#asked !== null && samePlan(this.#asked, plan, take)) return
    const of: Plan = { ...plan, takes: [take] }
    this.#asked = of
    tools.worker.request(
      'reads as',
      { plan: of, near: frame },
      {
        pieces: (pieces) => {
          const spans = pieces.find((piece) => piece !== null)
          if (spans && this.#asked === of) this.#read = { of, takeId, spans }
        },
        failed: (reason) => {
          if (this.#asked !== of) return
          this.#asked = null
          this.#desk.say(`What it reads as can’t be worked out: ${reason}. The plan is kept.`, 'problem')
        },
      },
    )
  }
}

/** m; a grown person, as the presets have it. */
const PERSON = 1.75

const states = new WeakMap<Desk, ReadsState>()

export function readsStateOf(desk: Desk): ReadsState {
  let state = states.get(desk)
  if (state === undefined) {
    state = outliving(() => new ReadsState(desk))
    states.set(desk, state)
  }
  return state
}

/** Keeps what the take reads as while the component that calls it stands; asked for once the picture rests. */
export function keepReading(desk: () => Desk): void {
  $effect(() => {
    const { plan, takeId, busy } = desk()
    void [plan, takeId]
    if (busy) return
    const later = setTimeout(() => readsStateOf(desk()).ask(), RESTING)
    return () => clearTimeout(later)
  })
}

/** ms */
const RESTING = 80
