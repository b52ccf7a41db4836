import type { Point2 } from '../contact/hull'
import { sideOf } from '../document/contacts'
import { type BoxFace, boxFace } from './boxes'
import { BAND, MARK, TEXT } from './constants'
import { drawGhost } from './ghost'
import { hatch } from './hatch'
import type { StageInput, StageWeights, StageWords } from './input'
import { type Placer, textBox } from './labels'
import { type Anchor, type Item, path, polygon, smoothLoop, type TextItem } from './list'
import { drawWay, padFill } from './plumb'
import { project, type View } from './project'
import type { Scene } from './scene'

/**
 * The floor seen from above: the faint body, boxes, where the weight can be, where it must be for the mover
 * to be empty, pads true to size, and the plumb.
 */
export function drawFloor(scene: Scene, input: StageInput, words: StageWords, placer: Placer): Item[] {
  const { view, shapes } = scene
  const { show = {}, weights, mover, boxes = [], pose } = input
  const items: Item[] = []
  for (const ghost of scene.ghosts)
    if (ghost.style === 'onion') items.push(...drawGhost(ghost.shapes, { fill: 'shade', stroke: 'hairline' }))
  if (show.floorBody !== false)
    items.push(...drawGhost(shapes, { fill: 'shade', stroke: 'hairline', width: 1.2 }))
  for (const ghost of scene.ghosts)
    if (ghost.style === 'outline')
      items.push(...drawGhost(ghost.shapes, { stroke: 'inkSoft', width: 1.2, dash: [4, 3] }))
  for (const box of boxes) items.push(...boxOnFloor(boxFace(box, view), placer))
  if (show.loads === false || !weights) return [...items, ...drawPads(input, null, view)]

  const region = onFloor(weights.region, view)
  const empty = mover ? onFloor(mover.region, view) : []
  items.push(
    path(hatch(region, Math.PI / 4, BAND.support), { stroke: 'inkSoft', width: 0.7, alpha: 0.6 }),
    path(polygon(region), { stroke: 'ink', width: 1.3 }),
    path(hatch(empty, -Math.PI / 4, BAND.spacing), { stroke: 'weight', width: 1, alpha: 0.6 }),
    path(polygon(empty), { stroke: 'weight', width: 1.2, dash: [4, 3] }),
    ...drawPads(input, weights, view),
  )
  const [x, y] = project(view, weights.plumb)
  for (const pad of pose.pads) placer.block(boundsOf(pad.vertices.map((v) => project(view, v))))
  placer.block({ x: x - 8, y: y - 8, width: 16, height: 16 })
  if (show.padLabels !== false) items.push(...padLabels(input, view, words, placer))
  if (mover?.move) {
    const to = project(view, [weights.plumb[0] + mover.move[0], 0, weights.plumb[2] + mover.move[1]])
    items.push(...drawWay([x, y], [to[0], to[1]], MARK.plumb, mover.distance, placer))
  }
  if (mover && empty.length >= 6) items.push(emptyLabel(empty, region, words.empty(mover.limb), placer))
  return items
}

/** A box's plan; labels keep off its edges where these run straight. */
function boxOnFloor({ outline }: BoxFace, placer: Placer): Item[] {
  for (let i = 0; i < 8; i += 2) {
    const [x1, y1, x2, y2] = [0, 1, 2, 3].map((k) => outline[(i + k) % 8]) as [number, number, number, number]
    const rect = { x: Math.min(x1, x2) - 1, y: Math.min(y1, y2) - 1 }
    const [width, height] = [Math.abs(x2 - x1) + 2, Math.abs(y2 - y1) + 2]
    if (Math.min(width, height) < 3) placer.block({ ...rect, width, height })
  }
  return [path(polygon(outline), { stroke: 'inkSoft', width: 1.2 })]
}

const onFloor = (points: readonly Point2[], view: View): number[] =>
  points.flatMap(([x, z]) => project(view, [x, 0, z]).slice(0, 2))

function drawPads({ pose }: StageInput, weights: StageWeights | null, view: View): Item[] {
  const shareOf = new Map(weights?.contacts.map(({ id, share }) => [id, share]))
  return pose.pads.flatMap((pad): Item[] => {
    const [cx, cy] = project(view, pad.centre)
    const points = pad.vertices.map((v) => project(view, v))
    const fill = padFill(shareOf.get(pad.id) ?? 0)
    const at = (s: number) => smoothLoop(points.flatMap(([x, y]) => [cx + (x - cx) * s, cy + (y - cy) * s]))
    return [
      path(at(1), { fill: 'paper', stroke: 'ink', width: 1.3 }),
      ...(fill > 0.02 ? [path(at(fill), { fill: 'weight' })] : []),
    ]
  })
}

function padLabels({ pose }: StageInput, view: View, words: StageWords, placer: Placer): TextItem[] {
  const middle = pose.pads.reduce((sum, pad) => sum + project(view, pad.centre)[0], 0) / pose.pads.length
  const size = TEXT.small
  return pose.pads.map((pad): TextItem => {
    const [x, y] = project(view, pad.centre)
    const box = boundsOf(pad.vertices.map((v) => project(view, v)))
    const text = words.pad(pad.part, pad.kind, sideOf(pad.part))
    const left = { x: box.x - 7, y: y + 5, anchor: 'end' as Anchor }
    const right = { x: box.x + box.width + 7, y: y + 5, anchor: 'start' as Anchor }
    const sides = x < middle ? [left, right] : [right, left]
    const choices = [
      ...sides,
      ...sides.map((c) => ({ ...c, y: y + 17 })),
      ...sides.map((c) => ({ ...c, y: y - 9 })),
      { x, y: box.y + box.height + 15, anchor: 'middle' as Anchor },
      { x, y: box.y - 7, anchor: 'middle' as Anchor },
    ]
    const taken = choices[placer.take(choices.map((c) => textBox(c.x, c.y, text, size, false, c.anchor)))]
    const { x: tx, y: ty, anchor } = taken as (typeof choices)[number]
    return { kind: 'text', x: tx, y: ty, text, size, bold: false, anchor, ink: 'inkSoft', halo: 'paper' }
  })
}

/** Beside the patch, where there is room for it. */
function emptyLabel(
  region: readonly number[],
  support: readonly number[],
  text: string,
  placer: Placer,
): TextItem {
  const xs = region.filter((_, i) => i % 2 === 0)
  const ys = region.filter((_, i) => i % 2 === 1)
  const [left, right] = [Math.min(...xs), Math.max(...xs)]
  const [top, bottom] = [Math.min(...ys), Math.max(...ys)]
  const size = TEXT.small
  const levels = [0.35, 0.5, 0.65, 0.2, 0.8].map((t) => top + (bottom - top) * t)
  const clear = [region, support].filter((points) => points.length >= 6)
  const before = (y: number) => Math.min(...clear.map((points) => edgeAt(points, y, -1)))
  const after = (y: number) => Math.max(...clear.map((points) => edgeAt(points, y, 1)))
  const onLeft = levels.map((y) => ({ x: before(y) - 8, y, anchor: 'end' as Anchor }))
  const onRight = levels.map((y) => ({ x: after(y) + 8, y, anchor: 'start' as Anchor }))
  // On the patch's own side of where the weight can be.
  const middle = support.filter((_, i) => i % 2 === 0)
  const outer = (left + right) / 2 > (Math.min(...middle) + Math.max(...middle)) / 2
  const choices: { x: number; y: number; anchor: Anchor }[] = [
    ...(outer ? [...onRight, ...onLeft] : [...onLeft, ...onRight]),
    { x: (left + right) / 2, y: bottom + 16, anchor: 'middle' },
    { x: (left + right) / 2, y: top - 8, anchor: 'middle' },
  ]
  const taken = placer.take(choices.map((c) => textBox(c.x, c.y, text, size, false, c.anchor)))
  const { x, y, anchor } = choices[taken] as (typeof choices)[number]
  return { kind: 'text', x, y, text, size, bold: false, anchor, ink: 'weight', halo: 'paper' }
}

/** The outermost x of a polygon about a text line's height around y, to the left (−1) or right (1). */
function edgeAt(region: readonly number[], y: number, side: -1 | 1): number {
  let far = side === -1 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY
  const n = region.length
  for (let i = 0; i < n; i += 2) {
    const [x1, y1] = [region[i] as number, region[i + 1] as number]
    const [x2, y2] = [region[(i + 2) % n] as number, region[(i + 3) % n] as number]
    for (const level of [y - 11, y + 3]) {
      if (y1 < level === y2 < level) continue
      const x = x1 + ((x2 - x1) * (level - y1)) / (y2 - y1)
      far = side === -1 ? Math.min(far, x) : Math.max(far, x)
    }
  }
  if (Number.isFinite(far)) return far
  const xs = region.filter((_, i) => i % 2 === 0)
  return side === -1 ? Math.min(...xs) : Math.max(...xs)
}

function boundsOf(points: readonly (readonly [number, number, number])[]) {
  const xs = points.map((p) => p[0])
  const ys = points.map((p) => p[1])
  const [x, y] = [Math.min(...xs), Math.min(...ys)]
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y }
}

/** Where the floor view's plumb comes to lie, px. */
export const plumbEnd = (weights: StageWeights, view: View): readonly [number, number] => {
  const [x, y] = project(view, weights.plumb)
  return [x, y]
}
