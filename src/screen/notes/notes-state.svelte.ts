import type { Plan } from '../../document/plan'
import { setAside } from '../../plan/edit/things'
import { makeMotion } from '../../pose/between'
import { notesOf } from '../../sheet/notes/notes'
import { weighMotion } from '../../weigh/dynamic'
import type { PlainNote, PlainNotes } from '../../worker/protocol'
import { type Desk, samePlan } from '../desk.svelte'
import { outliving } from '../outliving.svelte'

/** The open take read for its weight; `fresh` while it belongs to the take as it stands. */
export interface Reading {
  readonly notes: PlainNotes
  readonly fresh: boolean
}

/** The notes on the open take, read on the calculation thread; the last ones stay until the new are in. One for each desk. */
export class NotesState {
  readonly #desk: Desk
  #read: { readonly of: Plan; readonly takeId: string; readonly notes: PlainNotes } | null = $state.raw(null)
  #asked: Plan | null = null

  constructor(desk: Desk) {
    this.#desk = desk
  }

  readonly reading: Reading | null = $derived.by(() => {
    const { plan, take, takeId } = this.#desk
    const read = this.#read
    return read?.takeId === takeId ? { notes: read.notes, fresh: samePlan(read.of, plan, take) } : null
  })

  /** Asks for the open take as it stands, unless that has been done. */
  ask(): void {
    const { plan, take, takeId, frame, busy, tools } = this.#desk
    if (busy || tools.worker === undefined) return
    if (this.#asked !== null && samePlan(this.#asked, plan, take)) return
    const of: Plan = { ...plan, takes: [take] }
    this.#asked = of
    tools.worker.request(
      'read notes',
      { plan: of, near: frame },
      {
        pieces: (pieces) => {
          const notes = pieces.find((piece) => piece !== null)
          if (notes && this.#asked === of) this.#read = { of, takeId, notes }
        },
        failed: (reason) => {
          if (this.#asked !== of) return
          this.#asked = null
          this.#desk.say(`The take can’t be read: ${reason}. The plan is kept.`, 'problem')
        },
      },
    )
  }

  /** Does a note's remedy as one step of undo. The take is weighed once more here: a remedy is made for what is. */
  remedy({ rule, from }: PlainNote): void {
    const desk = this.#desk
    const { plan, take, takeId, body, mover } = desk
    const { ground, gravity, stiffness, rate } = plan
    const motion = makeMotion(body, take)
    const fps = rate.num / rate.den
    const problem = { body, ground, gravity, stiffness, take, motion, fps }
    const frames = [...weighMotion(problem, { mover })]
    const weighed = new Map(frames.map((frame) => [frame.frame, frame]))
    const { notes } = notesOf({ plan, take, motion, weighed: (frame) => weighed.get(frame) })
    const note = notes.find((one) => one.rule === rule && one.from === from)
    const fixed = note?.remedy.fix?.(plan, takeId) ?? plan
    if (note === undefined || fixed === plan) {
      desk.say('There is nothing left to do here; the note goes when the take is read again.', 'hint')
      return
    }
    desk.edit(note.name, () => fixed)
    desk.say(`${note.remedy.text} Done; undo brings back what was.`)
  }

  setAside({ rule, from }: PlainNote, reason: string): void {
    const { takeId } = this.#desk
    this.#desk.edit('Set a note aside', (plan) => setAside.add(plan, takeId, { rule, from, reason }))
  }

  bringBack({ rule, from }: PlainNote): void {
    const { takeId, take } = this.#desk
    const one = take.setAside.find((aside) => aside.rule === rule && aside.from === from)
    if (one) this.#desk.edit('Bring a note back', (plan) => setAside.delete(plan, takeId, one.id))
  }
}

const states = new WeakMap<Desk, NotesState>()

export function notesStateOf(desk: Desk): NotesState {
  let state = states.get(desk)
  if (state === undefined) {
    state = outliving(() => new NotesState(desk))
    states.set(desk, state)
  }
  return state
}

/** Keeps the open take read while the component that calls it stands; asked for once the picture rests. */
export function keepRead(desk: () => Desk): void {
  $effect(() => {
    const { plan, takeId, busy } = desk()
    void [plan, takeId]
    if (busy) return
    const later = setTimeout(() => notesStateOf(desk()).ask(), RESTING)
    return () => clearTimeout(later)
  })
}

/** ms */
const RESTING = 80
