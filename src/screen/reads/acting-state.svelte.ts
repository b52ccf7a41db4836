import type { BeatName } from '../../shift/reads-acting'
import type { Desk } from '../desk.svelte'

/** Who acts the take out, and the beats of their footage so far. One for each desk, only for this sitting. */
export class ActingState {
  #person = $state.raw(GROWN)
  #seconds: Readonly<Partial<Record<BeatName, number>>> = $state.raw({})
  #zero: number | null = null

  /** Stature of the person on the footage, m. */
  get person(): number {
    return this.#person
  }
  setPerson(stature: number): void {
    this.#person = stature
  }

  /** When each beat comes on the footage, s. */
  get seconds(): Readonly<Partial<Record<BeatName, number>>> {
    return this.#seconds
  }

  /** @param seconds undefined takes the beat out */
  set(name: BeatName, seconds: number | undefined): void {
    const { [name]: _, ...others } = this.#seconds
    this.#seconds = seconds === undefined ? others : { ...others, [name]: seconds }
  }

  /** Sets a beat as it is tapped; the first one is at 0. @param now ms, on any clock that runs evenly */
  tap(name: BeatName, now: number): void {
    const latest = Math.max(0, ...Object.values(this.#seconds))
    if (this.#zero === null || Object.keys(this.#seconds).length === 0) this.#zero = now - 1000 * latest
    this.set(name, (now - this.#zero) / 1000)
  }

  clear(): void {
    this.#seconds = {}
    this.#zero = null
  }
}

/** A grown person, m: somewhat over the middle, ours. */
const GROWN = 1.75

const states = new WeakMap<Desk, ActingState>()

export function actingStateOf(desk: Desk): ActingState {
  let state = states.get(desk)
  if (state === undefined) {
    state = new ActingState()
    states.set(desk, state)
  }
  return state
}
