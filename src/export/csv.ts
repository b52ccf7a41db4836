import { type Column, cellNumber, fullTitle } from '../sheet/column'
import type { Sheet } from '../sheet/types'

/**
 * Columns of a sheet as CSV (RFC 4180): a header record with units, a record a frame, lines ending in CRLF, all
 * frames and all numbers, also those that the sheet leaves out on in-betweens. Empty where there is none.
 */
export function sheetCsv(sheet: Sheet, columns: readonly Column[]): string {
  return writeCsv([
    columns.map((column) => fullTitle(column).replaceAll('°', 'deg')),
    ...sheet.rows.map((row) => columns.map((column) => cellNumber(column, row))),
  ])
}

/** Records as CSV; a field is quoted where it must be. */
export function writeCsv(records: readonly (readonly string[])[]): string {
  return records.map((fields) => `${fields.map(field).join(',')}\r\n`).join('')
}

function field(text: string): string {
  const safe = plainText(text)
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe
}

/**
 * A spreadsheet runs what begins like a formula, also when it stands in somebody else's note: such text gets
 * an apostrophe in front. Numbers stay as they are.
 */
const plainText = (text: string): string =>
  /^[=+\-@\t\r]/.test(text) && !/^[+-]?[0-9.]+$/.test(text) ? `'${text}` : text
