import type { How } from '../../sheet/how'
import type { Desk } from '../desk.svelte'
import type { Box } from '../shell/place'

/** The figure whose working is open. */
export interface Asked {
  /** As it was when it was asked. */
  readonly how: How
  readonly anchor: Box
  /** What has the focus again when the card closes. */
  readonly from: HTMLElement
}

/** Which figure of a desk is being explained: one at a time. */
export class AskedHow {
  #asked: Asked | null = $state.raw(null)

  get asked(): Asked | null {
    return this.#asked
  }

  ask(how: How, from: HTMLElement): void {
    this.#asked = { how, anchor: from.getBoundingClientRect(), from }
  }

  /** Closes the card of `asked`; another one that is open already stays. */
  close(asked: Asked): void {
    if (this.#asked !== asked) return
    this.#asked = null
    if (document.activeElement === document.body) asked.from.focus({ preventScroll: true })
  }
}

const asks = new WeakMap<Desk, AskedHow>()

export function askedHowOf(desk: Desk): AskedHow {
  let ask = asks.get(desk)
  if (ask === undefined) {
    ask = new AskedHow()
    asks.set(desk, ask)
  }
  return ask
}
