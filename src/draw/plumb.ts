import { add, type Vec3 } from '../space/vec'
import { MARK, TEXT } from './constants'
import type { StageInput, StageWeights } from './input'
import { type Placer, textBox } from './labels'
import { type Anchor, circle, type Ink, type Item, line, OP, path, type TextItem } from './list'
import { project, type View } from './project'

/** The centre of mass in the front or side view and its plumb to the ground, or on to the floor view. */
export function drawPlumb(com: Vec3, view: View, end: number): Item[] {
  const [x, y] = project(view, com)
  const tick = 8
  return [
    line(x, y, x, end, { stroke: 'weight', width: MARK.line }),
    line(x - tick, view.y0, x + tick, view.y0, { stroke: 'weight', width: MARK.line }),
    ...comMark(x, y),
  ]
}

function comMark(x: number, y: number): Item[] {
  const r = MARK.com
  return [
    circle(x, y, r, { fill: 'paper', stroke: 'weight', width: MARK.line }),
    path([OP.move, x - r, y, OP.line, x + r, y, OP.move, x, y - r, OP.line, x, y + r], {
      stroke: 'weight',
      width: MARK.thin,
    }),
  ]
}

export const plumbPoint = (x: number, y: number): Item =>
  circle(x, y, MARK.plumb, { fill: 'paper', stroke: 'weight', width: MARK.line })

/**
 * The way the weight has to go: an arrow from where it is to where the mover would be empty, with the
 * distance at its side. Nothing where the view shows less than a few pixels of it.
 * @param radius of the mark it starts at, px
 */
export function drawWay(
  from: readonly [number, number],
  to: readonly [number, number],
  radius: number,
  distance: string | undefined,
  placer: Placer,
): Item[] {
  const dx = to[0] - from[0]
  const dy = to[1] - from[1]
  const length = Math.hypot(dx, dy)
  if (length < 0.5) return []
  const [ux, uy] = [dx / length, dy / length]
  const items: Item[] = []
  // From mark to mark; where they touch, a short arrow beside the mark still says which way.
  const room = length > 2 * radius + 5
  const start = radius + 1
  const end = room ? length - radius : radius + 11
  const [tx, ty] = [from[0] + ux * end, from[1] + uy * end]
  const head = Math.min(7, Math.max(4, (end - start) * 0.5))
  if (room) items.push(targetRing(to[0], to[1], radius))
  items.push(
    line(from[0] + ux * start, from[1] + uy * start, tx, ty, { stroke: 'weight', width: MARK.line }),
    path(
      [
        OP.move,
        tx - head * (ux + 0.6 * uy),
        ty - head * (uy - 0.6 * ux),
        OP.line,
        tx,
        ty,
        OP.line,
        tx - head * (ux - 0.6 * uy),
        ty - head * (uy + 0.6 * ux),
      ],
      { stroke: 'weight', width: MARK.line, round: true },
    ),
  )
  if (distance) items.push(wayLabel(from, room ? to : [tx, ty], distance, placer))
  return items
}

function wayLabel(
  from: readonly [number, number],
  to: readonly [number, number],
  text: string,
  placer: Placer,
): TextItem {
  const size = TEXT.small
  const left = to[0] < from[0]
  const beyond = left ? -7 : 7
  const anchor: Anchor = left ? 'end' : 'start'
  const middle = (from[0] + to[0]) / 2
  const choices: { x: number; y: number; anchor: Anchor }[] = [
    { x: to[0] + beyond, y: to[1] + 5, anchor },
    { x: middle, y: Math.min(from[1], to[1]) - 12, anchor: 'middle' },
    { x: middle, y: Math.max(from[1], to[1]) + 22, anchor: 'middle' },
    { x: to[0] + beyond, y: to[1] - 10, anchor },
    { x: to[0] + beyond, y: to[1] + 20, anchor },
  ]
  const taken = placer.take(choices.map((c) => textBox(c.x, c.y, text, size, true, c.anchor)))
  const { x, y, anchor: side } = choices[taken] as (typeof choices)[number]
  return { kind: 'text', x, y, text, size, bold: true, anchor: side, ink: 'weight', halo: 'paper' }
}

/** Where the centre of mass would be after the mover's move. */
export function targetOf({ pose, mover }: StageInput): Vec3 | null {
  return mover?.move ? add(pose.com, [mover.move[0], 0, mover.move[1]]) : null
}

/** A dashed ring where the weight has to go. */
const targetRing = (x: number, y: number, r: number): Item =>
  circle(x, y, r, { stroke: 'weight', width: MARK.thin, dash: [3, 2.5] })

/** Pads seen edge-on: true to size on what they lie on, filled by what they carry. */
export function drawPadStrips({ pose }: StageInput, weights: StageWeights, view: View): Item[] {
  const shareOf = new Map(weights.contacts.map(({ id, share }) => [id, share]))
  const nearLast = pose.pads
    .map((pad) => ({ pad, depth: project(view, pad.centre)[2] }))
    .sort((a, b) => a.depth - b.depth)
  return nearLast.flatMap(({ pad }) => {
    const points = pad.vertices.map((v) => project(view, v))
    const left = Math.min(...points.map((p) => p[0]))
    const right = Math.max(...points.map((p) => p[0]))
    const top = Math.min(...points.map((p) => p[1]))
    if (right - left < 1) return []
    const fill = padFill(shareOf.get(pad.id) ?? 0)
    const half = ((right - left) / 2) * fill
    const middle = (left + right) / 2
    const bar = (a: number, b: number, ink: Ink, stroke: boolean): Item =>
      path([OP.move, a, top, OP.line, b, top, OP.line, b, top + STRIP, OP.line, a, top + STRIP, OP.close], {
        fill: ink,
        ...(stroke ? { stroke: 'ink', width: 1 } : {}),
      })
    return [
      bar(left, right, 'paper', true),
      ...(half > 0.2 ? [bar(middle - half, middle + half, 'weight', false)] : []),
    ]
  })
}

/** Height of a pad seen edge-on, px. */
const STRIP = 4.5

/** How far a pad is filled from its middle to its edge, so that the filled area is the share of the weight. */
export const padFill = (share: number): number => Math.sqrt(Math.min(1, Math.max(0, share)))
