import type { FrameSpan } from '../../plan/edit/retime'
import { keyedFramesOf } from '../../plan/key-poses'
import type { Desk } from '../desk.svelte'
import { outliving } from '../outliving.svelte'

export type PanelId = 'frames' | 'loads' | 'chart' | 'parts' | 'play' | 'camera'

/** What of the page on timing is open, and which span it speaks of. One for each desk; only for this sitting. */
export class TimingState {
  readonly #desk: Desk
  #panel: PanelId = $state.raw('frames')
  #whole = $state.raw(false)

  constructor(desk: Desk) {
    this.#desk = desk
  }

  get panel(): PanelId {
    return this.#panel
  }
  show(panel: PanelId): void {
    this.#panel = panel
  }

  /** Whether it is about the take from its first key to its last. */
  get whole(): boolean {
    return this.#whole
  }
  setWhole(whole: boolean): void {
    this.#whole = whole
  }

  /** Between the keys around the frame; on a key the span that begins there. Null where there are no two keys. */
  readonly span: FrameSpan | null = $derived.by(() => {
    const { take, frame } = this.#desk
    const keys = keyedFramesOf(take)
      .filter(({ mark }) => mark === 'key')
      .map((key) => key.frame)
    const [first, last] = [keys[0], keys.at(-1)]
    if (first === undefined || last === undefined || first === last) return null
    if (this.#whole) return { from: first, to: last }
    const from = Math.min(
      keys.findLastIndex((key) => key <= frame),
      keys.length - 2,
    )
    return { from: keys[Math.max(0, from)] as number, to: keys[Math.max(0, from) + 1] as number }
  })
}

const states = new WeakMap<Desk, TimingState>()

export function timingStateOf(desk: Desk): TimingState {
  let state = states.get(desk)
  if (state === undefined) {
    state = outliving(() => new TimingState(desk))
    states.set(desk, state)
  }
  return state
}
