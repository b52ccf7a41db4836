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
