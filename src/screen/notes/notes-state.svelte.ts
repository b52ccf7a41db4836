import type { Plan } from '../../document/plan'
import { replaceTake } from '../../plan/edit/takes'
import { setAside } from '../../plan/edit/things'
import type { PlainNote, PlainNotes } from '../../worker/protocol'
import { type Desk, samePlan } from '../desk.svelte'
import { outliving } from '../outliving.svelte'

/** The open take read for its weight; `fresh` while it belongs to the take as it stands. */
export interface Reading {
  readonly notes: PlainNotes
  readonly fresh: boolean
}

/**
 * The notes on the open take, read on the calculation thread; the last ones stay until the new are in. The desk
 * keeps them, for the sheet and for print. One for each desk.
 */
export class NotesState {
  readonly #desk: Desk
  #asked: Plan | null = null
  #readings = 0
  /** The note whose remedy is being done. */
  #doing: PlainNote | null = $state.raw(null)

  constructor(desk: Desk) {
    this.#desk = desk
  }

  readonly reading: Reading | null = $derived.by(() => {
    const { plan, take, takeId, read } = this.#desk
    return read?.takeId === takeId ? { notes: read.notes, fresh: samePlan(read.of, plan, take) } : null
  })

  get doing(): PlainNote | null {
    return this.#doing
  }

  /** Asks for the open take as it stands, unless that has been done. */
  ask(): void {
    const desk = this.#desk
    const { plan, take, takeId, busy, tools } = desk
    if (busy || tools.worker === undefined) return
    if (this.#asked !== null && samePlan(this.#asked, plan, take)) return
    const of: Plan = { ...plan, takes: [take] }
    this.#asked = of
    tools.worker.request(
      'read notes',
      { plan: of, reading: ++this.#readings },
      {
        pieces: ([notes]) => {
          if (notes && this.#asked === of) desk.setRead({ of, takeId, notes })
        },
        failed: (reason) => {
          if (this.#asked !== of) return
          this.#asked = null
          desk.say(`The take can’t be read: ${reason}. The plan is kept.`, 'problem')
        },
      },
    )
  }

  /** Does a note's remedy as one step of undo; a remedy is made for the take as it was read. */
  remedy(note: PlainNote): void {
    const desk = this.#desk
    const { plan, take, tools } = desk
    if (this.#doing !== null || !this.reading?.fresh) return
    this.#doing = note
    tools.worker?.request(
      'do remedy',
      { plan: { ...plan, takes: [take] }, reading: this.#readings, index: note.index },
      {
        pieces: ([done]) => {
          if (!done) return
          this.#doing = null
          if (desk.take !== take || desk.busy)
            desk.say('The take was changed meanwhile; press again once it is read.', 'hint')
          else if (done.take === null)
            desk.say('There is nothing that this remedy could still change; try it by hand.', 'hint')
          else {
            const { take: mended } = done
            desk.edit(note.name, (now) => replaceTake(now, mended))
            desk.say(`Done: ${note.remedy} Undo brings back what was.`)
          }
        },
        failed: (reason) => {
          this.#doing = null
          desk.say(`The remedy can’t be done: ${reason}. The plan is kept.`, 'problem')
        },
      },
    )
  }

  setAside({ rule, from }: PlainNote, reason: string): void {
    const { takeId } = this.#desk
    this.#desk.edit('Set a note aside', (plan) => setAside.add(plan, takeId, { rule, from, reason }))
  }

  bringBack({ rule, from }: PlainNote): void {
    const { takeId, take } = this.#desk
    const all = take.setAside.filter((aside) => aside.rule === rule && aside.from === from)
    this.#desk.edit('Bring a note back', (plan) =>
      all.reduce((changing, { id }) => setAside.delete(changing, takeId, id), plan),
    )
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
