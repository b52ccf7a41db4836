import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fileName } from '../../src/export/names'

describe('file names', () => {
  it.each([
    [['Capstone', 'First pass'], 'capstone-first-pass.csv'],
    [['Ferryman’s child'], 'ferrymans-child.csv'],
    [['  a/b\\c:d*e?f"g<h>i|j  '], 'a-b-c-d-e-f-g-h-i-j.csv'],
    [['../../etc/passwd'], 'etc-passwd.csv'],
    [['Übung 3'], 'übung-3.csv'],
    [['石の巨人'], '石の巨人.csv'],
    [['…', '…'], 'weighbridge.csv'],
    [[''], 'weighbridge.csv'],
    [['CON'], 'weighbridge-con.csv'],
    [['com1'], 'weighbridge-com1.csv'],
  ])('%j → %s', (titles, name) => {
    expect(fileName(titles, 'csv')).toBe(name)
  })

  it('are short enough, never empty, hidden, or a way out of the folder', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'binary' })), (titles) => {
        const name = fileName(titles, 'json')
        expect(name).toMatch(/^[\p{L}\p{N}\p{M}-]+\.json$/u)
        expect(name).not.toMatch(/^[.-]/)
        expect(new TextEncoder().encode(name).length).toBeLessThanOrEqual(120)
      }),
    )
  })
})
