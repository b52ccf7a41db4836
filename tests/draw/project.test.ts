import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  axesOf,
  axesTurned,
  project,
  unproject,
  unprojectMove,
  VIEWS,
  type View,
} from '../../src/draw/project'
import { cross, distance, dot } from '../../src/space/vec'

const place = fc.tuple(...[0, 1, 2].map(() => fc.double({ min: -40, max: 40, noNaN: true }))) as fc.Arbitrary<
  [number, number, number]
>
const facings = [
  { sideFrom: 'R', mirrored: false },
  { sideFrom: 'L', mirrored: false },
  { sideFrom: 'R', mirrored: true },
] as const
const views: View[] = facings.flatMap((facing) =>
  VIEWS.map((id) => ({
    id,
    axes: axesOf(id, facing),
    scale: 137.5,
    x0: 211,
    y0: 402,
    area: { x: 0, y: 0, width: 800, height: 600 },
  })),
)

describe('views', () => {
  test('unproject undoes project', () => {
    fc.assert(
      fc.property(place, fc.constantFrom(...views), (p, view) => {
        const [x, y] = project(view, p)
        expect(distance(unproject(view, x, y, p), p)).toBeLessThan(1e-9)
      }),
    )
  })

  test('a move on the drawing keeps to the plane of the view', () => {
    fc.assert(
      fc.property(place, fc.constantFrom(...views), (p, view) => {
        const [x, y] = project(view, p)
        const move = unprojectMove(view, 30, -12)
        const [x2, y2] = project(view, [p[0] + move[0], p[1] + move[1], p[2] + move[2]])
        expect(x2 - x).toBeCloseTo(30, 6)
        expect(y2 - y).toBeCloseTo(-12, 6)
        expect(dot(move, view.axes.toward)).toBeCloseTo(0, 12)
      }),
    )
  })

  test('his left is on the right of the viewer in front, and in the floor view under it', () => {
    const left = [1, 0, 0] as const
    for (const id of ['front', 'floor'] as const) expect(dot(axesOf(id).right, left)).toBe(1)
    expect(dot(axesOf('front').toward, [0, 0, 1])).toBe(1)
    // Forward is down in the floor view: its near edge is the one next to the viewer of the front view.
    expect(dot(axesOf('floor').up, [0, 0, 1])).toBe(-1)
  })

  test('from his right he faces right, from his left he faces left', () => {
    expect(dot(axesOf('side').right, [0, 0, 1])).toBe(1)
    expect(dot(axesOf('side').toward, [-1, 0, 0])).toBe(1)
    expect(dot(axesOf('side', { sideFrom: 'L', mirrored: false }).right, [0, 0, 1])).toBe(-1)
  })

  test('axes are right-handed, and a mirrored view is not', () => {
    for (const id of VIEWS) {
      const plain = axesOf(id)
      expect(dot(cross(plain.right, plain.up), plain.toward)).toBe(1)
      const mirrored = axesOf(id, { sideFrom: 'R', mirrored: true })
      expect(dot(cross(mirrored.right, mirrored.up), mirrored.toward)).toBe(-1)
    }
    const turned = axesTurned(0.7, 0.3)
    expect(dot(cross(turned.right, turned.up), turned.toward)).toBeCloseTo(1, 12)
    expect(distance(axesTurned(0, 0).toward, axesOf('front').toward)).toBeCloseTo(0, 12)
  })
})
