import type { CarriedLoad } from '../document/plan'
import { loadPlace } from '../pose/mass'
import type { ReachedPose } from '../pose/types'
import { CARRIED_DENSITY, TEXT } from './constants'
import { boxOf, type Placer } from './labels'
import { type Item, path, polygon, type TextItem } from './list'
import { kilograms } from './loads'
import { project, type View } from './project'

/**
 * Something carried: a block of its mass's size at its hold.
 * @returns the items and how near it is to the viewer, px, to be drawn among the volumes
 */
export function drawCarried(
  load: CarriedLoad,
  pose: ReachedPose,
  view: View,
): { readonly depth: number; readonly items: readonly Item[] } {
  const { x, y, half, depth } = blockOf(load, pose, view)
  const corners = [x - half, y - half, x + half, y - half, x + half, y + half, x - half, y + half]
  return { depth, items: [path(polygon(corners), { fill: 'block', stroke: 'ink', width: 1.4 })] }
}

/** Its kilograms, on it where they have room, else beside it. */
export function carriedLabel(load: CarriedLoad, pose: ReachedPose, view: View, placer: Placer): TextItem {
  const { x, y, half } = blockOf(load, pose, view)
  const size = TEXT.small
  const level = y + size * 0.36
  const texts = (
    [
      [x, level, 'middle'],
      [x, y + half - 4, 'middle'],
      [x, y - half - 5, 'middle'],
      [x + half + 6, level, 'start'],
      [x - half - 6, level, 'end'],
      [x, y + half + size + 3, 'middle'],
    ] as const
  ).map(([tx, ty, anchor]): TextItem => {
    const text = kilograms(load.mass)
    return { kind: 'text', x: tx, y: ty, text, size, bold: false, anchor, ink: 'ink', halo: 'block' }
  })
  return texts[placer.take(texts.map(boxOf))] as TextItem
}

function blockOf(load: CarriedLoad, { joints, segments }: ReachedPose, view: View) {
  const [x, y, depth] = project(view, loadPlace(load, joints, segments))
  return { x, y, half: (view.scale * Math.cbrt(load.mass / CARRIED_DENSITY)) / 2, depth: depth * view.scale }
}
