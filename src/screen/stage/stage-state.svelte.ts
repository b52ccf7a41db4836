import type { ViewId } from '../../draw/project'
import type { FootWay } from '../../pose/grasp'
import type { ReachedPose } from '../../pose/types'
import type { Desk } from '../desk.svelte'
import { outliving } from '../outliving.svelte'
import { StageDrawing } from './drawing.svelte'
import type { Holdable } from './holdable'
import type { Still, StillTask } from './still'
import type { Target } from './target'

/**
 * What is going on on the stage besides the plan: its drawing, what is chosen, and how a knee takes its foot.
 * One for each desk, shared by the stage and the pages.
 */
export class StageState {
  readonly drawing: StageDrawing
  #chosen: string | null = $state.raw(null)
  #view: ViewId = $state.raw('front')
  #foot: FootWay = $state.raw('along')
  #placing = $state.raw(false)
  #target: (() => Target | null) | null = $state.raw(null)
  #ghost: (() => ReachedPose | null) | null = $state.raw(null)
  #card = $state.raw(false)
  #still: Still | null = $state.raw(null)
  #task: StillTask | null = $state.raw(null)
  #current: Readonly<Record<ViewId, string>> = $state.raw({
    front: 'pelvis',
    side: 'pelvis',
    floor: 'pelvis',
  })

  constructor(desk: Desk) {
    this.drawing = new StageDrawing(desk, {
      foot: () => this.foot,
      target: () => this.target,
      ghost: () => this.#ghost?.() ?? null,
    })
  }

  /** The thing that was chosen last and its view; its numbers can be typed. Null where none is. */
  readonly chosen: Holdable | null = $derived.by(
    () => this.drawing.things.find(({ id }) => id === this.#chosen) ?? null,
  )
  get view(): ViewId {
    return this.#view
  }

  /** Whether the next tap says where the chosen thing goes. */
  get placing(): boolean {
    return this.#placing && this.chosen !== null
  }

  /** Whether what can be done with the chosen thing stands beside it: after a tap, not after a drag. */
  get card(): boolean {
    return this.#card
  }

  /** @param card see `card` */
  choose(id: string | null, view?: ViewId, card = false): void {
    this.#chosen = id
    this.#placing = false
    this.#card = card && id !== null
    if (id === null || view === undefined) return
    this.#view = view
    this.#current = { ...this.#current, [view]: id }
  }

  place(on: boolean): void {
    this.#placing = on
  }

  /** The handle of a view that was used last. */
  current(view: ViewId): string {
    return this.#current[view]
  }

  setCurrent(view: ViewId, id: string): void {
    this.#current = { ...this.#current, [view]: id }
  }

  /** A place that a page asks for, marked on the stage and moved like a handle; null where none does. */
  get target(): Target | null {
    return this.#target?.() ?? null
  }
  /** @param target read whenever the stage is drawn; null takes it away */
  setTarget(target: (() => Target | null) | null): void {
    this.#target = target
  }

  /** @param ghost a pose that is drawn as an outline over the frame's, read whenever the stage is drawn */
  setGhost(ghost: (() => ReachedPose | null) | null): void {
    this.#ghost = ghost
  }

  /** The picture under a view, or null. */
  get still(): Still | null {
    return this.#still
  }
  setStill(still: Still | null): void {
    this.#still = still
    if (still === null) this.#task = null
  }

  /** What the next press on the stage does to the picture; null where it goes to the pose. */
  get task(): StillTask | null {
    return this.#task
  }
  setTask(task: StillTask | null): void {
    this.#task = this.#still === null ? null : task
    if (task !== null) this.choose(null)
  }

  /** What becomes of the foot when its knee is moved. */
  get foot(): FootWay {
    return this.#foot
  }
  setFoot(foot: FootWay): void {
    this.#foot = foot
  }
}

const states = new WeakMap<Desk, StageState>()

export function stageStateOf(desk: Desk): StageState {
  let state = states.get(desk)
  if (state === undefined) {
    state = outliving(() => new StageState(desk))
    states.set(desk, state)
  }
  return state
}
