import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { sheetCsv, writeCsv } from '../../src/export/csv'
import { cellNumber, fullTitle } from '../../src/sheet/column'
import { columnsOf } from '../../src/sheet/columns'
import { capstone, firstTake, weighed } from '../sheet/sheets'

// csv-parse is the reference reader: RFC 4180's comma, double quotes and CRLF.
const read = (text: string): string[][] =>
  parse(text, { record_delimiter: '\r\n', relax_column_count: false })

describe('CSV', () => {
  it('comes back as it was written', () => {
    const text = fc.string({ unit: fc.constantFrom(...'a1 ,"\r\n;é’\u00a0'.split('')) })
    const table = fc
      .integer({ min: 1, max: 5 })
      .chain((width) => fc.array(fc.array(text, { minLength: width, maxLength: width }), { minLength: 1 }))
      .filter((rows) => rows.every((row) => row.every((cell) => !/^[\r\n]/.test(cell))))
      // One empty field alone on its line cannot be told from no record at all.
      .filter((rows) => rows.every((row) => row.length > 1 || row[0] !== ''))
    fc.assert(
      fc.property(table, (rows) => {
        expect(read(writeCsv(rows))).toEqual(rows)
      }),
    )
  })

  it('ends every record in CRLF and quotes only what it must', () => {
    expect(
      writeCsv([
        ['a', 'b c'],
        ['1,5', 'say "no"'],
      ]),
    ).toBe('a,b c\r\n"1,5","say ""no"""\r\n')
  })

  it.each(['=1+1', '+cmd|x', '-2+3', '@SUM(A1)', '\tx'])('keeps a spreadsheet from running %j', (text) => {
    expect(read(writeCsv([[text, 'b']]))[0]?.[0]).toBe(`'${text}`)
  })

  it('leaves numbers alone', () => {
    expect(writeCsv([['-4.25', '+3', '0.5']])).toBe('-4.25,+3,0.5\r\n')
  })
})

describe('a sheet as CSV', () => {
  const plan = capstone()
  const take = firstTake(plan)
  const notes = [
    { id: 'a', frame: 2, text: 'He says "now",\nand leans.' },
    { id: 'b', frame: 3, text: '=HYPERLINK("x")' },
  ]
  const { sheet } = weighed({ ...plan, takes: [{ ...take, notes }] })
  const columns = columnsOf(sheet)
  const [head = [], ...records] = read(sheetCsv(sheet, columns))

  it('has a record a frame under a head with units', () => {
    expect(records).toHaveLength(take.length)
    expect(head).toEqual(columns.map((column) => fullTitle(column).replaceAll('°', 'deg')))
    expect(new Set(head).size).toBe(head.length)
    expect(head).toContain('leg L weight (%)')
    expect(head).toContain('pelvis side (cm; + to his left)')
    expect(head).toContain('hips turn (deg; + to his left)')
  })

  it('carries every value, also of in-betweens', () => {
    records.forEach((record, frame) => {
      const row = sheet.rows[frame]
      if (row === undefined) throw new Error(`no row ${frame}`)
      const asText = (i: number) => cellNumber(columns[i] as (typeof columns)[number], row)
      record.forEach((cell, i) => {
        expect(cell).toBe(asText(i).startsWith('=') ? `'${asText(i)}` : asText(i))
      })
    })
    const column = (name: string) => records.map((record) => record[head.indexOf(name)])
    expect(column('frame')[1]).toBe('1002')
    expect(column('leg L state').every((state) => /^(down|off|touching empty)$/.test(state ?? ''))).toBe(true)
    expect(
      column('hips turn (deg; + to his left)').every((cell) => Number.isFinite(Number(cell)) && cell !== ''),
    ).toBe(true)
    expect(column('note').slice(2, 4)).toEqual(['He says "now",\nand leans.', `'=HYPERLINK("x")`])
  })

  it('holds the columns it is given, in their order', () => {
    const some = columns.filter(({ id }) => id === 'room' || id === 'frame').reverse()
    expect(read(sheetCsv(sheet, some))[0]).toEqual(['room (cm)', 'frame'])
  })
})
