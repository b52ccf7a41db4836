import { expect, test } from 'vitest'
import { hatch } from '../../src/draw/hatch'
import { OP } from '../../src/draw/list'

const strokes = (data: readonly number[]): [number, number, number, number][] => {
  const out: [number, number, number, number][] = []
  for (let i = 0; i < data.length; i += 6) {
    expect([data[i], data[i + 3]]).toEqual([OP.move, OP.line])
    out.push([data[i + 1], data[i + 2], data[i + 4], data[i + 5]] as [number, number, number, number])
  }
  return out
}

test('strokes of a square cover it at the spacing, edge to edge', () => {
  const lines = strokes(hatch([0, 0, 100, 0, 100, 100, 0, 100], 0, 10))
  // Those on its own edges are left to the outline.
  expect(lines.length).toBe(9)
  for (const [x1, y1, x2, y2] of lines) {
    expect([Math.min(x1, x2), Math.max(x1, x2)]).toEqual([0, 100])
    expect(y1).toBe(y2)
    expect(y1 % 10).toBe(0)
  }
})

test('slanted strokes add up to the area over the spacing', () => {
  // A five-cornered, not convex shape of area 100 × 100 − 50 × 50 / 2 … measured by the shoelace formula.
  const points = [0, 0, 100, 0, 100, 100, 50, 60, 0, 100]
  let area = 0
  for (let i = 0; i < points.length; i += 2) {
    const [x1, y1] = [points[i] as number, points[i + 1] as number]
    const [x2, y2] = [points[(i + 2) % points.length] as number, points[(i + 3) % points.length] as number]
    area += (x1 * y2 - x2 * y1) / 2
  }
  const spacing = 0.5
  const length = strokes(hatch(points, 0.7, spacing)).reduce(
    (sum, [a, b, c, d]) => sum + Math.hypot(c - a, d - b),
    0,
  )
  expect(length * spacing).toBeCloseTo(area, -1)
})

test('nothing gives nothing', () => {
  expect(hatch([], 0.3, 5)).toEqual([])
})
