import { expect, test } from 'vitest'
import type { Item } from '../../src/draw/list'
import { project } from '../../src/draw/project'
import { drawTrial } from '../../src/draw/trial'
import { turnPose } from '../../src/pose/turn'
import type { Vec3 } from '../../src/space/vec'
import { bodyOf, fistOnCourse, stageOf } from './fixture'

const mason = bodyOf('mason')
const { weights: _, ...input } = stageOf(mason, fistOnCourse(mason))
const ends: Vec3[] = [
  [-0.3, 0, 0.4],
  [0.1, 0, -0.2],
]
const edge = { ends, direction: [0.55, 0, -0.83] as Vec3, beyond: 0.1 }
const namesIn = (items: readonly Item[]): string[] =>
  items.flatMap((item) => (item.kind === 'group' ? [item.name, ...namesIn(item.items)] : []))
const groupIn = (items: readonly Item[], name: string): readonly Item[] => {
  const found = items.find((item) => item.kind === 'group' && item.name === name)
  return found?.kind === 'group' ? found.items : []
}

test('every view shows the edge where it is, and the weight', () => {
  const list = drawTrial(input, edge)
  for (const view of input.layout.views) {
    const [x, y] = project(view, ends[0] as Vec3)
    const dots = groupIn(list.items, `edge-${view.id}`).filter((item) => item.kind === 'circle')
    expect(dots[0]).toMatchObject({ x, y })
    expect(groupIn(list.items, `weight-${view.id}`)).not.toEqual([])
  }
})

test('an edge that is seen along itself is a point, with no line', () => {
  const list = drawTrial(input, {
    ...edge,
    ends: [
      [0, 0, -0.2],
      [0, 0, 0.3],
    ],
    direction: [0, 0, 1],
  })
  const lines = (view: string) =>
    groupIn(list.items, `edge-${view}`).filter((item) => item.kind === 'line').length
  expect(lines('front')).toBe(0)
  expect(lines('floor')).toBe(2)
})

test('without an edge there is none, and no load is shown while the body goes over', () => {
  const turned = { ...input, pose: turnPose(input.pose, ends[0] as Vec3, [0, 0, 1], 0.1) }
  const names = namesIn(drawTrial(turned, null).items)
  expect(names.filter((name) => /^(edge|load)-/.test(name))).toEqual([])
})
