import { describe, expect, it } from 'vitest'
import type { Point2 } from '../../src/contact/hull'
import { inset, nearestIn, roomIn, tidy } from '../../src/weigh/polygon'

const square: Point2[] = [
  [0, 0],
  [4, 0],
  [4, 2],
  [0, 2],
]
const line: Point2[] = [
  [0, 0],
  [4, 0],
]

describe('polygons on the ground', () => {
  it('tell the room inside and outside', () => {
    expect(roomIn(square, [1, 1.5])).toBe(0.5)
    expect(roomIn(square, [4, 1])).toBe(0)
    expect(roomIn(square, [7, 6])).toBe(-5)
    expect(roomIn(square, [2, -0.25])).toBe(-0.25)
  })

  it('have no room on a line, a spot, or nowhere', () => {
    expect(roomIn(line, [1, 0])).toBeCloseTo(0, 15)
    expect(roomIn(line, [1, 2])).toBe(-2)
    expect(roomIn([[1, 1]], [4, 5])).toBe(-5)
    expect(roomIn([], [0, 0])).toBe(Number.NEGATIVE_INFINITY)
  })

  it('know their nearest point', () => {
    expect(nearestIn(square, [1, 1])).toEqual([1, 1])
    expect(nearestIn(square, [5, 3])).toEqual([4, 2])
    expect(nearestIn(square, [3, -1])).toEqual([3, 0])
    expect(nearestIn(line, [1, 2])).toEqual([1, 0])
    expect(nearestIn([[1, 1]], [4, 5])).toEqual([1, 1])
  })

  it('shrink from every edge, until nothing is left', () => {
    expect(new Set(inset(square, 0.5).map(String))).toEqual(
      new Set(['0.5,0.5', '3.5,0.5', '3.5,1.5', '0.5,1.5']),
    )
    expect(inset(square, 1.1)).toEqual([])
    expect(inset(line, 0.1)).toEqual([])
    expect(inset([], 0.1)).toEqual([])
  })

  it('lose corners that are none, never one that counts', () => {
    expect(
      tidy(
        [
          [0, 0],
          [2, 1e-9],
          [4, 0],
          [4, 2],
          [4 - 1e-9, 2],
          [0, 2],
        ],
        1e-6,
      ),
    ).toHaveLength(4)
    expect(
      tidy(
        [
          [0, 0],
          [2, 0],
          [4, 0],
          [1, 0],
        ],
        1e-6,
      ),
    ).toEqual(line)
    expect(
      tidy(
        [
          [1, 1],
          [1, 1 + 1e-9],
        ],
        1e-6,
      ),
    ).toHaveLength(1)
    expect(tidy(square, 1e-6)).toEqual(square)
  })
})
