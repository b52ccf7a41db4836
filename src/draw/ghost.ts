import { depthInside } from './hull'
import { type Ink, type Item, OP, path } from './list'
import { outlinePath } from './pen'
import type { Silhouette } from './silhouette'

export interface GhostStyle {
  /** Fills the whole silhouette first. */
  readonly fill?: Ink
  readonly stroke?: Ink
  readonly width?: number
  /** Of an empty silhouette. */
  readonly dash?: readonly number[]
}

/**
 * A body that is not there: the outline round all its volumes together, filled or empty. For before and
 * after, onion skins, and the body under the floor view.
 */
export function drawGhost(shapes: readonly Silhouette[], style: GhostStyle): Item[] {
  const { fill, stroke, width = 1, dash } = style
  if (!fill) {
    if (!stroke) return []
    return [path(unionOutline(shapes), { stroke, width, ...(dash ? { dash, round: true } : {}) })]
  }
  const paths = shapes.map(({ outline }) => outlinePath(outline))
  // Fills over the lines leave only the outer half of the line round all volumes together.
  return [
    ...(stroke ? paths.map((data) => path(data, { stroke, width: 2 * width })) : []),
    ...paths.map((data) => path(data, { fill })),
  ]
}

/** The parts of the outlines that lie inside no other volume, as an open path to be stroked. */
function unionOutline(shapes: readonly Silhouette[]): number[] {
  const out: number[] = []
  for (const shape of shapes) {
    const { outline: o } = shape
    const others = shapes.filter((other) => other !== shape && meets(other, shape))
    const n = o.x.length
    let drawing = false
    for (let k = 0; k <= n; k++) {
      const i = k % n
      const [x, y] = [o.x[i] as number, o.y[i] as number]
      // Just within another's edge still counts as outside, so that lines meet.
      const hidden = others.some((other) => depthInside(other.outline, x, y) > 0.3)
      if (!hidden) out.push(drawing ? OP.line : OP.move, x, y)
      drawing = !hidden
    }
  }
  return out
}

function meets({ outline: a }: Silhouette, { outline: b }: Silhouette): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
}
