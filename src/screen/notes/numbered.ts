import type { PlainNote, PlainNotes } from '../../worker/protocol'

/** All notes with their numbers: the few to go home with come first, as on the page, on the sheet and in print. */
export function numbered({ notes, shown }: PlainNotes): NumberedNote[] {
  const first = new Set(shown.map(({ index }) => index))
  return [...shown, ...notes.filter(({ index }) => !first.has(index))].map((note, i) => ({
    note,
    number: i + 1,
  }))
}

export interface NumberedNote {
  readonly note: PlainNote
  readonly number: number
}

/** What stands in the sheet’s margin, by frame from 0: 'note 1: slides under load'. */
export function marginOf(notes: PlainNotes | null): ReadonlyMap<number, string> {
  const margin = new Map<number, string>()
  for (const { note, number } of notes ? numbered(notes) : []) {
    const before = margin.get(note.from)
    const own = `note ${number}: ${note.name.toLowerCase()}`
    margin.set(note.from, before === undefined ? own : `${before} · ${own}`)
  }
  return margin
}
