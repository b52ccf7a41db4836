import { makeMotion } from '../../pose/between'
import type { ReachedPose } from '../../pose/types'
import type { ShiftOption } from '../../shift/planner/types'
import type { Desk } from '../desk.svelte'
import { browserFrames, type FrameClock } from '../playback.svelte'

/**
 * What of an option is drawn over the stage, as an outline: one pose while it is pointed at, or all of it played
 * once at its true rate.
 */
export class Preview {
  readonly #desk: Desk
  readonly #clock: FrameClock
  #shown: { readonly option: ShiftOption; readonly frame: number } | null = $state.raw(null)
  #request: number | null = $state.raw(null)

  readonly #option = $derived(this.#shown?.option ?? null)
  readonly #motion = $derived.by(() => this.#option && makeMotion(this.#desk.body, this.#option.take))
  readonly pose: ReachedPose | null = $derived.by(() =>
    this.#shown && this.#motion ? this.#motion.poseAt(this.#shown.frame) : null,
  )

  constructor(desk: Desk, clock: FrameClock = browserFrames) {
    this.#desk = desk
    this.#clock = clock
  }

  /** The frame of an option that is seen, from 0; null while that option isn’t. */
  frameOf(option: ShiftOption): number | null {
    return this.#shown?.option === option ? this.#shown.frame : null
  }
  isPlaying(option: ShiftOption): boolean {
    return this.#request !== null && this.#shown?.option === option
  }

  /** Shows one pose; one that is being played goes on. */
  show(option: ShiftOption, frame: number): void {
    if (!this.isPlaying(option)) this.#see(option, frame)
  }
  hide(): void {
    this.#stop()
    this.#shown = null
  }

  /** Plays it from its start to its end, where it stays; or stops where it is. */
  toggle(option: ShiftOption): void {
    const playing = this.isPlaying(option)
    this.#stop()
    if (playing) return
    const first = option.keys[0]?.frame ?? 0
    const last = option.take.length - 1
    let start: number | null = null
    const tick = (now: number) => {
      start ??= now
      const { num, den } = this.#desk.plan.rate
      const frame = Math.min(last, first + Math.floor(((now - start) / 1000) * (num / den)))
      this.#shown = { option, frame }
      this.#request = frame < last ? this.#clock.next(tick) : null
    }
    this.#shown = { option, frame: first }
    this.#request = this.#clock.next(tick)
  }

  #see(option: ShiftOption, frame: number): void {
    this.#stop()
    this.#shown = { option, frame }
  }

  #stop(): void {
    if (this.#request !== null) this.#clock.cancel(this.#request)
    this.#request = null
  }
}
