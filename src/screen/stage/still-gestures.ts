import type { Spot } from './gestures.svelte'
import type { StageState } from './stage-state.svelte'
import { moveStill, planeAt, type Still } from './still'

/** Presses on the stage while the picture under a view is being placed. */
export class StillGestures {
  readonly #stage: StageState
  #drag: { readonly from: readonly [number, number]; readonly still: Still } | null = null
  #pressed = false

  constructor(stage: StageState) {
    this.#stage = stage
  }

  press(spot: Spot): void {
    const { still, task, drawing } = this.#stage
    const view = still && drawing.view(still.view)
    if (!still || !task || !view) return
    this.#pressed = true
    const at = planeAt(view, spot.x, spot.y)
    if (task.kind === 'move') this.#drag = { from: at, still }
    else if (task.kind === 'ground') {
      this.#stage.setStill(moveStill(still, 0, -at[1]))
      this.#stage.setTask(null)
    } else if (task.points.length < 2) this.#stage.setTask({ kind: 'measure', points: [...task.points, at] })
  }

  move(spot: Spot): void {
    const { still, drawing } = this.#stage
    const view = still && drawing.view(still.view)
    if (!this.#drag || !view) return
    const [right, up] = planeAt(view, spot.x, spot.y)
    const { from } = this.#drag
    this.#stage.setStill(moveStill(this.#drag.still, right - from[0], up - from[1]))
  }

  /** @returns whether the press belonged to the picture */
  release(): boolean {
    const was = this.#pressed
    this.#pressed = false
    this.#drag = null
    return was
  }
}
