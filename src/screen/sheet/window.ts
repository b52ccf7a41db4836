/** The rows that must stand in the page: from `first` on, `count` of them. */
export interface RowWindow {
  readonly first: number
  readonly count: number
}

/**
 * Which of `rows` rows of height `row` px are to be made while the list is scrolled by `top` px in a part of the
 * page `height` px high, with some to spare on either side.
 */
export function rowWindow(rows: number, row: number, top: number, height: number, spare: number): RowWindow {
  const first = Math.min(Math.max(0, rows - 1), Math.max(0, Math.floor(top / row) - spare))
  const end = Math.min(rows, Math.ceil((top + height) / row) + spare)
  return { first, count: Math.max(0, end - first) }
}

/** The scroll position that shows a row whole, `margin` rows from the edge where it can be; the same where it does. */
export function scrollToRow(index: number, row: number, top: number, height: number, margin = 1): number {
  const before = Math.max(0, (index - margin) * row)
  const after = (index + 1 + margin) * row - height
  return Math.min(before, Math.max(top, after))
}

/**
 * Which of neighbouring columns are to be made: those seen in a part of the page `width` px wide, with some px to
 * spare on either side.
 * @param widths of all columns, px
 */
export function columnWindow(
  widths: readonly number[],
  left: number,
  width: number,
  spare: number,
): { readonly first: number; readonly end: number } {
  let [first, end, at] = [0, 0, 0]
  for (const [i, own] of widths.entries()) {
    if (at + own <= left - spare) first = i + 1
    if (at < left + width + spare) end = i + 1
    at += own
  }
  return { first: Math.min(first, end), end }
}
