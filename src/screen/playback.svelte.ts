import type { Desk } from './desk.svelte'

/** The clock of the screen: the browser's, or a test's. */
export interface FrameClock {
  /** Calls back at the screen's next frame with its time in ms. */
  next(callback: (now: number) => void): number
  cancel(id: number): void
}

export const browserFrames: FrameClock = {
  next: (callback) => requestAnimationFrame(callback),
  cancel: (id) => cancelAnimationFrame(id),
}

/**
 * Plays the open take at its true rate, over and over: what is shown is the frame whose time it is, so that a
 * slow machine skips frames rather than slowing down.
 */
export class Playback {
  #desk: Desk
  #clock: FrameClock
  #request: number | null = $state.raw(null)

  constructor(desk: Desk, clock: FrameClock = browserFrames) {
    this.#desk = desk
    this.#clock = clock
  }

  get playing(): boolean {
    return this.#request !== null
  }

  /** From the current frame on; from the first where the take is at its end. */
  play(): void {
    if (this.playing) return
    const desk = this.#desk
    let start: { readonly time: number; readonly frame: number } | null = null
    let shown = desk.frame
    const tick = (now: number) => {
      // A hand on the drawing wants it still.
      if (desk.busy) {
        this.#request = null
        return
      }
      // Someone picked another frame: it goes on from there.
      if (start === null || desk.frame !== shown) start = { time: now, frame: desk.frame }
      const { num, den } = desk.plan.rate
      const since = Math.floor(((now - start.time) / 1000) * (num / den))
      shown = (start.frame + since) % desk.take.length
      desk.setFrame(shown)
      this.#request = this.#clock.next(tick)
    }
    if (shown === desk.take.length - 1) {
      desk.setFrame(0)
      shown = 0
    }
    this.#request = this.#clock.next(tick)
  }

  stop(): void {
    if (this.#request === null) return
    this.#clock.cancel(this.#request)
    this.#request = null
  }
}
