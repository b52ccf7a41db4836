import type { Plan } from '../../document/plan'
import type { Opinion } from '../../trial/rest'
import type { Desk } from '../desk.svelte'
import { RESTED } from './constants'

/** What a physics engine makes of the loads of the desk's frame. One for each desk. */
export class SecondOpinion {
  readonly #desk: Desk
  #asked: Asked | null = $state.raw(null)

  constructor(desk: Desk) {
    this.#desk = desk
  }

  // Getters, not deriveds: those would belong to the component that asked first, and go stale with it.

  /** Null until there is one on the pose as it stands, and where there is nothing to say. */
  get found(): readonly Opinion[] | null {
    const opinions = this.#answer
    return opinions !== null && opinions.length > 0 ? opinions : null
  }
  /** Whether it was asked about the pose as it stands and had nothing to say. */
  get silent(): boolean {
    return this.#answer?.length === 0
  }

  get #answer(): readonly Opinion[] | null {
    const { plan, takeId, frame } = this.#desk
    const asked = this.#asked
    const still = asked?.plan === plan && asked.takeId === takeId && asked.frame === frame
    return still ? asked.opinions : null
  }

  /** Asks once the pose has rested; the function that comes back drops it. */
  askSoon(): () => void {
    const later = setTimeout(() => this.ask(), RESTED)
    return () => clearTimeout(later)
  }

  ask(): void {
    const { plan, take, takeId, frame, tools } = this.#desk
    tools.worker?.request(
      'second opinion',
      { plan: { ...plan, takes: [take] }, frame },
      {
        pieces: ([opinions]) => {
          if (opinions) this.#asked = { plan, takeId, frame, opinions }
        },
      },
    )
  }
}

interface Asked {
  readonly plan: Plan
  readonly takeId: string
  readonly frame: number
  readonly opinions: readonly Opinion[]
}

const opinions = new WeakMap<Desk, SecondOpinion>()

export function opinionOf(desk: Desk): SecondOpinion {
  let opinion = opinions.get(desk)
  if (opinion === undefined) {
    opinion = new SecondOpinion(desk)
    opinions.set(desk, opinion)
  }
  return opinion
}
