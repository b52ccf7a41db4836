import type { Vec3 } from '../space/vec'
import { addScaled, distance, dot, sub } from '../space/vec'
import { MARK, TEXT } from './constants'
import type { StageInput } from './input'
import { circle, type DisplayList, group, type Item, line, type TextItem } from './list'
import { drawPlumb, plumbPoint } from './plumb'
import { project, type View } from './project'
import { drawStage } from './stage'

/**
 * A lift trial on the stage: the frozen pose as it has turned so far, the edge it turns about, and its weight
 * with the plumb. What a pad carries is not drawn: it is not known while the body goes over.
 */
export function drawTrial(input: Omit<StageInput, 'weights'>, edge: TrialEdge | null): DisplayList {
  const { list } = drawStage(input)
  const { com } = input.pose
  const weight = input.layout.views.map((view) => group(`weight-${view.id}`, weightIn(view, com)))
  const edges = edge === null ? [] : input.layout.views.map((view) => drawEdge(view, edge))
  return { ...list, items: [...list.items, ...edges, ...weight] }
}

/** World frame, m. */
export interface TrialEdge {
  /** The edge's two ends, or the one corner. */
  readonly ends: readonly Vec3[]
  /** Unit vector along the axis. */
  readonly direction: Vec3
  /** How far the axis is drawn beyond the ends, m. */
  readonly beyond: number
}

function weightIn(view: View, com: Vec3): Item[] {
  if (view.id !== 'floor') return drawPlumb(com, view, view.y0)
  const [x, y] = project(view, com)
  return [plumbPoint(x, y)]
}

/** The edge as a heavy line, the axis beyond it dashed; seen along itself it is a point. */
function drawEdge(view: View, { ends, direction, beyond }: TrialEdge): Item {
  const [first, last] = [ends[0] as Vec3, ends.at(-1) as Vec3]
  const sense = dot(direction, sub(last, first)) < 0 ? -1 : 1
  const [a, b, c, d] = [
    addScaled(first, direction, -sense * beyond),
    first,
    last,
    addScaled(last, direction, sense * beyond),
  ].map((point) => project(view, point)) as [Point, Point, Point, Point]
  const items: Item[] = []
  if (Math.hypot(d[0] - a[0], d[1] - a[1]) > SHORT) {
    items.push(line(a[0], a[1], d[0], d[1], { stroke: 'ink', width: 1.4, dash: [6, 4] }))
    if (distance(first, last) > 0)
      items.push(line(b[0], b[1], c[0], c[1], { stroke: 'ink', width: EDGE_WIDTH }))
  }
  for (const [x, y] of [b, c]) items.push(circle(x, y, MARK.plumb - 1.5, { fill: 'ink' }))
  return group(`edge-${view.id}`, [...items, label(view, d[1] > a[1] ? d : a)], {
    title: 'The edge it turns about',
  })
}

type Point = readonly [number, number, number]

/** At the axis's lower end, where nothing else is written during a trial. */
function label(view: View, [x, y]: Point): TextItem {
  return {
    kind: 'text',
    x: x + 8,
    y: view.id === 'floor' ? y + 4 : Math.max(y, view.y0) + 17,
    text: 'edge',
    size: TEXT.small,
    bold: true,
    anchor: 'start',
    ink: 'ink',
    halo: 'paper',
  }
}

/** An axis that a view shows shorter than this is seen along itself, px. */
const SHORT = 8
const EDGE_WIDTH = 3.2
