import type { LimbId } from '../../document/contacts'
import { partAt } from '../../draw/hits'
import { unproject, type View } from '../../draw/project'
import { addScaled } from '../../space/vec'
import type { Desk } from '../desk.svelte'
import type { Grip } from './drawing.svelte'
import { Hold } from './hold.svelte'
import { ARROWS, type Arrow, arrowStep, gripsNear, LONG_STEP, nextGrip } from './pick'
import type { StageState } from './stage-state.svelte'

/** A point of the drawing, px. */
export interface Spot {
  readonly x: number
  readonly y: number
  /** By finger: hit areas are larger, and a tap on a handle asks for the tap that places it. */
  readonly touch: boolean
}

/** What a press that did not become a drag was on. */
export type Tap =
  | { readonly kind: 'grip'; readonly grip: Grip }
  | { readonly kind: 'placed'; readonly grip: Grip }
  | { readonly kind: 'limb'; readonly limb: LimbId }
  | { readonly kind: 'nothing' }

/**
 * Pressing, dragging, tapping and arrow keys on the stage, apart from the elements that hear them. Moves are
 * only noted; `frame` works out the newest, once for each frame of the screen.
 */
export class Gestures {
  readonly #desk: Desk
  readonly #state: StageState
  #press: { readonly spot: Spot; readonly grip: Grip | null } | null = null
  #newest: Spot | null = null
  #tapped: Spot | null = null
  #hold: Hold | null = $state.raw(null)
  #byKeys = $state.raw(false)

  constructor(desk: Desk, state: StageState) {
    this.#desk = desk
    this.#state = state
  }

  /** What is being moved, or null. */
  get hold(): Hold | null {
    return this.#hold
  }
  /** Whether it is moved by arrow keys. */
  get byKeys(): boolean {
    return this.#hold !== null && this.#byKeys
  }

  near({ x, y, touch }: Spot): Grip[] {
    return gripsNear(this.#state.drawing.grips, x, y, touch ? REACH.finger : REACH.mouse)
  }

  limbAt({ x, y }: Spot): LimbId | null {
    const { drawing } = this.#state
    const view = drawing.viewAt(x, y)
    const part = view && partAt(drawing.stage.hits, view.id, x, y)
    return part && /^(leg|arm)/.test(part) ? (part as LimbId) : null
  }

  /** @returns whether something was taken hold of, so that the pointer belongs to the stage */
  press(spot: Spot): boolean {
    if (this.#hold) this.letGo()
    const near = this.near(spot)
    const chosen = this.#chosenAmong(near)
    const marked = chosen !== undefined && Math.hypot(chosen.x - spot.x, chosen.y - spot.y) <= ON_MARK
    const grip = marked || this.#again(spot) ? (chosen ?? near[0]) : near[0]
    this.#press = { spot, grip: grip ?? null }
    return grip !== undefined
  }

  /** @returns whether a frame has to be worked out */
  move(spot: Spot): boolean {
    const press = this.#press
    if (press?.grip == null) return false
    const slop = spot.touch ? SLOP.finger : SLOP.mouse
    if (!this.#hold && Math.hypot(spot.x - press.spot.x, spot.y - press.spot.y) < slop) return false
    if (!this.#hold) {
      this.#hold = new Hold(this.#desk, press.grip.thing, press.grip.view)
      this.#byKeys = false
      this.#state.choose(press.grip.thing.id, press.grip.view.id)
    }
    this.#newest = spot
    return true
  }

  /** Moves what is held to where the pointer was seen last. */
  frame(): void {
    const [hold, press, newest] = [this.#hold, this.#press, this.#newest]
    if (!hold || !press?.grip || !newest) return
    this.#newest = null
    if (!hold.alive) {
      this.#end()
      return
    }
    const { grip, spot } = press
    hold.moveTo(this.#under(grip, newest.x - spot.x + grip.x, newest.y - spot.y + grip.y))
  }

  /** @returns what the press was on if it was a tap, null if it was a drag */
  release(spot: Spot): Tap | null {
    const press = this.#press
    if (this.#hold && !this.#byKeys) {
      this.frame()
      this.letGo()
      return null
    }
    this.#press = null
    return press ? this.#tap(spot) : null
  }

  /** Goes back to where the gesture started; also when the browser takes the pointer away. */
  cancel(): void {
    this.#hold?.cancel()
    this.#end()
  }

  letGo(): void {
    const hold = this.#hold
    if (!hold) return
    const way = hold.letGo()
    this.#end()
    if (way > 0) this.#said(hold)
  }

  /** Takes hold by a key press. */
  grab(grip: Grip): void {
    this.#press = null
    this.#hold = new Hold(this.#desk, grip.thing, grip.view)
    this.#byKeys = true
    this.#state.choose(grip.thing.id, grip.view.id)
  }

  /** Moves what the keys hold by a step in its view. */
  step(arrow: Arrow, long: boolean): void {
    const hold = this.#hold
    if (!hold?.alive) {
      this.#end()
      return
    }
    const { right, up } = hold.view.axes
    const far = arrowStep(this.#desk.body.stature) * (long ? LONG_STEP : 1)
    const [dx, dy] = ARROWS[arrow]
    hold.moveTo(addScaled(addScaled(hold.target, right, dx * far), up, -dy * far))
  }

  #tap(spot: Spot): Tap {
    const state = this.#state
    const { chosen } = state
    const near = this.near(spot)
    const view = state.drawing.viewAt(spot.x, spot.y)
    if (chosen && state.placing && view && !near.some(({ thing }) => thing.id === chosen.id))
      return this.#put(view, spot, chosen.id)
    const here = this.#chosenAmong(near) && this.#again(spot)
    const grip = here ? nextGrip(near, chosen?.id ?? null) : near[0]
    this.#tapped = spot
    if (grip) {
      state.choose(grip.thing.id, grip.view.id, true)
      if (spot.touch) state.place(true)
      return { kind: 'grip', grip }
    }
    state.choose(null)
    const limb = this.limbAt(spot)
    return limb ? { kind: 'limb', limb } : { kind: 'nothing' }
  }

  #chosenAmong(near: readonly Grip[]): Grip | undefined {
    const { chosen, view } = this.#state
    return near.find((grip) => grip.thing.id === chosen?.id && grip.view.id === view)
  }

  /** Whether a press is where the last tap was: it means the handle that was chosen there. */
  #again({ x, y, touch }: Spot): boolean {
    const last = this.#tapped
    return last !== null && Math.hypot(x - last.x, y - last.y) <= (touch ? SAME.finger : SAME.mouse)
  }

  #put(view: View, spot: Spot, id: string): Tap {
    const grip = this.#state.drawing.grips.find((one) => one.thing.id === id && one.view.id === view.id)
    if (!grip) return { kind: 'nothing' }
    const hold = new Hold(this.#desk, grip.thing, view)
    hold.moveTo(this.#under(grip, spot.x, spot.y))
    hold.letGo()
    this.#said(hold)
    this.#state.choose(id, view.id, true)
    this.#state.place(true)
    return { kind: 'placed', grip }
  }

  #under({ thing, view }: Grip, x: number, y: number) {
    return unproject(view, x, y, thing.at)
  }

  #end(): void {
    this.#hold = null
    this.#press = null
    this.#newest = null
  }

  #said({ thing }: Hold): void {
    const { pose, take, frame, plan } = this.#desk
    const limit = pose.limits[0]
    const name = thing.name.charAt(0).toUpperCase() + thing.name.slice(1)
    const keyed = take.channels['pelvis.x'].some((key) => key.frame === frame)
    const made = keyed || thing.handle === null ? '' : ` Frame ${plan.firstFrame + frame} is a breakdown now.`
    this.#desk.say(`${name} moved.${made}${limit ? ` ${limit.text}` : ''}`, limit ? 'hint' : 'done')
  }
}

/** A handle is hit within this distance, px: areas of 24 and 44. */
const REACH = { mouse: 12, finger: 22 } as const
/** A press this near to the chosen handle's mark takes it, whatever lies before it, px. */
const ON_MARK = 5
/** Taps this near to each other are on one spot, px. */
const SAME = { mouse: 6, finger: 14 } as const
/** A press that moves less than this is a tap, px. */
const SLOP = { mouse: 3, finger: 7 } as const
