import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bodyAxes, bodyWays, wayWords } from '../../src/sheet/directions'

describe('directions in words', () => {
  it.each([
    [0, 1, 'forward'],
    [1, 1, 'forward and to his left'],
    [1, 0, 'to his left'],
    [1, -1, 'back and to his left'],
    [0, -1, 'back'],
    [-1, -1, 'back and to his right'],
    [-1, 0, 'to his right'],
    [-1, 1, 'forward and to his right'],
    [-1, 0.4, 'to his right'],
    [-1, 0.42, 'forward and to his right'],
  ])('(%d, %d) is %s', (side, fore, words) => {
    expect(wayWords(side, fore, 'his')).toBe(words)
  })

  it('is the body’s own, whichever way it faces', () => {
    // Facing +X, the world's −Z is to its left and +X ahead.
    const quarter = Math.PI / 2
    expect(bodyWays(quarter, 0, -1)[0]).toBeCloseTo(1, 12)
    expect(bodyWays(quarter, 1, 0)[1]).toBeCloseTo(1, 12)
    expect(bodyAxes(0, [1, 2, 3])).toEqual([1, 2, 3])
  })

  it('of a mirrored move is the mirrored words', () => {
    const size = fc.double({ min: 1e-3, max: 10, noNaN: true })
    const sign = fc.constantFrom(-1, 1)
    fc.assert(
      fc.property(size, size, sign, sign, (a, b, p, q) => {
        const words = wayWords(a * p, b * q, 'her')
        const mirrored = wayWords(-a * p, b * q, 'her')
        const swap = { left: 'right', right: 'left' } as const
        expect(mirrored).toBe(words.replace(/left|right/, (side) => swap[side as keyof typeof swap]))
      }),
    )
  })
})
