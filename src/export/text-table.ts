/** Rows of cells in columns as wide as their widest cell, two spaces between; the first row is the head. */
export function textTable(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => width(row[i] ?? ''))))
  const line = (row: readonly string[]) =>
    row
      .map((cell, i) => cell + ' '.repeat((widths[i] ?? 0) - width(cell)))
      .join('  ')
      .trimEnd()
  return rows.map((row) => `${line(row)}\n`).join('')
}

const width = (text: string): number => [...text].length
