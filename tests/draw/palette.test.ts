import { expect, test } from 'vitest'
import type { Ink } from '../../src/draw/list'
import { PALETTES } from '../../src/draw/palette'

/** Relative luminance and contrast as WCAG 2.2 defines them (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio). */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((i) => {
    const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4
  }) as [number, number, number]
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}
const contrast = (a: string, b: string) => {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number]
  return (light + 0.05) / (dark + 0.05)
}

const drawn = [PALETTES.paper, PALETTES.slate, PALETTES.print]
const TEXT_ON: readonly (readonly [Ink, Ink])[] = [
  ['ink', 'paper'],
  ['inkSoft', 'paper'],
  ['weight', 'paper'],
  ['ink', 'toneL'],
  ['ink', 'toneR'],
  ['ink', 'block'],
  ['inkSoft', 'block'],
]

test.each(TEXT_ON)('%s on %s reaches 4.5 : 1 in every drawn palette', (ink, ground) => {
  for (const palette of drawn) expect(contrast(palette[ink], palette[ground])).toBeGreaterThanOrEqual(4.5)
})

test('what is not text but must be seen reaches 3 : 1 against paper', () => {
  for (const palette of drawn) {
    expect(contrast(palette.weight, palette.paper)).toBeGreaterThanOrEqual(3)
    expect(contrast(palette.ghost, palette.paper)).toBeGreaterThanOrEqual(3)
  }
})

test('printed in grey, weight stands between the darker tone and the ink', () => {
  const { ink, weight, toneR } = PALETTES.print
  expect(luminance(weight)).toBeGreaterThan(luminance(ink) * 1.5)
  expect(contrast(weight, toneR)).toBeGreaterThanOrEqual(3)
})
