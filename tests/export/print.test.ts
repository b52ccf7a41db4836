// @vitest-environment jsdom
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { type PrintOptions, printMarkup } from '../../src/export/print'
import { cellText } from '../../src/sheet/column'
import { columnsOf } from '../../src/sheet/columns'
import { capstone, firstTake, spaced, weighed } from '../sheet/sheets'

const plan = { ...capstone(), title: 'Stone & <mortar> "one"' }
const take = firstTake(plan)
const { sheet } = weighed({
  ...plan,
  takes: [{ ...take, notes: [{ id: 'n', frame: 0, text: '<img src=x onerror=alert(1)>' }] }],
})
const shown = columnsOf(sheet).filter((column) => column.shown)
const pictureOf = (frame: number) =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><text>${frame}</text></svg>`
const markup = (options: Partial<PrintOptions> = {}) =>
  printMarkup(sheet, { columns: shown, paper: 'A4', pictureOf, ...options })

/** Parsed as XML, which takes nothing that is not well-formed. */
function parsed(text: string): Document {
  const document = new DOMParser().parseFromString(`<root>${text}</root>`, 'application/xml')
  const fault = document.querySelector('parsererror')
  if (fault) throw new Error(fault.textContent)
  return document
}
const all = (document: Document | Element, selector: string) => [...document.querySelectorAll(selector)]

describe('the print view', () => {
  const document = parsed(markup())
  const [keyTable, frameTable] = all(document, 'table') as [Element, Element]
  const keys = sheet.rows.filter(({ mark }) => mark.kind === 'key' || mark.kind === 'breakdown')

  it('would not pass with a tag left open', () => {
    expect(() => parsed(markup({ pictureOf: () => '<svg>' }))).toThrow()
  })

  it('is well-formed, and stays so whatever the plan’s texts hold', () => {
    expect(all(document, 'h1')[0]?.textContent).toBe('Stone & <mortar> "one"')
    expect(all(document, 'img')).toEqual([])
    expect(keyTable.textContent).toContain('<img src=x onerror=alert(1)>')
  })

  it('puts the key poses first, each with its picture', () => {
    const rows = all(keyTable, 'tbody tr')
    expect(rows).toHaveLength(keys.length)
    rows.forEach((row, i) => {
      expect(row.querySelector('.print-picture svg')?.textContent).toBe(String(keys[i]?.frame))
      expect(row.querySelector('th')?.textContent).toContain(String(keys[i]?.label))
    })
  })

  it('puts the full sheet behind: every frame, every shown column, what the sheet shows', () => {
    const rows = all(frameTable, 'tbody tr')
    expect(rows).toHaveLength(sheet.rows.length)
    rows.forEach((row, i) => {
      const cells = [...row.children]
      const source = sheet.rows[i] as (typeof sheet.rows)[number]
      expect(cells).toHaveLength(shown.length)
      shown.forEach((column, c) => {
        if (column.id !== 'phase' && column.id !== 'mark')
          expect(cells[c]?.textContent).toBe(cellText(column, source))
      })
    })
  })

  it('has heads that a printer repeats: title and column titles in a thead', () => {
    for (const table of [keyTable, frameTable]) {
      const head = table.querySelector('thead')
      expect(head?.textContent).toContain('Stone & <mortar>')
      expect(table.firstElementChild).toBe(head)
    }
    expect(all(frameTable, 'thead tr:last-child th')).toHaveLength(shown.length)
    const spans = all(frameTable, 'thead th[scope=colgroup]').map((th) => Number(th.getAttribute('colspan')))
    expect(spans.reduce((a, b) => a + b, 0)).toBe(shown.length)
  })

  it('draws a heavier line under every eighth frame', () => {
    const heavy = all(frameTable, 'tr.print-heavy th').map((th) => Number(th.textContent) - 1000)
    expect(heavy).toEqual(sheet.rows.map((_, i) => i + 1).filter((count) => count % 8 === 0))
  })

  it('draws a bar as long as the load, and a tick where the chart has it', () => {
    const row = all(frameTable, 'tbody tr')[3] as Element
    const bars = all(row, '.print-bar rect').map((rect) => Number(rect.getAttribute('width')))
    const shares = sheet.limbs.map(({ id }) => 100 * (sheet.rows[3]?.limbs[id].weight?.share ?? 0))
    bars.forEach((bar, i) => {
      expect(bar).toBeCloseTo(shares[i] as number, 0)
    })
    expect(bars).toHaveLength(3)
    const ticks = all(frameTable, '.print-tick line').map((line) => Number(line.getAttribute('x1')))
    expect(ticks.length).toBe(sheet.rows.filter(({ mark }) => mark.kind === 'between').length)
  })

  it('names each phase once and brackets it to its end', () => {
    for (const { name } of take.phases)
      expect(all(frameTable, '.print-begins').filter((lane) => lane.textContent === name)).toHaveLength(1)
    expect(all(frameTable, '.print-ends')).toHaveLength(take.phases.length)
  })

  it('needs nothing that the content security policy forbids', () => {
    expect(all(document, '[style], style, script, link, [onload], [src], [href]')).toEqual([])
  })

  it('has a rule for every class it uses, and the paper’s size', () => {
    const css = readFileSync(join(import.meta.dirname, '../../src/export/print.css'), 'utf8')
    const classes = new Set(
      all(document, '[class]').flatMap((node) => (node.getAttribute('class') ?? '').split(' ')),
    )
    expect([...classes].filter((name) => !css.includes(`.${name}`))).toEqual([])
    expect(css).not.toMatch(/url\(|@import/)
    expect(all(document, 'section')[0]?.getAttribute('class')).toBe('print-view print-a4')
    expect(all(parsed(markup({ paper: 'Letter' })), 'section.print-letter')).toHaveLength(1)
  })

  it('prints the key poses alone when asked to', () => {
    const alone = parsed(markup({ keysOnly: true }))
    expect(all(alone, 'table')).toHaveLength(1)
    expect(all(alone, 'tbody tr')).toHaveLength(keys.length)
  })

  it('says how to read it', () => {
    expect(spaced(all(document, 'header')[0]?.textContent ?? '')).toContain('R and L are his own.')
  })
})
