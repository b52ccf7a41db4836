import { describe, expect, test } from 'vitest'
import { DEGREES, KILOGRAMS, quantityText, readQuantity, type Unit } from '../../src/screen/pages/quantity'

const CM: Unit = { name: 'cm', perOne: 100 }

describe('typed quantities', () => {
  test.each([
    ['12', 0.12],
    ['12cm', 0.12],
    ['12 cm', 0.12],
    ['12\u00a0cm', 0.12],
    ['5 in', 0.127],
    ['5"', 0.127],
    ['6ft', 1.8288],
    ['1.5 m', 1.5],
    ['1,5 m', 1.5],
    ['-30 mm', -0.03],
    ['−30 mm', -0.03],
    ['.5m', 0.5],
    ['1 200 cm', 12],
    ['+3', 0.03],
  ])('%j is a length of %d m', (text, metres) => {
    const read = readQuantity(text, 'length', CM)
    expect(read.ok && read.value).toBeCloseTo(metres, 12)
  })

  test('angles, masses and factors have their own units', () => {
    const value = (text: string, kind: 'angle' | 'mass' | 'factor', unit: Unit) => {
      const read = readQuantity(text, kind, unit)
      return read.ok ? read.value : Number.NaN
    }
    expect(value('30°', 'angle', DEGREES)).toBeCloseTo(Math.PI / 6, 12)
    expect(value('30', 'angle', DEGREES)).toBeCloseTo(Math.PI / 6, 12)
    expect(value('1 rad', 'angle', DEGREES)).toBe(1)
    expect(value('160 lb', 'mass', KILOGRAMS)).toBeCloseTo(72.5747792, 9)
    expect(value('1.2 t', 'mass', KILOGRAMS)).toBeCloseTo(1200, 9)
    expect(value('120 %', 'factor', { name: '×', perOne: 1 })).toBeCloseTo(1.2, 12)
  })

  test('a scene’s own unit is understood by its name', () => {
    const read = readQuantity('3 units', 'length', { name: 'units', perOne: 10 })
    expect(read.ok && read.value).toBeCloseTo(0.3, 12)
  })

  test.each(['', 'abc', '12 parsec', '1.2.3', '3 kg', '--4', 'NaN', 'Infinity', '1e5'])(
    '%j is refused with what would do',
    (text) => {
      const read = readQuantity(text, 'length', CM)
      expect(read.ok).toBe(false)
      expect(!read.ok && read.message).toMatch(/type 12 cm or 5 in\.$/)
    },
  )

  test('values are written in their unit without needless zeros', () => {
    expect(quantityText(0.1234, CM, 1)).toBe('12.3\u00a0cm')
    expect(quantityText(-0.1, CM, 1)).toBe('−10\u00a0cm')
    expect(quantityText(-1e-9, CM, 1)).toBe('0\u00a0cm')
    expect(quantityText(Math.PI / 6, DEGREES, 1)).toBe('30°')
  })
})
