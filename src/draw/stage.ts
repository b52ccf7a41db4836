import { carriedLabel } from './carried'
import { MARGIN, MARK, TEXT } from './constants'
import { drawFloor, plumbEnd } from './floor'
import { hitsOf, type StageHits } from './hits'
import { type StageInput, type StageWords, WORDS } from './input'
import { boxOf, Placer } from './labels'
import { type DisplayList, group, type Item, line, type TextItem } from './list'
import { drawLoads } from './loads'
import { drawPadStrips, drawPlumb, drawWay, plumbPoint, targetOf } from './plumb'
import { project, type View } from './project'
import { type Scene, scenesOf } from './scene'
import { drawBand, drawFaintPelvis, drawLetters, drawReviewLines, drawUpright } from './upright'

/**
 * The whole stage of one frame as a display list: the views of its layout, the body in them, and the
 * message: what each contact carries, where the weight is, where it must go for the mover to be empty.
 * Pure: the same input gives the same list.
 */
export function drawStage(input: StageInput): Stage {
  const words: StageWords = { ...WORDS, ...input.words }
  const { layout, weights, show = {} } = input
  const scenes = scenesOf(input)
  const placer = new Placer({ x: 4, y: 4, width: layout.width - 8, height: layout.height - 8 })
  const titles = layout.views.map((view) => title(view, words, layout.facing.sideFrom))
  for (const t of titles) placer.block(boxOf(t))
  const loaded = show.loads !== false && weights !== undefined
  const floor = scenes.find(({ view }) => view.id === 'floor')
  const front = scenes.find(({ view }) => view.id === 'front')
  if (loaded) for (const { view } of scenes) blockPlumb(input, view, floor?.view ?? null, placer)
  const loads = loaded && front ? drawLoads(input, weights, words, front, placer) : []
  if (loaded && front)
    for (const load of input.carried ?? []) loads.push(carriedLabel(load, input.pose, front.view, placer))
  const items: Item[] = []
  if (loaded) items.push(...heightLine(scenes, input))
  for (const scene of scenes) {
    const { view } = scene
    if (view.id === 'floor') continue
    items.push(
      group(view.id, [
        ...drawUpright(scene, input),
        ...(loaded ? [...drawBand(input, view), ...drawPadStrips(input, weights, view)] : []),
        ...drawFaintPelvis(input, view),
        ...(show.lines === false ? [] : drawReviewLines(input, view)),
        ...(show.letters === false ? [] : drawLetters(scene, input, placer)),
      ]),
    )
  }
  if (floor) items.push(group('floor', drawFloor(floor, input, words, placer), { clip: floor.view.area }))
  if (loaded) {
    for (const { view } of scenes)
      if (view.id !== 'floor')
        items.push(group(`plumb-${view.id}`, plumb(input, view, floor?.view ?? null, placer)))
    if (floor) items.push(plumbPoint(...plumbEnd(weights, floor.view)))
  }
  items.push(...loads, ...titles)
  return {
    list: { width: layout.width, height: layout.height, title: words.title, desc: words.desc, items },
    hits: hitsOf(scenes, input.handles ?? []),
  }
}

export interface Stage {
  readonly list: DisplayList
  readonly hits: StageHits
}

/** Keeps the plumb clear of labels. */
function blockPlumb(input: StageInput, view: View, floor: View | null, placer: Placer): void {
  if (view.id === 'floor') return
  const [x, y] = project(view, input.pose.com)
  placer.block({ x: x - 10, y: y - 10, width: 20, height: 20 })
  placer.block({ x: x - 4, y, width: 8, height: plumbFoot(input, view, floor) - y })
}

/** How far down a view's plumb goes, px. */
const plumbFoot = ({ weights }: StageInput, view: View, floor: View | null): number =>
  view.id === 'front' && floor && weights ? plumbEnd(weights, floor)[1] : view.y0

/** The plumb of the front view falls on, unbroken, to its point in the floor view. */
function plumb(input: StageInput, view: View, floor: View | null, placer: Placer): Item[] {
  const { pose, mover } = input
  const items = drawPlumb(pose.com, view, plumbFoot(input, view, floor))
  const target = targetOf(input)
  if (!target || !mover) return items
  const from = project(view, pose.com)
  const to = project(view, target)
  // Straight towards or away from the viewer there is nothing to show.
  if (Math.abs(to[0] - from[0]) < 0.25 * view.scale * Math.hypot(...(mover.move ?? [0, 0]))) return items
  return [...items, ...drawWay([from[0], from[1]], [to[0], to[1]], MARK.com, undefined, placer)]
}

/** Heights run across from the front to the side view: a projection line at the centre of mass. */
function heightLine(scenes: readonly Scene[], { pose }: StageInput): Item[] {
  const [front, side] = ['front', 'side'].map((id) => scenes.find(({ view }) => view.id === id)?.view)
  if (!front || !side) return []
  const [x1, y] = project(front, pose.com)
  const [x2] = project(side, pose.com)
  return [line(x1, y, x2, y, { stroke: 'hairline', width: 1, dash: [9, 3, 1, 3] })]
}

function title(view: View, words: StageWords, sideFrom: 'R' | 'L'): TextItem {
  return {
    kind: 'text',
    x: view.area.x + MARGIN.edge,
    y: view.area.y + TEXT.title + 9,
    text: view.id === 'side' ? words.sideFrom[sideFrom] : words.views[view.id],
    size: TEXT.title,
    bold: false,
    anchor: 'start',
    ink: 'inkSoft',
    spacing: TEXT.titleSpacing,
  }
}
