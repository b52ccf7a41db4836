import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { depthInside, hullSpans, outlineOf } from '../../src/draw/hull'

const circles = fc
  .array(
    fc.tuple(
      fc.double({ min: -200, max: 200, noNaN: true }),
      fc.double({ min: -200, max: 200, noNaN: true }),
      fc.double({ min: 0.3, max: 80, noNaN: true }),
    ),
    { minLength: 1, maxLength: 8 },
  )
  .map((list) => list.flat())

/** How far the hull reaches in a direction: the definition the outline is held against. */
function support(list: readonly number[], nx: number, ny: number): number {
  let most = Number.NEGATIVE_INFINITY
  for (let i = 0; i < list.length; i += 3)
    most = Math.max(most, (list[i] as number) * nx + (list[i + 1] as number) * ny + (list[i + 2] as number))
  return most
}

describe('outline of circles', () => {
  test('every point lies on the supporting line of its normal', () => {
    fc.assert(
      fc.property(circles, (list) => {
        const o = outlineOf(list, 0.2, 10)
        for (let i = 0; i < o.x.length; i++) {
          const [nx, ny] = [o.nx[i] as number, o.ny[i] as number]
          const reach = (o.x[i] as number) * nx + (o.y[i] as number) * ny
          expect(Math.abs(reach - support(list, nx, ny))).toBeLessThan(1e-6)
        }
      }),
    )
  })

  test('the spans make one full turn', () => {
    fc.assert(
      fc.property(circles, (list) => {
        const spans = hullSpans(list)
        let angle = 0
        for (let i = 0; i < spans.length; i += 3) {
          expect(spans[i + 1]).toBeCloseTo(angle, 9)
          angle = spans[i + 2] as number
        }
        expect(angle).toBeCloseTo(2 * Math.PI, 9)
      }),
    )
  })

  test('circles that share a tangent all take their part', () => {
    // Three in a row: the middle one only touches the tangents.
    const spans = hullSpans([0, 0, 10, 50, 0, 10, 100, 0, 10])
    const owners = new Set(spans.filter((_, i) => i % 3 === 0))
    expect(owners.has(0) && owners.has(2)).toBe(true)
    const o = outlineOf([0, 0, 10, 50, 0, 10, 100, 0, 10], 0.1, 1000)
    expect([o.left, o.right, o.top, o.bottom].map(Math.round)).toEqual([-10, 110, -10, 10])
  })

  test('inside and outside agree with the definition', () => {
    const at = fc.double({ min: -300, max: 300, noNaN: true })
    fc.assert(
      fc.property(circles, at, at, (list, x, y) => {
        let depth = Number.POSITIVE_INFINITY
        for (let k = 0; k < 3600; k++) {
          const [nx, ny] = [Math.cos((k * Math.PI) / 1800), Math.sin((k * Math.PI) / 1800)]
          depth = Math.min(depth, support(list, nx, ny) - (x * nx + y * ny))
        }
        const found = depthInside(outlineOf(list, 0.2, 10), x, y)
        // Sampled directions miss the nearest by up to 0.05° of at most 600 px, always to the far side.
        if (depth > 0.6) {
          expect(found).toBeLessThan(depth + 1e-6)
          expect(found).toBeGreaterThan(depth - 0.6)
        }
        if (depth < -1e-6) expect(found).toBeLessThan(0)
      }),
      { numRuns: 60 },
    )
  })
})
