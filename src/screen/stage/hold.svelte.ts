import type { View } from '../../draw/project'
import { distance, type Vec3 } from '../../space/vec'
import type { Desk } from '../desk.svelte'
import type { Holdable } from './holdable'

/**
 * One gesture on the stage, by pointer, keys or taps: the thing goes where it is told, always from where the
 * gesture started, and the gesture is one step of undo.
 */
export class Hold {
  readonly #desk: Desk
  readonly #move: ReturnType<Holdable['hold']>
  readonly thing: Holdable
  readonly view: View
  #target: Vec3
  #moved = false

  /** Takes hold; the desk's gesture begins with the first move. */
  constructor(desk: Desk, thing: Holdable, view: View) {
    this.#desk = desk
    this.thing = thing
    this.view = view
    this.#target = thing.at
    this.#move = thing.hold()
  }

  /** Where the thing was asked to go last, world, m. */
  get target(): Vec3 {
    return this.#target
  }

  /** Whether the gesture still goes on: undo may have taken it back. */
  get alive(): boolean {
    return !this.#moved || this.#desk.busy
  }

  moveTo(target: Vec3): void {
    if (!this.alive) return
    if (!this.#moved) this.#desk.begin(`Move ${this.thing.name}`)
    this.#moved = true
    this.#target = target
    const made = this.#move(target, this.view.axes.toward)
    this.#desk.change(() => made)
  }

  /** Lets go where it is. @returns how far it was asked to go, m */
  letGo(): number {
    if (this.#moved && this.alive) this.#desk.commit()
    return distance(this.#target, this.thing.at)
  }

  /** Goes back to where the gesture started. */
  cancel(): void {
    if (this.#moved && this.alive) this.#desk.cancel()
  }
}
