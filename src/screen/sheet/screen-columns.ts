import type { LimbId } from '../../document/contacts'
import { type Column, cellText } from '../../sheet/column'
import { type ColumnOptions, columnsOf } from '../../sheet/columns'
import { centimetres, sceneUnits } from '../../sheet/format'
import type { Sheet, SheetRow } from '../../sheet/types'
import type { ViewSettings } from '../desk-view'
import { CELL, WIDTH } from './constants'

/** A column as the screen shows it. */
export interface ScreenColumn {
  readonly column: Column
  readonly kind: 'frame' | 'mark' | 'phase' | 'load' | 'note' | 'text'
  /** Over it, under its group's name. */
  readonly title: string
  /** Of a load column. */
  readonly limb: LimbId | null
  /** px */
  readonly width: number
  readonly shown: boolean
}

/** A column that is in the page, with its place among all that are shown. */
export type MadeColumn = ScreenColumn & { readonly place: number }

/** All columns of a sheet as the screen shows them: which are shown, in which unit, angles to what. */
export function screenColumns(sheet: Sheet, view: ColumnChoice): ScreenColumn[] {
  const columns = columnsOf(sheet, columnOptions(sheet, view))
  const isShown = (column: Column) =>
    column.id === 'frame' || (view.columns[column.id] ?? shownAtFirst(column))
  const inGroup = new Map<string, number>()
  for (const column of columns)
    if (isShown(column)) inGroup.set(column.group, (inGroup.get(column.group) ?? 0) + 1)
  return columns.map((column) => {
    const kind = kindOf(column.id)
    return {
      column,
      kind,
      // A load's number is its percentage; that it is a weight is what the whole sheet is about.
      title: kind === 'load' ? column.unit : column.title || column.group,
      limb: kind === 'load' ? (column.id.split('.')[0] as LimbId) : null,
      width: kind === 'text' ? textWidth(column, sheet.rows, inGroup.get(column.group) ?? 1) : WIDTH[kind],
      shown: isShown(column),
    }
  })
}

export type ColumnChoice = Pick<ViewSettings, 'columns' | 'distances' | 'angles'>

/** The columns' unit and angles as they were chosen: the same for the screen, the print and the file. */
export const columnOptions = ({ header }: Sheet, { distances, angles }: ColumnChoice): ColumnOptions => ({
  unit: distances === 'scene' ? sceneUnits(header.scene, header.stature) : centimetres(header.stature),
  angles,
})

/** The bar of a limb's load says also whether it is down; count and kilograms are for those who want them. */
const shownAtFirst = ({ id, shown }: Column): boolean => shown && !/^count$|\.(state|load)$/.test(id)

function kindOf(id: string): ScreenColumn['kind'] {
  if (id === 'frame' || id === 'mark' || id === 'phase' || id === 'note') return id
  return id.endsWith('.share') ? 'load' : 'text'
}

/** Wide enough for the longest text, the title, and its share of the group's name. */
function textWidth(column: Column, rows: readonly SheetRow[], inGroup: number): number {
  let longest = Math.max(column.group.length / inGroup, column.title.length)
  for (const row of rows) longest = Math.max(longest, cellText(column, row).length)
  return Math.min(CELL.most, Math.max(CELL.least, Math.ceil(longest * CELL.figure + CELL.margins)))
}

/** Neighbouring columns of one group share its name in the head; where it is the column's own title it is not said twice. */
export function headGroups(
  columns: readonly ScreenColumn[],
): { readonly name: string; readonly span: number }[] {
  const groups: { name: string; span: number }[] = []
  for (const { column, title } of columns) {
    const name = title === column.group ? '' : column.group
    const last = groups.at(-1)
    if (name !== '' && last?.name === name) last.span += 1
    else groups.push({ name, span: 1 })
  }
  return groups
}
