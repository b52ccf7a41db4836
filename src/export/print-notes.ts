import type { Note, NoteLevel } from '../sheet/notes/types'
import { element, escaped } from './markup'

/** The notes on weight as they are printed: the take in one line, then each with its number and its remedy. */
export interface PrintedNotes {
  readonly line: string
  readonly list: readonly PrintedNote[]
}

export interface PrintedNote extends Pick<Note, 'label' | 'from' | 'to' | 'level' | 'sentence'> {
  /** As it stands beside its frame on the sheet. */
  readonly number: number
  readonly remedy: string
}

/** Behind the key poses; '' where there are none. */
export function notesPart({ line, list }: PrintedNotes): string {
  if (list.length === 0) return ''
  const items = list.map(({ number, label, from, to, level, sentence, remedy }) => {
    const frames = to > from ? `${label}–${label + to - from}` : `${label}`
    return element(
      'li',
      { value: number },
      element('strong', {}, escaped(`${frames} ${LEVELS[level]}`)) +
        escaped(` ${sentence} `) +
        element('span', { class: 'print-title' }, escaped(remedy)),
    )
  })
  return element(
    'div',
    { class: 'print-notes' },
    element('h2', {}, 'Notes on weight') +
      element('p', {}, escaped(`${line}.`)) +
      element('ol', {}, items.join('')),
  )
}

const LEVELS: Readonly<Record<NoteLevel, string>> = {
  breaks: 'breaks the weight:',
  look: 'look at this:',
  style: 'style:',
}
