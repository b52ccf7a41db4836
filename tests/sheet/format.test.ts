import { describe, expect, it } from 'vitest'
import {
  centimetres,
  degreesText,
  lengthText,
  massText,
  neededText,
  number,
  percentText,
  sceneUnits,
  sided,
  statureText,
} from '../../src/sheet/format'
import { spaced } from './sheets'

describe('numbers on the sheet', () => {
  it('keeps a number and its unit together', () => {
    expect(percentText(0.42)).toBe('42\u00a0%')
    expect(massText(176.4, 420)).toBe('176\u00a0kg')
    expect(degreesText(Math.PI / 15)).toBe('12°')
    expect(statureText(2.6)).toBe('2.6\u00a0m')
  })

  it('says of a small share that it is there', () => {
    expect(spaced(percentText(0.003))).toBe('under 1 %')
    expect(spaced(percentText(0))).toBe('0 %')
    expect(spaced(percentText(1e-9))).toBe('0 %')
  })

  it('writes a real minus, no signed zero, and thin spaces in large numbers', () => {
    expect(number(-4.4, 0)).toBe('−4')
    expect(number(-0.4, 0)).toBe('0')
    expect(number(200_000, 0)).toBe('200\u202f000')
    expect(number(2000, 0)).toBe('2000')
  })

  it('gives small bodies more decimals', () => {
    expect(spaced(lengthText(0.1104, centimetres(2.6)))).toBe('11 cm')
    expect(spaced(lengthText(0.0204, centimetres(0.4)))).toBe('2.0 cm')
    expect(spaced(massText(8.37, 21))).toBe('8.4 kg')
    expect(spaced(massText(0.123, 1))).toBe('0.12 kg')
  })

  it('speaks in scene units', () => {
    const metres = sceneUnits({ unit: 'm', unitsPerMetre: 1, root: [0, 0, 0] }, 1.75)
    expect(spaced(lengthText(0.1104, metres))).toBe('0.11 m')
    const inches = sceneUnits({ unit: 'in', unitsPerMetre: 39.3701, root: [0, 0, 0] }, 1.75)
    expect(spaced(lengthText(0.254, inches))).toBe('10.0 in')
  })

  it('rounds a length that must be reached up, and never past a whole one', () => {
    const cm = centimetres(1.75)
    expect(spaced(neededText(0.1001, cm))).toBe('11 cm')
    expect(spaced(neededText(0.1, cm))).toBe('10 cm')
    expect(spaced(neededText(0.07 + 0.03, cm))).toBe('10 cm')
  })

  it('names the side of a value, and none of nothing', () => {
    expect(spaced(sided(-7.2, 0, 'L', 'R'))).toBe('7 R')
    expect(spaced(sided(7.2, 0, 'L', 'R', '°'))).toBe('7° L')
    expect(sided(-0.4, 0, 'L', 'R')).toBe('0')
  })
})
