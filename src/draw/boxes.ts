import { footprint } from '../contact/ground'
import type { Box } from '../document/plan'
import { type Item, OP, path, polygon } from './list'
import { project, type View } from './project'
import { covers, type Silhouette } from './silhouette'

/** A box as one view shows it. */
export interface BoxFace {
  readonly box: Box
  /** Its outer edge, x, y flat, px. */
  readonly outline: readonly number[]
  /** Upright edges in front of others, a path to be stroked. */
  readonly edges: readonly number[]
  /** Nearest point to the viewer, px. */
  readonly depth: number
}

/** A box from the front, the side or above. */
export function boxFace(box: Box, view: View): BoxFace {
  const bottom = box.position[1]
  const top = bottom + box.size[1]
  const corners = footprint(box).map(([x, z]) => project(view, [x, top, z]))
  const depth = view.scale * Math.max(...corners.map((c) => c[2]))
  if (view.id === 'floor') return { box, outline: corners.flatMap((c) => [c[0], c[1]]), edges: [], depth }
  const left = Math.min(...corners.map((c) => c[0]))
  const right = Math.max(...corners.map((c) => c[0]))
  const y = (corners[0] as readonly number[])[1] as number
  const foot = y + view.scale * box.size[1]
  const middle = corners.reduce((sum, c) => sum + c[2], 0) / corners.length
  const edges = corners
    .filter(([x, , near]) => near > middle && x > left + 0.5 && x < right - 0.5)
    .flatMap(([x]) => [OP.move, x, y, OP.line, x, foot])
  return { box, outline: [left, y, right, y, right, foot, left, foot], edges, depth }
}

/** A box that stands among the volumes: a wash lets what lies behind it show through. */
export function drawBox({ outline, edges }: BoxFace): Item[] {
  return [
    path(polygon(outline), { fill: 'block', alpha: 0.8 }),
    path(polygon(outline), { stroke: 'ink', width: 1.2 }),
    ...(edges.length > 0 ? [path(edges, { stroke: 'ink', width: 1 })] : []),
  ]
}

/** The edges dashed where nearer volumes hide them. */
export function drawHidden(face: BoxFace, shapes: readonly Silhouette[]): Item[] {
  const nearer = shapes.filter((shape) => shape.depth > face.depth)
  const out: number[] = []
  const n = face.outline.length
  for (let i = 0; i < n; i += 2) {
    const at = (k: number) => face.outline[(i + k) % n] as number
    const pieces = Math.max(1, Math.ceil(Math.hypot(at(2) - at(0), at(3) - at(1)) / HIDDEN_STEP))
    let drawing = false
    for (let p = 0; p <= pieces; p++) {
      const x = at(0) + ((at(2) - at(0)) * p) / pieces
      const y = at(1) + ((at(3) - at(1)) * p) / pieces
      const hidden = nearer.some((shape) => covers(shape, x, y))
      if (hidden) out.push(drawing ? OP.line : OP.move, x, y)
      drawing = hidden
    }
  }
  return out.length > 0 ? [path(out, { stroke: 'inkSoft', width: 1, dash: [5, 4] })] : []
}

/** How finely hidden edges are looked for, px. */
const HIDDEN_STEP = 3
