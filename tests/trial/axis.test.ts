import { expect, test } from 'vitest'
import type { Vec3 } from '../../src/space/vec'
import { tippingAxis } from '../../src/trial/axis'
import type { Contact } from '../../src/weigh/weigh'

/** Square pads 0.2 m wide around these middles, facing up. */
const pads = (...middles: Vec3[]): Contact[] =>
  middles.map(([x, y, z], i) => ({
    id: `${i}`,
    limb: `${i}`,
    vertices: [
      [x - 0.1, y, z - 0.1],
      [x + 0.1, y, z - 0.1],
      [x + 0.1, y, z + 0.1],
      [x - 0.1, y, z + 0.1],
    ],
    normal: [0, 1, 0],
    friction: 0.5,
    stiffness: 1,
    limit: 2,
  }))

const near = (v: readonly number[]) => v.map((x) => expect.closeTo(x, 12))

test('over an edge of level pads: a level line, square to the way out', () => {
  const axis = tippingAxis(pads([-0.4, 0, 0], [0.4, 0, 0]), [0.1, 1, 0.15], 1.8)
  expect(axis).toMatchObject({ level: true, overCorner: false, room: expect.closeTo(-0.05, 12) })
  expect(axis?.outward).toEqual(near([0, 0, 1]))
  // A right-handed turn about +X takes up to forward.
  expect(axis?.direction).toEqual(near([1, 0, 0]))
  expect(axis?.ends.map(([x, y, z]) => [Math.abs(x), y, z])).toEqual([
    near([0.5, 0, 0.1]),
    near([0.5, 0, 0.1]),
  ])
})

test('inside, the nearest edge, with room', () => {
  const axis = tippingAxis(pads([-0.4, 0, 0], [0.4, 0, 0]), [0.45, 1, 0.02], 1.8)
  expect(axis).toMatchObject({ room: expect.closeTo(0.05, 12), overCorner: false })
  expect(axis?.outward).toEqual(near([1, 0, 0]))
  expect(axis?.direction).toEqual(near([0, 0, -1]))
})

test('past a corner: the level line through it, square to the offset', () => {
  const axis = tippingAxis(pads([0, 0, 0]), [0.4, 1, 0.5], 1.8)
  expect(axis).toMatchObject({ overCorner: true, room: expect.closeTo(-0.5, 12) })
  expect(axis?.ends).toEqual([near([0.1, 0, 0.1])])
  expect(axis?.outward).toEqual(near([0.6, 0, 0.8]))
  expect(axis?.direction).toEqual(near([0.8, 0, -0.6]))
})

test('over an edge of uneven pads: through its two vertices where they are', () => {
  const axis = tippingAxis(pads([0, 0, 0], [0, 0.3, 0.5]), [0.12, 1, 0.25], 1.8)
  expect(axis).toMatchObject({ level: false, overCorner: false, room: expect.closeTo(-0.02, 12) })
  expect(axis?.outward).toEqual(near([1, 0, 0]))
  const slope = Math.hypot(0.3, 0.7)
  expect(axis?.direction).toEqual(near([0, -0.3 / slope, -0.7 / slope]))
  expect(axis?.ends).toEqual(expect.arrayContaining([near([0.1, 0, -0.1]), near([0.1, 0.3, 0.6])]))
})

test('heights within 1 % of the stature count as level', () => {
  const on = (height: number) => tippingAxis(pads([0, 0, 0], [0, height, 0.5]), [0.12, 1, 0.25], 2)
  expect(on(0.0199)).toMatchObject({ level: true, direction: near([0, 0, -1]) })
  expect(on(0.0201)?.level).toBe(false)
})

test('two points are an edge with two outer sides, one point is all corner', () => {
  const points = (...at: Vec3[]) => pads(...at).map((pad, i) => ({ ...pad, vertices: [at[i] as Vec3] }))
  const line = points([0, 0, 0], [0, 0, 1])
  expect(tippingAxis(line, [0.1, 1, 0.5], 1.8)).toMatchObject({
    outward: near([1, 0, 0]),
    room: expect.closeTo(-0.1, 12),
  })
  expect(tippingAxis(line, [-0.1, 1, 0.5], 1.8)).toMatchObject({
    outward: near([-1, 0, 0]),
    room: expect.closeTo(-0.1, 12),
  })
  expect(tippingAxis(points([0, 0, 0]), [0, 1, -0.2], 1.8)).toMatchObject({
    overCorner: true,
    outward: near([0, 0, -1]),
  })
})

test('what does not face up is no support', () => {
  const wall = pads([0, 0.5, 0]).map((pad) => ({ ...pad, normal: [1, 0, 0] as Vec3 }))
  expect(tippingAxis(wall, [0, 1, 0], 1.8)).toBeNull()
  expect(tippingAxis([...pads([0, 0, 0]), ...wall], [0.05, 1, 0], 1.8)?.room).toBeCloseTo(0.05, 12)
})
