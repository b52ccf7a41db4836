import { type Column, cellText } from '../sheet/column'
import { HEAVY_LINE_EVERY } from '../sheet/constants'
import { headerFacts } from '../sheet/header'
import { phaseLanes } from '../sheet/phases'
import type { Mark, PhaseRow, Sheet, SheetRow } from '../sheet/types'
import { element, escaped } from './markup'
import { columnGroups, loadBar } from './print-parts'

/** The full sheet: a row a frame, a heavier line under every eighth, its head on every page. */
export function frameTable(sheet: Sheet, columns: readonly Column[]): string {
  const lanes = phaseLanes(sheet.rows)
  const rows = sheet.rows.map((row, i) =>
    element('tr', rowAttributes(row), columns.map((column) => cell(column, row, lanes[i] ?? [])).join('')),
  )
  return element(
    'table',
    { class: 'print-table print-frames' },
    element('thead', {}, tableHead(sheet, columns)) + element('tbody', {}, rows.join('')),
  )
}

function rowAttributes({ frame, mark }: SheetRow): Record<string, string> {
  const classes = [
    mark.kind === 'key' || mark.kind === 'breakdown' ? 'print-keyed' : '',
    (frame + 1) % HEAVY_LINE_EVERY === 0 ? 'print-heavy' : '',
  ].filter(Boolean)
  return classes.length > 0 ? { class: classes.join(' ') } : {}
}

function tableHead(sheet: Sheet, columns: readonly Column[]): string {
  const facts = headerFacts(sheet).map(({ value }) => value)
  const running = [sheet.header.title, ...facts].join(' · ')
  const groups = columnGroups(columns).map(({ name, columns: { length } }) =>
    element('th', { scope: 'colgroup', colspan: length }, escaped(name)),
  )
  const titles = columns.map(({ title, unit }) =>
    element(
      'th',
      { scope: 'col' },
      escaped(title) + (unit === '' ? '' : element('span', { class: 'print-unit' }, ` ${escaped(unit)}`)),
    ),
  )
  return (
    element('tr', {}, element('th', { class: 'print-running', colspan: columns.length }, escaped(running))) +
    element('tr', {}, groups.join('')) +
    element('tr', {}, titles.join(''))
  )
}

function cell(column: Column, row: SheetRow, lanes: readonly (PhaseRow | null)[]): string {
  if (column.id === 'frame') return element('th', { scope: 'row' }, escaped(cellText(column, row)))
  if (column.id === 'phase') return element('td', { class: 'print-phases' }, brackets(lanes))
  if (column.id === 'mark' && row.mark.kind === 'between')
    return element('td', { class: 'print-mark' }, chartTick(row.mark))
  const bar = loadBar(column, row)
  const name = bar === '' ? CLASS[column.id] : 'print-share'
  return element('td', name === undefined ? {} : { class: name }, escaped(cellText(column, row)) + bar)
}

const CLASS: Readonly<Record<string, string>> = { note: 'print-note', mark: 'print-mark' }

/** A phase's name where it begins, its bracket down to where it ends. */
const brackets = (lanes: readonly (PhaseRow | null)[]): string =>
  lanes
    .map((phase) => {
      const classes = ['print-lane']
      if (phase) classes.push('print-runs')
      if (phase?.begins) classes.push('print-begins')
      if (phase?.ends) classes.push('print-ends')
      return element('span', { class: classes.join(' ') }, phase?.begins ? escaped(phase.name) : '')
    })
    .join('')

/** A tick of the timing chart, laid on its side: left is the last key, right the next. */
function chartTick({ progress }: Mark): string {
  if (progress === null) return ''
  const x = Number((3 + 94 * Math.max(0, Math.min(1, progress))).toFixed(1))
  const line = element('line', { x1: x, x2: x, y1: 2, y2: 18 }, '')
  return element('svg', { class: 'print-tick', viewBox: '0 0 100 20', 'aria-hidden': 'true' }, line)
}
