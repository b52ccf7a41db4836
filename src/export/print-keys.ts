import { type Column, textWithUnit } from '../sheet/column'
import type { Sheet, SheetRow } from '../sheet/types'
import { element, escaped } from './markup'
import { columnGroups, loadBar, type PrintOptions } from './print-parts'

/** The key poses and breakdowns in a table: picture first, then each part of the body with its values in words. */
export function keyTable(sheet: Sheet, { columns, pictureOf }: PrintOptions): string {
  const groups = columnGroups(columns.filter(({ id }) => !WHEN.includes(id)))
  const when = columns.filter(({ id }) => WHEN.includes(id))
  const head = ['pose', 'frame', ...groups.map(({ name }) => name)]
    .map((name) => element('th', { scope: 'col' }, escaped(name)))
    .join('')
  const rows = sheet.rows
    .filter(({ mark }) => mark.kind === 'key' || mark.kind === 'breakdown')
    .map((row) =>
      element(
        'tr',
        {},
        element('td', { class: 'print-picture' }, pictureOf(row.frame) ?? '') +
          element('th', { scope: 'row', class: 'print-when' }, lines(when, row)) +
          groups.map((group) => element('td', {}, lines(group.columns, row))).join(''),
      ),
    )
  return element(
    'table',
    { class: 'print-table' },
    element('thead', {}, headRow(sheet, head, groups.length + 2)) + element('tbody', {}, rows.join('')),
  )
}

/** The columns that say when a pose is, under one another beside its picture. */
const WHEN = ['frame', 'count', 'seconds', 'timecode', 'mark', 'phase']
/** Their values need no title. */
const OWN_WORDS = ['frame', 'mark', 'phase']

function headRow({ header }: Sheet, head: string, span: number): string {
  const title = `${header.title} · ${header.take} · key poses`
  return (
    element('tr', {}, element('th', { class: 'print-running', colspan: span }, escaped(title))) +
    element('tr', {}, head)
  )
}

/** A line a column: its title, its value with the unit, a bar for what a limb carries. */
function lines(columns: readonly Column[], row: SheetRow): string {
  return columns
    .filter((column) => column.text(row) !== '')
    .map((column) => {
      const name = OWN_WORDS.includes(column.id)
        ? ''
        : column.title || (WHEN.includes(column.id) ? column.group : '')
      const title = name === '' ? '' : element('span', { class: 'print-title' }, `${escaped(name)} `)
      const bar = loadBar(column, row)
      const value = title + escaped(textWithUnit(column, row)) + bar
      return element('div', bar === '' ? {} : { class: 'print-share' }, value)
    })
    .join('')
}
