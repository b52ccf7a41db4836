import { describe, expect, test } from 'vitest'
import { between, random } from '../../src/space/random'
import {
  aboutAxis,
  apply,
  fraction,
  frameFromYZ,
  fromAngles,
  mirrorRotation,
  multiply,
  toAngles,
  transpose,
} from '../../src/space/rotation'
import { dot, mirrorX, norm, sub, unit, type Vec3 } from '../../src/space/vec'

const near = (a: readonly number[], b: readonly number[], digits = 12) => {
  a.forEach((v, i) => {
    expect(v).toBeCloseTo(b[i] as number, digits)
  })
}
const some = (next: () => number): Vec3 => [between(next, -1, 1), between(next, -1, 1), between(next, -1, 1)]

describe('signs', () => {
  test('turn goes to the left, list raises the left side, tilt tips the top forward', () => {
    near(apply(fromAngles({ turn: Math.PI / 2, list: 0, tilt: 0 }), [0, 0, 1]), [1, 0, 0])
    near(apply(fromAngles({ turn: 0, list: Math.PI / 2, tilt: 0 }), [1, 0, 0]), [0, 1, 0])
    near(apply(fromAngles({ turn: 0, list: 0, tilt: Math.PI / 2 }), [0, 1, 0]), [0, 0, 1])
  })
})

test('turn · list · tilt is the product of the three turns, and comes back', () => {
  const next = random(1)
  for (let i = 0; i < 500; i++) {
    const angles = {
      turn: between(next, -3, 3),
      list: between(next, -1.5, 1.5),
      tilt: between(next, -3, 3),
    }
    const r = fromAngles(angles)
    near(
      r,
      multiply(
        multiply(aboutAxis([0, 1, 0], angles.turn), aboutAxis([0, 0, 1], angles.list)),
        aboutAxis([1, 0, 0], angles.tilt),
      ),
    )
    near(multiply(r, transpose(r)), [1, 0, 0, 0, 1, 0, 0, 0, 1])
    const back = toAngles(r)
    near([back.turn, back.list, back.tilt], [angles.turn, angles.list, angles.tilt], 9)
  }
})

test('half of a rotation done twice is the rotation, half a turn included', () => {
  const next = random(2)
  for (let i = 0; i < 200; i++) {
    const r = aboutAxis(unit(some(next)), i === 0 ? Math.PI : between(next, 0, Math.PI))
    const half = fraction(r, 0.5)
    near(multiply(half, half), r, 9)
  }
})

test('a frame from two directions is orthonormal, right-handed and keeps the first', () => {
  const next = random(3)
  for (let i = 0; i < 300; i++) {
    const y = i === 0 ? ([0, 0, 2] as Vec3) : some(next)
    const z = i < 2 ? ([0, 0, 1] as Vec3) : some(next)
    const r = frameFromYZ(y, z)
    near(multiply(r, transpose(r)), [1, 0, 0, 0, 1, 0, 0, 0, 1])
    near(apply(r, [0, 1, 0]), unit(y))
    const [x, up, front] = [apply(r, [1, 0, 0]), apply(r, [0, 1, 0]), apply(r, [0, 0, 1])]
    expect(
      dot(x, [
        up[1] * front[2] - up[2] * front[1],
        up[2] * front[0] - up[0] * front[2],
        up[0] * front[1] - up[1] * front[0],
      ]),
    ).toBeCloseTo(1, 10)
  }
})

test('the mirror of a rotation turns mirrored vectors into mirrored vectors', () => {
  const next = random(4)
  const r = fromAngles({ turn: 0.4, list: -0.7, tilt: 1.1 })
  for (let i = 0; i < 50; i++) {
    const v = some(next)
    expect(norm(sub(apply(mirrorRotation(r), mirrorX(v)), mirrorX(apply(r, v))))).toBeLessThan(1e-14)
  }
})

test('the same seed gives the same numbers, spread over 0 … 1', () => {
  const [a, b, c] = [random(7), random(7), random(8)]
  const first = Array.from({ length: 2000 }, a)
  expect(Array.from({ length: 2000 }, b)).toEqual(first)
  expect(c()).not.toBe(first[0])
  const mean = first.reduce((s, v) => s + v, 0) / first.length
  expect(Math.abs(mean - 0.5)).toBeLessThan(0.03)
  expect(Math.min(...first)).toBeGreaterThanOrEqual(0)
  expect(Math.max(...first)).toBeLessThan(1)
})
