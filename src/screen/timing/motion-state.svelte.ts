import type { Plan } from '../../document/plan'
import type { Sheet } from '../../sheet/types'
import type { LeastFrames } from '../../shift/least-frames'
import type { DynamicFrame } from '../../weigh/dynamic'
import { type Desk, samePlan } from '../desk.svelte'
import { outliving } from '../outliving.svelte'

/** A take weighed in motion, as far as it is. */
export interface MotionWeighings {
  readonly takeId: string
  readonly frames: ReadonlyMap<number, DynamicFrame>
  /** With the loads in motion; null until every frame has been weighed. */
  readonly sheet: Sheet | null
  /** Whether it belongs to the take as it stands. */
  readonly fresh: boolean
  /** Whether the sheet is of these frames too. */
  readonly whole: boolean
}

/** The least frames of a span, or null while they are being worked out. */
export interface SpanLeast {
  readonly from: number
  readonly to: number
  readonly least: LeastFrames | null
}

/**
 * The open take weighed in motion on the calculation thread, for everything that shows it. Nothing is asked for
 * until something wants it; the newest state of the plan wins. One for each desk.
 */
export class MotionState {
  readonly #desk: Desk
  #weighed: Weighed | null = $state.raw(null)
  #asked: Plan | null = null
  #least: Least | null = $state.raw(null)

  constructor(desk: Desk) {
    this.#desk = desk
  }

  /** What is known of the open take; null before anything is. */
  readonly weighings: MotionWeighings | null = $derived.by(() => {
    const { plan, take, takeId } = this.#desk
    const weighed = this.#weighed
    if (weighed?.takeId !== takeId) return null
    return { ...weighed, fresh: samePlan(weighed.of, plan, take) }
  })

  /** The current frame in motion; null where it is not weighed as it stands. */
  readonly frame: DynamicFrame | null = $derived.by(() =>
    this.weighings?.fresh ? (this.weighings.frames.get(this.#desk.frame) ?? null) : null,
  )

  /** Asks for the open take as it stands, unless that has been done. */
  ask(): void {
    const { plan, take, takeId, frame, busy, tools } = this.#desk
    if (busy || tools.worker === undefined) return
    if (this.#asked !== null && samePlan(this.#asked, plan, take)) return
    const of: Plan = { ...plan, takes: [take] }
    this.#asked = of
    const frames = new Map<number, DynamicFrame>()
    const before = this.#weighed?.takeId === takeId ? this.#weighed.sheet : null
    tools.worker.request(
      'weigh motion',
      { plan: of, near: frame },
      {
        pieces: (pieces) => {
          let made: Sheet | null = null
          for (const piece of pieces)
            if ('sheet' in piece) made = piece.sheet
            else frames.set(piece.frame, piece)
          if (this.#asked !== of) return
          const whole = made !== null
          this.#weighed = { of, takeId, frames: new Map(frames), sheet: made ?? before, whole }
        },
        failed: (reason) => {
          if (this.#asked !== of) return
          this.#asked = null
          this.#desk.say(`The take can’t be weighed in motion: ${reason}. The plan is kept.`, 'problem')
        },
      },
    )
  }

  /** The least frames of a span of the open take as it stands; null where nobody asked. */
  leastOf(from: number, to: number): SpanLeast | null {
    const found = this.#least
    const { plan, take } = this.#desk
    return found?.from === from && found.to === to && samePlan(found.of, plan, take) ? found : null
  }

  /** Asks for the least frames of a span, unless that has been done. */
  askLeast(from: number, to: number): void {
    const { plan, take, busy, tools } = this.#desk
    if (busy || tools.worker === undefined || this.leastOf(from, to) !== null) return
    const of: Plan = { ...plan, takes: [take] }
    this.#least = { of, from, to, least: null }
    tools.worker.request(
      'least frames',
      { plan: of, from, to },
      {
        pieces: (pieces) => {
          const least = pieces.find((piece) => piece !== null)
          if (least && this.#least?.of === of) this.#least = { of, from, to, least }
        },
        failed: (reason) => {
          if (this.#least?.of === of) this.#least = null
          this.#desk.say(`The least frames can’t be found: ${reason}.`, 'problem')
        },
      },
    )
  }
}

interface Weighed extends Omit<MotionWeighings, 'fresh'> {
  readonly of: Plan
}

interface Least extends SpanLeast {
  readonly of: Plan
}

const states = new WeakMap<Desk, MotionState>()

export function motionStateOf(desk: Desk): MotionState {
  let state = states.get(desk)
  if (state === undefined) {
    state = outliving(() => new MotionState(desk))
    states.set(desk, state)
  }
  return state
}

/**
 * The sheet that the view asks for, with the loads of a body held still or those in motion; those held still until
 * the others have been weighed for the first time.
 */
export function shownSheet(desk: Desk): { readonly sheet: Sheet | null; readonly fresh: boolean } {
  const still = { sheet: desk.takeWeighings?.sheet ?? null, fresh: desk.takeWeighings?.fresh ?? false }
  if (desk.view.loads === 'still') return still
  const { weighings } = motionStateOf(desk)
  if (!weighings?.sheet) return { ...still, fresh: false }
  return { sheet: weighings.sheet, fresh: weighings.fresh && weighings.whole }
}

/**
 * Keeps the open take weighed in motion while the component that calls it stands; asked for once the picture
 * rests.
 * @param wanted whether it is wanted at the moment
 */
export function keepInMotion(desk: () => Desk, wanted: () => boolean = () => true): void {
  $effect(() => {
    const { plan, takeId, busy } = desk()
    void [plan, takeId]
    if (busy || !wanted()) return
    const later = setTimeout(() => motionStateOf(desk()).ask(), RESTING)
    return () => clearTimeout(later)
  })
}

/** Nothing is asked for before the picture has rested so long, ms. */
const RESTING = 60
