import type { LimbId } from '../../document/contacts'
import type { Plan } from '../../document/plan'
import { centimetres } from '../../sheet/format'
import { type LiftWords, liftWords } from '../../sheet/lift-words'
import type { LiftTrial } from '../../trial/lift'
import type { Desk } from '../desk.svelte'
import { browserFrames, type FrameClock } from '../playback.svelte'
import { isStill } from '../theme.svelte'
import { FADE, HELD, LET_GO } from './constants'

/** A lift that was tried, at the pose that it was tried on. */
export interface Tried {
  readonly plan: Plan
  readonly takeId: string
  readonly frame: number
  readonly limb: LimbId
  /** Null while the calculation thread is at it. */
  readonly trial: LiftTrial | null
}

/** What the stage shows of a trial at a moment. */
export interface Showing {
  readonly trial: LiftTrial
  /** How far the pose has turned about the edge, rad. */
  readonly angle: number
  /** Frames since it was let go; negative before. */
  readonly since: number
  /** 1 … 0 while it fades. */
  readonly opacity: number
}

/**
 * Tries the lift of the desk's mover at the desk's frame and shows it once, at the plan's rate. An edit, another
 * frame, another take or another trial ends it. One for each desk.
 */
export class LiftTry {
  /** Called before a trial starts: what moves the frame has to rest. */
  before: () => void = () => {}
  readonly #desk: Desk
  readonly #clock: FrameClock
  #tried: Tried | null = $state.raw(null)
  #showing: Showing | null = $state.raw(null)
  #request: number | null = null
  /** Whether a trial has come back: from then on the thread has what trials need. */
  #loaded = $state.raw(false)

  constructor(desk: Desk, clock: FrameClock = browserFrames) {
    this.#desk = desk
    this.#clock = clock
  }

  // Getters, not deriveds: those would belong to the component that asked first, and go stale with it.

  /** Why no lift can be tried; null where one can. */
  get refusal(): string | null {
    if (this.#desk.tools.worker === undefined) return 'The thread that tries lifts is not there.'
    return this.#desk.verdict.kind === 'off' ? 'It is off already: there is nothing to lift.' : null
  }

  /** The trial of the pose as it stands; null where none was made. */
  get tried(): Tried | null {
    return this.#isOf(this.#tried) ? this.#tried : null
  }
  /** What came of it, in words; null until it has. */
  get words(): LiftWords | null {
    const trial = this.tried?.trial
    return trial ? this.#wordsOf(trial) : null
  }
  /** What the stage shows instead of the pose; null where it shows the pose. */
  get showing(): Showing | null {
    return this.tried === null ? null : this.#showing
  }

  get loaded(): boolean {
    return this.#loaded
  }

  start(): void {
    const desk = this.#desk
    const { worker } = desk.tools
    if (worker === undefined || this.refusal !== null) return
    this.before()
    this.stop()
    const { plan, takeId, take, frame, mover } = desk
    const asked: Tried = { plan, takeId, frame, limb: mover.limb, trial: null }
    this.#tried = asked
    worker.request(
      'try lift',
      { plan: { ...plan, takes: [take] }, frame },
      {
        pieces: ([trial]) => {
          this.#loaded = true
          if (trial === undefined || this.#tried !== asked || !this.#isOf(asked)) return
          this.#tried = { ...asked, trial }
          const { headline, sentences } = this.#wordsOf(trial)
          desk.say([headline, ...sentences].join(' '))
          this.#show(trial)
        },
        failed: (reason) => {
          if (this.#tried === asked) this.#tried = null
          desk.say(`The lift can’t be tried: ${reason}. The plan is kept; try once more.`, 'problem')
        },
      },
    )
  }

  /** Takes the trial off the stage; what came of it stays in words. */
  stop(): void {
    if (this.#request !== null) this.#clock.cancel(this.#request)
    this.#request = null
    this.#showing = null
  }

  #show(trial: LiftTrial): void {
    const angles = trial.outcome === 'tips' ? trial.angles : [0]
    if (isStill()) {
      // Nothing moves: the pose as it has just tipped, until it is put away.
      const last = angles.findIndex((angle) => angle >= FIVE_DEGREES)
      const at = last < 0 ? angles.length - 1 : last
      this.#showing = { trial, angle: angles[at] as number, since: at, opacity: 1 }
      return
    }
    const { num, den } = this.#desk.plan.rate
    let start: number | null = null
    const tick = (now: number) => {
      this.#request = null
      if (this.tried?.trial !== trial) return this.stop()
      start ??= now
      const time = (now - start) / 1000 - LET_GO
      const since = Math.floor((time * num) / den)
      const end = (angles.length - 1) * (den / num) + HELD
      if (time >= end + FADE) return this.stop()
      const angle = angles[Math.max(0, Math.min(angles.length - 1, since))] as number
      const opacity = Math.min(1, 1 - (time - end) / FADE)
      this.#showing = { trial, angle, since: Math.min(since, angles.length - 1), opacity }
      this.#request = this.#clock.next(tick)
    }
    this.#request = this.#clock.next(tick)
  }

  #wordsOf(trial: LiftTrial): LiftWords {
    const { pose, body } = this.#desk
    return liftWords({ trial, pose, unit: centimetres(body.stature) })
  }

  #isOf(tried: Tried | null): boolean {
    const { plan, takeId, frame } = this.#desk
    return tried !== null && tried.plan === plan && tried.takeId === takeId && tried.frame === frame
  }
}

/** Where tipping counts, rad. */
const FIVE_DEGREES = (5 * Math.PI) / 180

const tries = new WeakMap<Desk, LiftTry>()

/** @param clock of the screen; for a test the first call gives its own */
export function liftTryOf(desk: Desk, clock?: FrameClock): LiftTry {
  let lift = tries.get(desk)
  if (lift === undefined) {
    lift = new LiftTry(desk, clock)
    tries.set(desk, lift)
  }
  return lift
}
