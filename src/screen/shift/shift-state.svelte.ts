import { type LimbId, partsOf } from '../../document/contacts'
import type { Plan } from '../../document/plan'
import { contactsAt } from '../../pose/between'
import type { FootWay } from '../../pose/grasp'
import type { Goal, Progress, ShiftAnswer, ShiftOption } from '../../shift/planner/types'
import type { Vec3 } from '../../space/vec'
import type { ShiftWish } from '../../worker/protocol'
import { type Desk, samePlan } from '../desk.svelte'
import { outliving } from '../outliving.svelte'
import { firstPlace, type GoalKind, goalsFor, type NamedGoal, placeOf, settled } from './goals'

/** What may be wished for besides the move itself. Frames are the take's, from 0. */
export interface Wishes {
  readonly leads: 'pelvis' | 'chest'
  readonly handHelp: boolean
  readonly foot: FootWay
  readonly notBefore: number | null
  readonly downBy: number | null
  readonly hitches: number
}

const PLAIN: Wishes = {
  leads: 'pelvis',
  handHelp: true,
  foot: 'along',
  notBefore: null,
  downBy: null,
  hitches: 1,
}

/** A question and what has come back: how far the planner is, then its answer. */
export interface Asked {
  readonly wish: ShiftWish
  readonly progress: Progress | null
  readonly answer: ShiftAnswer | null
  /** Why there is none. */
  readonly failed: string | null
}

/** An option that was taken up as a take of its own. */
export interface Used {
  readonly takeId: string
  /** The take it came from. */
  readonly before: string
  readonly name: string
  /** First and last frame of its shift. */
  readonly start: number
  readonly end: number
}

/** What is asked of the shift planner, and its answer. One for each desk, kept while other pages are read. */
export class ShiftState {
  readonly #desk: Desk
  #kind: GoalKind | null = $state.raw(null)
  #by: number | null = $state.raw(null)
  #place: { readonly key: string; readonly at: Vec3 } | null = $state.raw(null)
  #wishes: Wishes = $state.raw(PLAIN)
  #asked: (Asked & { readonly of: Plan }) | null = $state.raw(null)
  #used: readonly Used[] = $state.raw([])

  constructor(desk: Desk) {
    this.#desk = desk
  }

  get mover(): LimbId {
    return this.#desk.mover.limb
  }

  readonly goals: readonly NamedGoal[] = $derived.by(() => goalsFor(this.mover, this.#desk.pose.pads))
  /** The chosen move, or the usual one of the limb where the chosen doesn't fit it; null for a limb in the air. */
  readonly goal: NamedGoal | null = $derived.by(
    () => this.goals.find(({ kind }) => kind === this.#kind) ?? this.goals[0] ?? null,
  )
  choose(kind: GoalKind): void {
    this.#kind = kind
  }

  /** The nearest frame at which the limb touches something; null where it never does. */
  readonly nearestDown: number | null = $derived.by(() => {
    const { take, frame } = this.#desk
    const parts = partsOf(this.mover)
    const frames = take.contacts
      .filter(({ part }) => parts.includes(part))
      .map(({ from, to }) => Math.max(from, Math.min(to, frame)))
    return frames.sort((a, b) => Math.abs(a - frame) - Math.abs(b - frame))[0] ?? null
  })

  readonly #contacts = $derived.by(() => contactsAt(this.#desk.take, this.#desk.frame))
  /** Where the limb is now. World, m. */
  readonly from: Vec3 = $derived.by(() => placeOf(this.mover, this.#desk.pose, this.#contacts))

  /** How far sideways, m, to the body's left > 0; at first a tenth of the stature outward. */
  get by(): number {
    return this.#by ?? (this.mover.endsWith('L') ? 0.1 : -0.1) * this.#desk.body.stature
  }
  setBy(by: number): void {
    this.#by = by
  }

  /** Where the mark stands. World, m. */
  readonly place: Vec3 = $derived.by(() => {
    const { pose, body, plan } = this.#desk
    const kind = this.goal?.kind ?? 'place'
    const put = this.#place
    const at =
      put?.key === this.#placeKey(kind) ? put.at : firstPlace(this.mover, kind, pose, this.from, body.stature)
    return settled(kind, at, plan.ground, pose)
  })
  setPlace(at: Vec3): void {
    const { goal } = this
    if (goal) this.#place = { key: this.#placeKey(goal.kind), at }
  }
  /** A mark in the air and one on the ground are two. */
  #placeKey(kind: GoalKind): string {
    return `${this.mover} ${kind === 'reach'}`
  }

  get wishes(): Wishes {
    return this.#wishes
  }
  wish(changes: Partial<Wishes>): void {
    this.#wishes = { ...this.#wishes, ...changes }
  }
  /** How many wishes differ from the usual. */
  readonly special: number = $derived.by(
    () =>
      (Object.keys(PLAIN) as (keyof Wishes)[]).filter((wish) => this.#wishes[wish] !== PLAIN[wish]).length,
  )

  /** The question as it stands; null where the limb can't be asked for anything. */
  readonly question: ShiftWish | null = $derived.by(() => {
    const { goal } = this
    if (goal === null) return null
    const { frame, take } = this.#desk
    const { notBefore, downBy, ...rest } = this.#wishes
    return {
      frame,
      mover: this.mover,
      goal: goalOf(goal.kind, this.by, this.place),
      pace: take.pace,
      push: take.push,
      ...rest,
      ...(notBefore !== null && { notBefore }),
      ...(downBy !== null && { downBy }),
    }
  })

  /** The last question and what came of it, while it is about the plan as it stands. */
  readonly asked: Asked | null = $derived.by(() => {
    const asked = this.#asked
    const { plan, take } = this.#desk
    return asked !== null && samePlan(asked.of, plan, take) ? asked : null
  })
  /** Whether that is the question as it stands: another frame may be looked at meanwhile. */
  readonly current: boolean = $derived.by(
    () => JSON.stringify(this.asked?.wish) === JSON.stringify(this.question),
  )
  readonly busy: boolean = $derived.by(
    () => this.asked !== null && this.asked.answer === null && this.asked.failed === null,
  )

  ask(): void {
    const { plan, take, tools } = this.#desk
    const wish = this.question
    if (wish === null || tools.worker === undefined) return
    const of: Plan = { ...plan, takes: [take] }
    this.#asked = { of, wish, progress: null, answer: null, failed: null }
    const heard = (changes: Partial<Asked>) => {
      if (this.#asked?.of === of && this.#asked.wish === wish) this.#asked = { ...this.#asked, ...changes }
    }
    tools.worker.request(
      'plan shift',
      { plan: of, wish },
      {
        pieces: (pieces) => {
          const last = pieces.at(-1)
          if (last === undefined) return
          heard('found' in last ? { answer: last, progress: null } : { progress: last })
        },
        failed: (failed) => heard({ failed, progress: null }),
      },
    )
  }

  /** Stops the planner; nothing of its question stays. */
  stop(): void {
    this.#asked = null
    this.#desk.tools.worker?.request('plan shift', null, { pieces: () => undefined })
  }

  /** The option that the open take came from, or null. */
  readonly used: Used | null = $derived.by(
    () => this.#used.find(({ takeId }) => takeId === this.#desk.takeId) ?? null,
  )
  setUsed({ name, take, frames }: ShiftOption, takeId: string, before: string, start: number): void {
    const end = Math.min(take.length - 1, start + frames)
    // Undo gives an id free again.
    const others = this.#used.filter((one) => one.takeId !== takeId)
    this.#used = [...others, { takeId, before, name, start, end }]
  }
}

function goalOf(kind: GoalKind, by: number, to: Vec3): Goal {
  if (kind === 'shuffle') return { kind, by }
  if (kind === 'place' || kind === 'reach' || kind === 'strike' || kind === 'set-down') return { kind, to }
  return { kind }
}

const states = new WeakMap<Desk, ShiftState>()

export function shiftStateOf(desk: Desk): ShiftState {
  let state = states.get(desk)
  if (state === undefined) {
    state = outliving(() => new ShiftState(desk))
    states.set(desk, state)
  }
  return state
}
