import type { ColumnOptions } from '../sheet/columns'
import { type HeaderFact, headerFacts, headerNotes } from '../sheet/header'
import type { Sheet } from '../sheet/types'
import { element, escaped } from './markup'
import { frameTable } from './print-frames'
import { keyTable } from './print-keys'
import { notesPart } from './print-notes'
import type { PrintOptions } from './print-parts'

export type { PrintOptions } from './print-parts'

/**
 * A sheet to print, as markup for a hidden part of the page: first the key poses with their pictures, behind
 * them the notes on weight and the full sheet, a row a frame. It has classes only, so that it needs nothing the content security policy
 * forbids; `print.css` shows it, and nothing else of the page, when the page is printed.
 *
 * Put it into an element that is a child of the body. It is well-formed XML as well as HTML.
 */
export function printMarkup(sheet: Sheet, options: PrintOptions): string {
  const paper = options.paper === 'A4' ? 'print-a4' : 'print-letter'
  const parts = [
    element(
      'div',
      { class: 'print-part' },
      headMarkup(sheet, options) + keyTable(sheet, options) + (options.notes ? notesPart(options.notes) : ''),
    ),
    ...(options.keysOnly
      ? []
      : [element('div', { class: 'print-part' }, frameTable(sheet, options.columns))]),
  ]
  return element(
    'section',
    { class: `print-view ${paper}`, 'aria-label': 'Timing sheet for printing' },
    parts.join(''),
  )
}

function headMarkup(sheet: Sheet, options: ColumnOptions): string {
  const facts = headerFacts(sheet, options).map(({ term, value }: HeaderFact) =>
    element('div', {}, element('dt', {}, escaped(term)) + element('dd', {}, escaped(value))),
  )
  const notes = [
    ...headerNotes(options),
    'K key pose, B breakdown and how far it is from the last key to the next, H hold.',
  ]
  return element(
    'header',
    { class: 'print-head' },
    element('h1', {}, escaped(sheet.header.title)) +
      element('dl', {}, facts.join('')) +
      element('p', {}, escaped(notes.join(' '))),
  )
}
