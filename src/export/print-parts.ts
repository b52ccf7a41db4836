import type { Column } from '../sheet/column'
import type { ColumnOptions } from '../sheet/columns'
import type { SheetRow } from '../sheet/types'
import { element } from './markup'
import type { PrintedNotes } from './print-notes'

export interface PrintOptions extends ColumnOptions {
  /** The columns that are shown, in order. */
  readonly columns: readonly Column[]
  readonly paper: 'A4' | 'Letter'
  /** The key poses alone, without the full sheet behind them. */
  readonly keysOnly?: boolean
  /** The notes on weight, where the take was read as it stands. */
  readonly notes?: PrintedNotes
  /** The picture of a key pose: an `svg` element without style attributes, trusted as it is. */
  readonly pictureOf: (frame: number) => string | undefined
}

/** Neighbouring columns of one part of the body, under the part's name. */
export function columnGroups(columns: readonly Column[]): ColumnGroup[] {
  const groups: { name: string; columns: Column[] }[] = []
  for (const column of columns) {
    const last = groups.at(-1)
    if (last?.name === column.group) last.columns.push(column)
    else groups.push({ name: column.group, columns: [column] })
  }
  return groups
}

export interface ColumnGroup {
  readonly name: string
  readonly columns: readonly Column[]
}

/** A bar as long as the share of the weight that a limb carries; empty for every other column. */
export function loadBar({ id, of }: Column, row: SheetRow): string {
  const percent = of(row)
  if (!id.endsWith('.share') || typeof percent !== 'number' || percent <= 0) return ''
  const width = Number(Math.min(100, percent).toFixed(1))
  return element(
    'svg',
    { class: 'print-bar', viewBox: '0 0 100 20', preserveAspectRatio: 'none', 'aria-hidden': 'true' },
    element('rect', { x: 0, y: 0, width, height: 20 }, ''),
  )
}
