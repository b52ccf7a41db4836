import { describe, expect, test } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { makeBody } from '../../src/body/model'
import { overlap } from '../../src/draw/labels'
import { type Arrangement, boundsOf, layoutStage } from '../../src/draw/layout'
import { project, type View } from '../../src/draw/project'
import { silhouettesOf } from '../../src/draw/silhouette'
import { volumesOf } from '../../src/draw/volumes'
import { COURSE, STANCE_IDS, stancePose } from './fixture'

const SCREENS: readonly (readonly [number, number, Arrangement])[] = [
  [830, 676, { kind: 'quarter' }],
  [1240, 1036, { kind: 'quarter' }],
  [390, 560, { kind: 'stack' }],
  [830, 676, { kind: 'single', view: 'front' }],
  [390, 560, { kind: 'single', view: 'side' }],
  [390, 560, { kind: 'single', view: 'floor' }],
]
const cases = BUILDS.flatMap(({ id, spec }) => STANCE_IDS.map((stance) => ({ id, spec, stance })))

describe('layout', () => {
  test.each(cases)('$id, $stance: everything lies inside its view', ({ spec, stance }) => {
    const body = makeBody(spec)
    const pose = stancePose(body, stance)
    const bounds = boundsOf(body, [pose], [COURSE])
    for (const [width, height, arrangement] of SCREENS) {
      const layout = layoutStage({ width, height, arrangement, bounds })
      for (const view of layout.views) {
        const { area } = view
        expect(area.x >= 0 && area.y >= 0).toBe(true)
        expect(area.x + area.width).toBeLessThanOrEqual(width + 1e-6)
        expect(area.y + area.height).toBeLessThanOrEqual(height + 1e-6)
        for (const { outline } of silhouettesOf(volumesOf(body, pose), view)) {
          expect(outline.left).toBeGreaterThanOrEqual(area.x - 1e-6)
          expect(outline.right).toBeLessThanOrEqual(area.x + area.width + 1e-6)
          expect(outline.top).toBeGreaterThanOrEqual(area.y - 1e-6)
          // What the pose puts under the ground is cut off there.
          if (view.id === 'floor') expect(outline.bottom).toBeLessThanOrEqual(area.y + area.height + 1e-6)
        }
      }
    }
  })

  test('front and floor share x, front and side share y, all share one scale', () => {
    const body = makeBody((BUILDS[2] as (typeof BUILDS)[number]).spec)
    const bounds = boundsOf(body, [stancePose(body, 'half-kneel-left')], [COURSE])
    for (const mirrored of [false, true]) {
      const { views } = layoutStage({
        width: 830,
        height: 676,
        arrangement: { kind: 'quarter' },
        bounds,
        facing: { sideFrom: 'R', mirrored },
      })
      const [front, side, floor] = views as [View, View, View]
      const p = [0.37, 0.81, -0.22] as const
      expect(project(front, p)[0]).toBeCloseTo(project(floor, p)[0], 9)
      expect(project(front, p)[1]).toBeCloseTo(project(side, p)[1], 9)
      expect(new Set(views.map((view) => view.scale)).size).toBe(1)
    }
  })

  test('the fourth quarter is free and as large as asked', () => {
    const body = makeBody((BUILDS[0] as (typeof BUILDS)[number]).spec)
    for (const stance of STANCE_IDS) {
      const layout = layoutStage({
        width: 830,
        height: 676,
        arrangement: { kind: 'quarter', free: { width: 336, height: 280 } },
        bounds: boundsOf(body, [stancePose(body, stance)]),
        loadRows: 2,
      })
      expect(layout.free.width).toBeGreaterThanOrEqual(336 - 1e-6)
      expect(layout.free.height).toBeGreaterThanOrEqual(280 - 1e-6)
      for (const view of layout.views) expect(overlap(view.area, layout.free)).toBeLessThan(1e-6)
    }
  })

  test('no poses and no room still give a finite layout', () => {
    const body = makeBody((BUILDS[0] as (typeof BUILDS)[number]).spec)
    for (const [width, height] of [
      [0, 0],
      [20, 20],
    ] as const) {
      const layout = layoutStage({
        width,
        height,
        arrangement: { kind: 'quarter' },
        bounds: boundsOf(body, []),
      })
      expect(layout.scale).toBeGreaterThan(0)
      for (const view of layout.views) expect(Number.isFinite(view.x0 + view.y0)).toBe(true)
    }
  })
})
