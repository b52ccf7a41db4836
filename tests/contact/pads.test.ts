import { describe, expect, test } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { makeBody } from '../../src/body/model'
import { hull } from '../../src/contact/hull'
import { along, headingOf, padOutline, padSize } from '../../src/contact/pads'
import type { ContactKind } from '../../src/document/contacts'
import { cross, dot, norm, sub, type Vec3 } from '../../src/space/vec'

const body = makeBody((BUILDS[0] as (typeof BUILDS)[number]).spec)
const KINDS: readonly ContactKind[] = ['kneecap', 'toes', 'instep', 'sole', 'ball', 'palm', 'fist']
const NORMALS: readonly Vec3[] = [
  [0, 1, 0],
  [0, 0, -1],
  [1, 0, 0],
]

describe('pads', () => {
  test.each(KINDS)('%s: eight corners in order, convex, flat on the surface, the same mirrored', (kind) => {
    for (const normal of NORMALS) {
      const corners = padOutline(body, kind, 'L', [0.1, 0.2, 0.3], 0.7, normal)
      expect(corners).toHaveLength(8)
      for (const [i, corner] of corners.entries()) {
        const [next, after] = [corners[(i + 1) % 8] as Vec3, corners[(i + 2) % 8] as Vec3]
        expect(dot(sub(corner, [0.1, 0.2, 0.3]), normal)).toBeCloseTo(0, 12)
        const turn = dot(cross(sub(next, corner), sub(after, next)), normal)
        expect(Math.abs(turn)).toBeGreaterThan(0)
        expect(Math.sign(turn)).toBe(
          Math.sign(
            dot(
              cross(sub(corners[1] as Vec3, corners[0] as Vec3), sub(corners[2] as Vec3, corners[1] as Vec3)),
              normal,
            ),
          ),
        )
      }
    }
    const left = padOutline(body, kind, 'L', [0.1, 0, 0], 0.3, [0, 1, 0])
    const right = padOutline(body, kind, 'R', [-0.1, 0, 0], -0.3, [0, 1, 0])
    for (const [x, , z] of left) expect(right.some((p) => Math.hypot(p[0] + x, p[2] - z) < 1e-12)).toBe(true)
  })

  test('grow with the body, and a sole is as long as the foot', () => {
    expect(2 * padSize(body, 'sole', 'L').halfLength).toBeCloseTo(body.lengths.foot, 12)
    const spec = (BUILDS[0] as (typeof BUILDS)[number]).spec
    const double = makeBody({ ...spec, stature: spec.stature * 2 })
    for (const kind of KINDS)
      expect(padSize(double, kind, 'R').halfLength / padSize(body, kind, 'R').halfLength).toBeCloseTo(2, 9)
  })

  test('a heading and its direction go back and forth', () => {
    for (const normal of NORMALS)
      for (const heading of [-2, -0.4, 0, 1.3]) {
        const { ahead, left } = along(normal, heading)
        expect(headingOf(normal, ahead)).toBeCloseTo(heading, 12)
        expect(norm(cross(ahead, left))).toBeCloseTo(1, 12)
      }
    expect(along([0, 1, 0], 0)).toEqual({ ahead: [0, 0, 1], left: [1, 0, 0] })
  })

  test('the outline is its own hull', () => {
    const corners = padOutline(body, 'sole', 'R', [0, 0, 0], 0, [0, 1, 0])
    expect(hull(corners.map(([x, , z]) => [x, z] as const))).toHaveLength(8)
  })
})
