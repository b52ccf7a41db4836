import { SIDES, type Side } from '../body/model'
import { addScaled, lerp, sub, unit, type Vec3 } from '../space/vec'
import { boxFace, drawBox, drawHidden } from './boxes'
import { drawCarried } from './carried'
import { BAND, LINE_BEYOND, MARGIN, TEXT } from './constants'
import { drawFigure } from './figure'
import { drawGhost } from './ghost'
import { hatch } from './hatch'
import type { StageInput } from './input'
import { boxOf, type Placer } from './labels'
import { group, type Ink, type Item, line, OP, path, polygon, type Rect, type TextItem } from './list'
import { type Projected, project, type View } from './project'
import type { Scene } from './scene'
import { covers, silhouettesOf } from './silhouette'
import { pelvisVolume } from './trunk-volumes'
import { placed } from './volume'

/** Front or side view up to the ground: ghosts, body and boxes, and the ground they stand on. */
export function drawUpright(scene: Scene, input: StageInput): Item[] {
  const { view, shapes } = scene
  const faces = (input.boxes ?? []).map((box) => boxFace(box, view))
  const { show = {}, mover } = input
  const body = [
    ...scene.ghosts.flatMap(({ shapes: ghost, style }) =>
      style === 'onion' ? drawGhost(ghost, { fill: 'shade', stroke: 'hairline' }) : [],
    ),
    ...drawFigure(shapes, view, {
      solid: show.solid ?? false,
      ...(mover ? { mover: mover.limb } : {}),
      among: [
        ...faces.map((face) => ({ depth: face.depth, items: drawBox(face) })),
        ...(input.carried ?? []).map((load) => drawCarried(load, input.pose, view)),
      ],
    }),
    ...faces.flatMap((face) => drawHidden(face, shapes)),
    ...scene.ghosts.flatMap(({ shapes: ghost, style }) =>
      style === 'outline' ? drawGhost(ghost, { stroke: 'inkSoft', width: 1.3, dash: [4, 3] }) : [],
    ),
  ]
  // Flesh is flat where it meets the ground.
  const { area, y0 } = view
  const above = { x: area.x, y: area.y, width: area.width, height: Math.max(0, y0 - area.y) }
  return [group('body', body, { clip: above }), ...drawGround(view)]
}

/** The ground line, with a little earth under its ends. */
function drawGround({ area, y0 }: View): Item[] {
  const left = area.x + MARGIN.edge
  const right = area.x + area.width - MARGIN.edge
  const earth: number[] = []
  for (const end of [left + 10, right - 2])
    for (let k = 0; k < 4; k++)
      earth.push(OP.move, end + (k - 1) * 5, y0 + 1, OP.line, end + (k - 1) * 5 - 6, y0 + 7)
  return [
    line(left, y0, right, y0, { stroke: 'ink', width: 1.6 }),
    path(earth, { stroke: 'inkSoft', width: 0.9 }),
  ]
}

/**
 * The band under the ground where the weight must stand for the mover to be empty: the slice of its region
 * at the plumb's other coordinate, or where the region is not met there its whole breadth.
 */
export function drawBand({ mover, weights }: StageInput, view: View): Item[] {
  if (!mover || mover.region.length < 3 || !weights) return []
  const across = view.id === 'front' ? 0 : 2
  const other = view.id === 'front' ? weights.plumb[2] : weights.plumb[0]
  const span = slice(
    mover.region.map(([x, z]) => (across === 0 ? [x, z] : [z, x]) as [number, number]),
    other,
  )
  const [a, b] = span.map((v) => project(view, across === 0 ? [v, 0, 0] : [0, 0, v])[0]) as [number, number]
  const rect: Rect = {
    x: Math.min(a, b),
    y: view.y0 + 1,
    width: Math.max(2, Math.abs(b - a)),
    height: BAND.height,
  }
  const { x, y, width, height } = rect
  const corners = [x, y, x + width, y, x + width, y + height, x, y + height]
  return [
    path(polygon(corners), { fill: 'paper', stroke: 'weight', width: 0.9 }),
    path(hatch(corners, -Math.PI / 4, BAND.spacing), { stroke: 'weight', width: 1.2 }),
  ]
}

/** First and last u of a polygon of (u, v) at one v; of the whole where it is not met there. */
function slice(points: readonly (readonly [number, number])[], v: number): [number, number] {
  const cuts: number[] = []
  for (const [i, [u, w]] of points.entries()) {
    const [u2, w2] = points[(i + 1) % points.length] as readonly [number, number]
    if (w <= v !== w2 <= v) cuts.push(u + ((u2 - u) * (v - w)) / (w2 - w))
  }
  const us = cuts.length >= 2 ? cuts : points.map(([u]) => u)
  return [Math.min(...us), Math.max(...us)]
}

/** Hip, shoulder and thigh lines as a reviewer draws them over a frame. */
export function drawReviewLines(input: StageInput, view: View): Item[] {
  const { joints } = input.pose
  const beyond = LINE_BEYOND * input.body.stature
  const stroke = {
    stroke: (input.show?.solid ? 'paper' : 'ink') as Ink,
    width: 1.9,
    dash: [0, 4.6],
    round: true,
  }
  const across = (l: Vec3, r: Vec3, more: number): [Vec3, Vec3] => {
    const out = unit(sub(l, r))
    return [addScaled(l, out, more), addScaled(r, out, -more)]
  }
  const ways: (readonly [Vec3, Vec3])[] =
    view.id === 'front'
      ? [
          across(joints.hipL, joints.hipR, beyond * 1.7),
          across(joints.shoulderL, joints.shoulderR, beyond * 1.7),
          ...SIDES.map(
            (s) => [joints[`hip${s}`], lerp(joints[`hip${s}`], joints[`knee${s}`], 0.84)] as const,
          ),
        ]
      : []
  return ways.map(([a, b]) => {
    const [x1, y1] = project(view, a)
    const [x2, y2] = project(view, b)
    return line(x1, y1, x2, y2, stroke)
  })
}

/** Where the pelvis would have to be: its outline and its hip line, dashed. */
export function drawFaintPelvis({ body, mover }: StageInput, view: View): Item[] {
  if (!mover?.pelvis) return []
  const { pelvis } = mover
  const shapes = silhouettesOf([pelvisVolume(body, pelvis)], view)
  const half = body.hipWidth / 2 + LINE_BEYOND * body.stature
  const [a, b] = [half, -half].map((x) => project(view, placed(pelvis, [x, 0, 0])))
  const [[x1, y1], [x2, y2]] = [a, b] as [Projected, Projected]
  return [
    ...drawGhost(shapes, { stroke: 'weight', width: 1.5, dash: [0.5, 4] }),
    // Seen along itself the hip line is nothing but a dot.
    ...(Math.hypot(x2 - x1, y2 - y1) > 8
      ? [line(x1, y1, x2, y2, { stroke: 'weight', width: 1.5, dash: [5, 3] })]
      : []),
  ]
}

/**
 * R and L at knee, foot and hand, where nothing nearer covers them; a little aside where the plumb or a load
 * is written.
 */
export function drawLetters(
  { shapes, view }: Scene,
  { pose, show = {} }: StageInput,
  placer: Placer,
): TextItem[] {
  const places = SIDES.flatMap((side): (readonly [Side, Vec3, string])[] => [
    [side, pose.joints[`knee${side}`], `kneecap${side}`],
    [side, lerp(pose.joints[`ankle${side}`], pose.joints[`ball${side}`], 0.55), `foot${side}`],
    [side, lerp(pose.joints[`wrist${side}`], pose.joints[`knuckle${side}`], 0.3), `palm${side}`],
  ])
  const size = TEXT.small
  const ink = show.solid ? 'paper' : 'ink'
  const drawn: { x: number; y: number }[] = []
  return places.flatMap(([side, place, name]): TextItem[] => {
    const [x, y] = project(view, place)
    const own = shapes.findIndex((s) => s.volume.name === name)
    const part = shapes[own]?.volume.part
    const hidden = shapes.some((s, i) => i > own && s.volume.part !== part && covers(s, x, y))
    const crowded = drawn.some((d) => Math.abs(d.x - x) < size && Math.abs(d.y - y) < size)
    if (hidden || crowded || y > view.y0 - 2) return []
    drawn.push({ x, y })
    const texts = ASIDE.map(
      ([dx, dy]): TextItem => ({
        kind: 'text',
        x: x + dx * size,
        y: y + (dy + 0.36) * size,
        text: side,
        size,
        bold: true,
        anchor: 'middle',
        ink,
      }),
    )
    return [texts[placer.take(texts.map(boxOf))] as TextItem]
  })
}

/** Where a letter may go, in its own size: on the spot first. */
const ASIDE = [
  [0, 0],
  [0.6, 0],
  [-0.6, 0],
  [0, -0.9],
  [1, -0.5],
  [-1, -0.5],
  [1.2, -1],
  [-1.2, -1],
] as const
