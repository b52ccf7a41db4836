import type { Point2 } from '../contact/hull'
import { addScaled, norm, scale, type Vec3 } from '../space/vec'
import { MARK, TEXT } from './constants'
import type { StageLayout } from './layout'
import { circle, type DisplayList, type Group, group, type Item, line, OP, path, type TextItem } from './list'
import { project, type View } from './project'

/** What of a motion is drawn over the stage of one frame. */
export interface MotionMarks {
  /** The push from nowhere, where there is one that counts. */
  readonly push: DrawnPush | null
  /** The weight dropped on the floor at every frame, x and z, m; none where it is not weighed. */
  readonly path: readonly (Point2 | null)[]
  /** Frames of `path` with a key: their ticks are larger. */
  readonly keys: ReadonlySet<number>
  readonly frame: number
  /** Where the ground presses at this frame, world, m; null where it does not. */
  readonly centreOfPressure: Vec3 | null
}

export interface DrawnPush {
  /** The centre of mass, world, m. */
  readonly at: Vec3
  /** On the body, over its weight. */
  readonly force: Vec3
  /** '43 kg' */
  readonly kilograms: string
}

/** The list with the push from nowhere drawn at the body and the path of the weight on the floor. */
export function withMotion(
  list: DisplayList,
  layout: StageLayout,
  stature: number,
  marks: MotionMarks,
): DisplayList {
  const items = layout.views.flatMap((view): Item[] => [
    ...(view.id === 'floor' ? [group('weight-path', weightPath(view, marks), { clip: view.area })] : []),
    ...(marks.push ? [pushAt(view, marks.push, stature)] : []),
  ])
  // What is written on the floor stays readable over the path.
  const texts: TextItem[] = []
  const rest = list.items.map((item) =>
    item.kind === 'group' && item.name === 'floor' ? withoutTexts(item, texts) : item,
  )
  return { ...list, items: [...rest, ...items, ...texts] }
}

function withoutTexts(from: Group, texts: TextItem[]): Group {
  const items = from.items.flatMap((item): Item[] => {
    if (item.kind === 'group') return [withoutTexts(item, texts)]
    if (item.kind !== 'text') return [item]
    texts.push({ ...item, halo: 'paper' })
    return []
  })
  return { ...from, items }
}

/** The weight's way over the floor with a tick for each frame, a larger one at keys, and where the ground presses. */
function weightPath(view: View, { path: places, keys, frame, centreOfPressure }: MotionMarks): Item[] {
  const way: number[] = []
  const ticks: Item[] = []
  let drawing = false
  let [lastX, lastY] = [Number.NEGATIVE_INFINITY, 0]
  for (const [f, place] of places.entries()) {
    if (place === null) {
      drawing = false
      continue
    }
    const [x, y] = project(view, [place[0], 0, place[1]])
    way.push(drawing ? OP.line : OP.move, x, y)
    drawing = true
    const r = f === frame ? 0 : keys.has(f) ? TICK.key : TICK.between
    // Ticks closer than they can be told apart are a blot: one of them stays.
    const crowded = !keys.has(f) && Math.hypot(x - lastX, y - lastY) < TICK.apart
    if (r === 0 || crowded) continue
    ticks.push(circle(x, y, r, { fill: 'weight' }))
    lastX = x
    lastY = y
  }
  const items: Item[] = [path(way, { stroke: 'weight', width: MARK.thin }), ...ticks]
  if (centreOfPressure !== null) {
    const [x, y] = project(view, centreOfPressure)
    const r = TICK.pressure
    items.push(
      path([OP.move, x - r, y - r, OP.line, x + r, y + r, OP.move, x - r, y + r, OP.line, x + r, y - r], {
        stroke: 'ink',
        width: MARK.line,
      }),
    )
  }
  return items
}

/** An arrow in ink, since it is no weight, from the centre of mass the way it pushes, with its kilograms. */
function pushAt(view: View, { at, force, kilograms }: DrawnPush, stature: number): Item {
  const [x1, y1] = project(view, at)
  const long = Math.min(PUSH.most, PUSH.least + PUSH.perWeight * norm(force)) * stature
  const [x2, y2] = project(view, addScaled(at, scale(force, 1 / Math.max(norm(force), 1e-9)), long))
  const [dx, dy] = [x2 - x1, y2 - y1]
  const length = Math.hypot(dx, dy)
  const words = `${kilograms} from nowhere`
  const wide = words.length * TEXT.small * PUSH.letter
  const { area } = view
  const text = (x: number, y: number): Item => ({
    kind: 'text',
    // Never past the view's edge: then it stands over the arrow.
    x: dx < 0 ? Math.max(x, area.x + wide) : Math.min(x, area.x + area.width - wide),
    y: (dx < 0 ? x - wide < area.x : x + wide > area.x + area.width) ? Math.min(y, y1) - 2 * MARK.com : y,
    text: words,
    size: TEXT.small,
    bold: true,
    anchor: dx < 0 ? 'end' : 'start',
    ink: 'ink',
    halo: 'paper',
  })
  // Straight towards or away from the viewer only its kilograms show.
  if (length < 3 * MARK.com) return text(x1 + (dx < 0 ? -1 : 1) * 2 * MARK.com, y1 - 2 * MARK.com)
  const [ux, uy] = [dx / length, dy / length]
  const head = 8
  return group(
    `push-${view.id}`,
    [
      line(x1 + ux * MARK.com, y1 + uy * MARK.com, x2, y2, { stroke: 'paper', width: 6 }),
      line(x1 + ux * MARK.com, y1 + uy * MARK.com, x2, y2, { stroke: 'ink', width: 2.6, dash: [7, 3] }),
      path(
        [
          OP.move,
          x2 - head * (ux + 0.6 * uy),
          y2 - head * (uy - 0.6 * ux),
          OP.line,
          x2,
          y2,
          OP.line,
          x2 - head * (ux - 0.6 * uy),
          y2 - head * (uy + 0.6 * ux),
        ],
        { stroke: 'ink', width: 2.6, round: true },
      ),
      text(x2 + ux * 6, y2 + uy * 6 + (Math.abs(ux) < 0.5 ? 0 : -6)),
    ],
    { title: `${kilograms} of push from nowhere` },
  )
}

/** Radii of the ticks on the weight's path, their least distance, half the cross where the ground presses, px. */
const TICK = { between: 1.3, key: 2.6, apart: 4, pressure: 4 } as const
/**
 * Length of the arrow over the stature: enough to be seen, longer with the push over the weight; `letter` is the
 * mean width of a bold letter over its size.
 */
const PUSH = { least: 0.1, perWeight: 0.35, most: 0.45, letter: 0.66 } as const
