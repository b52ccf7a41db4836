import { describe, expect, it } from 'vitest'
import { hull, type Point2 } from '../../src/contact/hull'
import { random } from '../../src/space/random'

describe('the hull', () => {
  it('is the corners in order, without what lies between them', () => {
    const square: Point2[] = [
      [0, 0],
      [1, 1],
      [0.5, 0.5],
      [1, 0],
      [0.5, 0],
      [0, 1],
      [1, 1],
      [1, 0.25],
    ]
    expect(hull(square)).toEqual([
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ])
  })

  it('is nothing, a spot or a line where there is no more', () => {
    expect(hull([])).toEqual([])
    expect(
      hull([
        [2, 3],
        [2, 3],
      ]),
    ).toEqual([[2, 3]])
    expect(
      hull([
        [1, 1],
        [3, 3],
        [2, 2],
        [0, 0],
      ]),
    ).toEqual([
      [0, 0],
      [3, 3],
    ])
    expect(
      hull([
        [1, 5],
        [1, -5],
        [1, 0],
      ]),
    ).toEqual([
      [1, -5],
      [1, 5],
    ])
  })

  it('leaves its input alone', () => {
    const points: Point2[] = [
      [3, 0],
      [0, 0],
      [0, 3],
    ]
    hull(points)
    expect(points).toEqual([
      [3, 0],
      [0, 0],
      [0, 3],
    ])
  })

  it('keeps the ends of an edge whose points differ by rounding', () => {
    // Sorting by x puts the middle of this upright edge before its upper end.
    const points: Point2[] = [
      [0, 0],
      [1, -2],
      [1 + 6e-16, 0],
      [1 + 2e-16, 2],
    ]
    expect(hull(points)).toContainEqual([1 + 2e-16, 2])
    expect(hull(points)).toContainEqual([1, -2])
  })

  it('holds every point on its left, and turns left at every corner', () => {
    const next = random(12)
    for (let round = 0; round < 300; round++) {
      const points = Array.from({ length: 3 + Math.floor(40 * next()) }, (): Point2 => [next(), next()])
      const corners = hull(points)
      corners.forEach(([x, z], i) => {
        const [x2, z2] = corners[(i + 1) % corners.length] as Point2
        const [x3, z3] = corners[(i + 2) % corners.length] as Point2
        expect((x2 - x) * (z3 - z) - (z2 - z) * (x3 - x)).toBeGreaterThan(0)
        for (const [px, pz] of points)
          expect((x2 - x) * (pz - z) - (z2 - z) * (px - x)).toBeGreaterThan(-1e-12)
      })
    }
  })
})
