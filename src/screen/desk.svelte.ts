import { makeBody } from '../body/model'
import type { Mover, Plan, Take } from '../document/plan'
import type { CopyBoard } from '../keep/clipboard'
import type { Files } from '../keep/files'
import * as history from '../plan/history'
import { makeMotion } from '../pose/between'
import type { Sheet } from '../sheet/types'
import { weighPose } from '../weigh/pose'
import type { WorkerClient } from '../worker/client'
import type { FrameWeighing, PlainNotes } from '../worker/protocol'
import { type PageId, readView, type ViewSettings, writeView } from './desk-view'

/** What the desk needs from outside; the browser's own or a test's. */
export interface DeskTools {
  /** The calculation thread: whole takes, trials, plans. */
  readonly worker?: Pick<WorkerClient, 'request'>
  readonly files?: Files
  readonly copyBoard?: CopyBoard
  /** Where view settings are kept between sittings. */
  readonly preferences?: PreferenceStore
  /** Told of every settled state of the plan: after a gesture, an edit, an undo; not during a gesture. */
  readonly settled?: (plan: Plan) => void
}

export interface PreferenceStore {
  read(): string | null
  write(text: string): void
}

export type StatusKind = 'done' | 'hint' | 'problem'
export interface Status {
  readonly text: string
  readonly kind: StatusKind
  /** Counts up, so that the same words said twice are two messages. */
  readonly number: number
  /** The frame it was said at. */
  readonly frame: number
}

/** The weighed frames of a take, by frame, and its timing sheet; `fresh` once they belong to the take as it stands. */
export interface TakeWeighings {
  readonly takeId: string
  readonly frames: ReadonlyMap<number, FrameWeighing>
  /** Null until the take has been weighed for the first time. */
  readonly sheet: Sheet | null
  readonly fresh: boolean
}

/** A take that was read for its weight, and the plan it was read in with this take alone. */
export interface ReadTake {
  readonly of: Plan
  readonly takeId: string
  readonly notes: PlainNotes
}

/**
 * The open plan and how it is being looked at. Everything on the screen reads from here and changes the
 * plan through here: `begin`, `change` as often as needed, then `commit` or `cancel`, or `edit` for a change
 * that is complete at once. One gesture is one step of undo.
 */
export class Desk {
  readonly tools: DeskTools
  #history: history.History<Plan>
  #takeId: string | null = $state.raw(null)
  #frame = $state.raw(0)
  #page: PageId = $state.raw('weigh')
  #view: ViewSettings
  #status: Status | null = $state.raw(null)
  /** What was weighed last, and of which plan. */
  #weighings: Weighed | null = $state.raw(null)
  #read: ReadTake | null = $state.raw(null)
  /** The last whole weighing of every take, so that going from one to another shows numbers at once. */
  readonly #known = new Map<string, Weighed>()

  readonly plan: Plan = $derived.by(() => this.#history.present)
  readonly take: Take = $derived.by(
    () => this.plan.takes.find(({ id }) => id === this.#takeId) ?? (this.plan.takes[0] as Take),
  )
  readonly takeId: string = $derived(this.take.id)
  readonly mover: Mover = $derived(this.take.mover)
  /** From 0; the sheet shows `firstFrame` more. */
  readonly frame: number = $derived.by(() => Math.min(this.#frame, this.take.length - 1))

  readonly #spec = $derived(this.plan.body)
  readonly body = $derived(makeBody(this.#spec))
  readonly motion = $derived(makeMotion(this.body, this.take))
  /** The pose at the current frame, asked and reached. */
  readonly pose = $derived(this.motion.poseAt(this.frame))
  readonly #ground = $derived(this.plan.ground)
  readonly #gravity = $derived(this.plan.gravity)
  readonly #stiffness = $derived(this.plan.stiffness)
  readonly weighed = $derived(
    weighPose(this.#ground, this.#gravity, this.body.stature, this.pose, { stiffness: this.#stiffness }),
  )
  /** Whether the take's mover can be lifted at the current frame. */
  readonly verdict = $derived(this.weighed.judge(this.mover))

  /** The take that is compared with the open one, and its pose at the current frame; null where there is none. */
  readonly compared: Take | null = $derived.by(
    () => this.plan.takes.find(({ id }) => id === this.view.compareTakeId && id !== this.takeId) ?? null,
  )
  readonly #comparedMotion = $derived(this.compared && makeMotion(this.body, this.compared))
  readonly comparedPose = $derived(
    this.#comparedMotion?.poseAt(Math.min(this.frame, this.#comparedMotion.length - 1)) ?? null,
  )

  constructor(plan: Plan, tools: DeskTools = {}) {
    this.tools = tools
    this.#history = $state.raw(history.newHistory(plan))
    this.#view = $state.raw(readView(tools.preferences?.read() ?? null))
    this.#askForWeighings()
  }

  // ── Looking

  get page(): PageId {
    return this.#page
  }
  setPage(page: PageId): void {
    if (this.#page === 'doors' && page !== 'doors') this.setView({ welcomed: true })
    this.#page = page
  }

  get view(): ViewSettings {
    return this.#view
  }
  setView(changes: Partial<ViewSettings>): void {
    this.#view = { ...this.#view, ...changes }
    this.tools.preferences?.write(writeView(this.#view))
  }

  /** @param frame from 0; rounded and brought into the take */
  setFrame(frame: number): void {
    this.#frame = Math.min(this.take.length - 1, Math.max(0, Math.round(frame)))
  }

  /** Opens another take; the frame stays where that take has it. */
  setTake(takeId: string): void {
    this.#settle(history.commit(this.#history))
    this.#takeId = takeId
    this.#askForWeighings()
  }

  // ── Changing the plan

  /** Whether a gesture is under way. */
  get busy(): boolean {
    return this.#history.gesture !== undefined
  }

  /** Starts a gesture, named as undo will call it: 'Move pelvis'. One still under way is committed first. */
  begin(label: string): void {
    this.#history = history.begin(this.#history, label)
  }

  /** Shows a new state of the gesture; the very same plan changes nothing. */
  change(fn: (plan: Plan) => Plan): void {
    this.#history = history.change(this.#history, fn(this.plan))
  }

  /** Ends the gesture as one step of undo. */
  commit(): void {
    this.#settle(history.commit(this.#history))
  }

  /** Ends the gesture and goes back to where it started. */
  cancel(): void {
    this.#settle(history.cancel(this.#history))
  }

  /** A complete change as one step of undo. */
  edit(label: string, fn: (plan: Plan) => Plan): void {
    this.#settle(history.perform(this.#history, label, fn(this.plan)))
  }

  readonly undoLabel = $derived.by(() => history.undoLabel(this.#history))
  readonly redoLabel = $derived.by(() => history.redoLabel(this.#history))

  undo(): void {
    this.#settle(history.undo(this.#history))
  }
  redo(): void {
    this.#settle(history.redo(this.#history))
  }

  /** Puts another plan on the desk, with nothing to undo. */
  open(plan: Plan): void {
    this.#takeId = null
    this.#frame = 0
    this.#view = { ...this.#view, compareTakeId: null }
    this.#weighings = null
    this.#known.clear()
    this.#settle(history.newHistory(plan))
  }

  // ── Saying

  get status(): Status | null {
    return this.#status
  }
  /** A line in the status: what was done, what could be done, or what went wrong and what to do about it. */
  say(text: string, kind: StatusKind = 'done'): void {
    this.#status = { text, kind, number: (this.#status?.number ?? 0) + 1, frame: this.frame }
  }

  // ── The whole take, weighed elsewhere

  /** Every frame of the take that has been weighed; not fresh while the take is being changed. */
  readonly takeWeighings: TakeWeighings | null = $derived.by(() => {
    const weighings = this.#weighings
    if (weighings === null) return null
    return { ...weighings, fresh: weighings.fresh && samePlan(weighings.of, this.plan, this.take) }
  })

  /** What was read last, of whichever take. */
  get read(): ReadTake | null {
    return this.#read
  }
  setRead(read: ReadTake | null): void {
    this.#read = read
  }
  /** The notes on weight of the open take as it stands; null where it hasn’t been read so. */
  readonly notes: PlainNotes | null = $derived.by(() =>
    this.#read && samePlan(this.#read.of, this.plan, this.take) ? this.#read.notes : null,
  )

  #settle(next: history.History<Plan>): void {
    if (next === this.#history) return
    this.#history = next
    this.#askForWeighings()
    this.tools.settled?.(next.present)
  }

  #askForWeighings(): void {
    const { worker } = this.tools
    if (worker === undefined) return
    const { take, takeId, frame } = this
    if (this.#weighings !== null && samePlan(this.#weighings.of, this.plan, take)) return
    const known = this.#known.get(takeId)
    if (known !== undefined && samePlan(known.of, this.plan, take)) {
      this.#weighings = known
      return
    }
    const plan = { ...this.plan, takes: [take] }
    const before = known ?? { frames: NONE, sheet: null }
    const frames = new Map<number, FrameWeighing>()
    let { sheet } = before
    const heard = (fresh: boolean) => {
      const all = fresh ? frames : new Map([...before.frames, ...frames])
      const weighings = { of: plan, takeId, frames: all, sheet, fresh }
      if (fresh) this.#known.set(takeId, weighings)
      if (this.#weighings?.of === plan) this.#weighings = weighings
    }
    this.#weighings = { of: plan, takeId, frames: before.frames, sheet, fresh: false }
    worker.request(
      'weigh take',
      { plan, near: frame },
      {
        pieces: (pieces, done) => {
          for (const piece of pieces)
            if ('sheet' in piece) sheet = piece.sheet
            else frames.set(piece.frame, piece)
          heard(done)
        },
        failed: (reason) =>
          this.say(`The take can’t be weighed: ${reason}. Open the page anew; the plan is kept.`, 'problem'),
      },
    )
  }
}

interface Weighed extends TakeWeighings {
  /** The plan with this take alone. */
  readonly of: Plan
}

const NONE: ReadonlyMap<number, FrameWeighing> = new Map()

/** Whether a plan of one take is made of the very same parts as a plan and one of its takes. */
export const samePlan = (one: Plan, plan: Plan, take: Take): boolean =>
  (Object.keys(one) as (keyof Plan)[]).every((field) =>
    field === 'takes' ? one.takes[0] === take : one[field] === plan[field],
  )
