import { SPACE } from '../format'
import type { Note, NoteLevel } from './types'
import { lower } from './words'

/**
 * The take in one line: '3 to fix, first at 1012: left knee slides 14 cm with 190 kg on it'; where nothing
 * breaks the weight, what there is to look at.
 */
export function oneLine(notes: readonly Note[]): string {
  const breaks = notes.filter(({ level }) => level === 'breaks')
  const looks = notes.filter(({ level }) => level === 'look')
  if (breaks.length > 0) return `${breaks.length} to fix, ${first(breaks)}`
  if (looks.length > 0) return `Nothing breaks the weight; ${looks.length} to look at, ${first(looks)}`
  return 'Nothing breaks the weight'
}

function first(notes: readonly Note[]): string {
  const one = notes.reduce((a, b) => (b.from < a.from ? b : a))
  return `first at ${one.label}: ${lower(one.sentence).replace(/\.$/, '')}`
}

/** All notes as plain text for an email: by level, in the order of a pass, with frames and remedies. */
export function asText(title: string, notes: readonly Note[]): string {
  const parts = LEVELS.flatMap(([level, heading]) => {
    const own = notes.filter((note) => note.level === level)
    return own.length === 0 ? [] : [[heading, ...own.flatMap(lines)].join('\n')]
  })
  return `${[title, oneLine(notes), ...parts].join('\n\n')}\n`.replaceAll(SPACE, ' ')
}

const LEVELS: readonly (readonly [NoteLevel, string])[] = [
  ['breaks', 'Breaks the weight'],
  ['look', 'Look at this'],
  ['style', 'Style'],
]

function lines(note: Note): string[] {
  const to = note.label + note.to - note.from
  const frames = to === note.label ? `${note.label}` : `${note.label}–${to}`
  return [`- ${frames}  ${note.sentence}`, `  ${note.remedy.text}`]
}
