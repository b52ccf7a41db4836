import { SPACE } from './format'
import type { SheetRow } from './types'

/** One column of the sheet: the same record makes the screen's, the printed sheet's and the CSV's column. */
export interface Column {
  /** Stable: what a hidden column is remembered by. */
  readonly id: string
  /** The part it belongs to, over the titles of its columns: 'pelvis'. */
  readonly group: string
  /** Within its group: 'side'. May be empty where the group says all. */
  readonly title: string
  /** Of the numbers, '' for words. */
  readonly unit: string
  /** What a number above 0 means, where it has a direction: 'to his left'. */
  readonly positive: string
  /** Decimals worth writing in a file. */
  readonly decimals: number
  /** The plain value in the column's unit: what a file holds. Null where there is none. */
  readonly of: (row: SheetRow) => number | string | null
  /** The value in words and with its direction: what a person reads. */
  readonly text: (row: SheetRow) => string
  /** In-between rows show it too. */
  readonly inBetweens: boolean
  /** Shown until somebody hides it; the others are hidden until somebody shows them. */
  readonly shown: boolean
}

/** What a cell shows: columns that are for key rows alone leave in-betweens and holds empty. */
export function cellText(column: Column, row: SheetRow): string {
  const keyed = row.mark.kind === 'key' || row.mark.kind === 'breakdown'
  return keyed || column.inBetweens ? column.text(row) : ''
}

/** The text with its unit after the number: '45' → '45 %', '7 R' → '7 cm R'; words and degrees as they are. */
export function textWithUnit(column: Column, row: SheetRow): string {
  const text = column.text(row)
  if (column.unit === '' || column.unit === '°') return text
  return text.replace(/[\d.\u202f]*\d/, (size) => `${size}${SPACE}${column.unit}`)
}

/** The column's whole name for a file or a screen reader: 'pelvis side (cm; + to his left)'. */
export function fullTitle({ group, title, positive, unit }: Column): string {
  const name = [group, title].filter(Boolean).join(' ')
  const meaning = [unit, positive && `+ ${positive}`].filter(Boolean).join('; ')
  return meaning === '' ? name : `${name} (${meaning})`
}

/** A column, where most of its fields go without saying. */
export function column(
  id: string,
  group: string,
  title: string,
  fields: Pick<Column, 'of'> & Partial<Omit<Column, 'id' | 'group' | 'title'>>,
): Column {
  return {
    id,
    group,
    title,
    unit: '',
    positive: '',
    decimals: 0,
    text: (row) => String(fields.of(row) ?? ''),
    inBetweens: false,
    shown: true,
    ...fields,
  }
}

export const joined = (words: readonly string[]): string => words.filter(Boolean).join(SPACE)

/** The plain value as text: a number with a point and no exponent, nothing where there is none. */
export function cellNumber(column: Column, row: SheetRow): string {
  const value = column.of(row)
  if (typeof value !== 'number') return value ?? ''
  const fixed = value.toFixed(column.decimals)
  const trimmed = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed
  return trimmed === '-0' ? '0' : trimmed
}
