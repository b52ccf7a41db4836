import { type Notes, notesSteps } from '../sheet/notes/notes'
import { asText, oneLine } from '../sheet/notes/text'
import type { Note } from '../sheet/notes/types'
import { type DynamicFrame, weighMotion } from '../weigh/dynamic'
import type { PlainNote, PlainNotes, ReadingProblem, RemedyPiece, RemedyProblem } from './protocol'
import { motionProblem } from './weigh-motion'

/** Weighs a plan's only take in motion, a frame at each step, and reads it for its weight. */
export function* readNotesOf(problem: ReadingProblem): Generator<PlainNotes | undefined> {
  const { plan } = problem
  const notes = yield* read(problem)
  yield plainNotes(notes, [plan.title, plan.takes[0]?.name].filter(Boolean).join(', '))
}

/** Does the remedy of one note: of the last reading, or of a new one where that was another. */
export function* doRemedyOf(problem: RemedyProblem): Generator<RemedyPiece | undefined> {
  const notes = last?.reading === problem.reading ? last.notes : yield* read(problem)
  const { plan, index } = problem
  const takeId = plan.takes[0]?.id ?? ''
  const fixed = notes.notes[index]?.remedy.fix?.(plan, takeId) ?? plan
  yield { take: fixed === plan ? null : (fixed.takes[0] ?? null) }
}

/** Remedies can't be sent to the page; the last reading's are kept here until one is asked for. */
let last: { readonly reading: number; readonly notes: Notes } | null = null

function* read({ plan, reading }: ReadingProblem): Generator<undefined, Notes> {
  const { problem, take, motion } = motionProblem(plan)
  yield* motion.prepared()
  const frames: DynamicFrame[] = []
  for (const frame of weighMotion(problem, { mover: take.mover })) {
    frames[frame.frame] = frame
    yield undefined
  }
  const notes = yield* notesSteps({ plan, take, motion, weighed: (frame) => frames[frame] })
  last = { reading, notes }
  return notes
}

/** @param title heads the plain text */
function plainNotes({ notes, shown, aside, stepped }: Notes, title: string): PlainNotes {
  const plain = ({ remedy, ...note }: Note): PlainNote => ({
    ...note,
    remedy: remedy.text,
    fixable: remedy.fix !== undefined,
    index: notes.findIndex(
      (one) => one.rule === note.rule && one.sentence === note.sentence && one.from === note.from,
    ),
  })
  return {
    notes: notes.map(plain),
    shown: shown.map(plain),
    aside: aside.map(({ note, reason }) => ({ note: plain(note), reason })),
    stepped,
    line: oneLine(notes),
    text: asText(title, notes),
  }
}
