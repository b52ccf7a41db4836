import type { Exposure } from '../document/take'
import type { Desk } from './desk.svelte'
import type { ViewSettings } from './desk-view'
import { isStill } from './theme.svelte'

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
 * Plays the open take at its true rate, as the view has it: over and over, back and forth, or once; once too where
 * the machine asks for pages that don’t move. What is shown is the frame whose time it is, so that a slow machine
 * skips frames rather than slowing down; on twos or threes every drawing stays that long.
 */
export class Playback {
  #desk: Desk
  #clock: FrameClock
  #request: number | null = $state.raw(null)

  constructor(desk: Desk, clock: FrameClock = browserFrames) {
    this.#desk = desk
    this.#clock = clock
    ofDesk.set(desk, this)
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
      const { length, exposure } = desk.take
      const way = isStill() ? 'once' : desk.view.playing
      shown = drawingAt(playedFrame(way, start.frame + since, length), exposure)
      desk.setFrame(shown)
      if (way === 'once' && start.frame + since >= length - 1) this.#request = null
      else this.#request = this.#clock.next(tick)
    }
    const last = drawingAt(desk.take.length - 1, desk.take.exposure)
    if (shown >= last && (isStill() || desk.view.playing !== 'back and forth')) {
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

const ofDesk = new WeakMap<Desk, Playback>()
/** What plays a desk's take, where something does. */
export const playbackOf = (desk: Desk): Playback | undefined => ofDesk.get(desk)

/** The frame that is on after so many, counted from the take's first: the last stays where it is played once. */
function playedFrame(way: ViewSettings['playing'], count: number, length: number): number {
  if (way === 'once') return Math.min(count, length - 1)
  if (way === 'over and over' || length === 1) return count % length
  const there = count % (2 * (length - 1))
  return there < length ? there : 2 * (length - 1) - there
}

/** The frame whose drawing stands at a frame: on twos every other one. */
const drawingAt = (frame: number, exposure: Exposure): number => frame - (frame % exposure)
