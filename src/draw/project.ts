import { cross, dot, type Vec3 } from '../space/vec'
import type { Rect } from './list'

/**
 * Orthographic views as ISO 5456-2 lays projections out by the first angle: front on top, the view from
 * above under it, the view from his right beside it on the viewer's right.
 *
 * - front: seen from the front, his left on the viewer's right; up is up
 * - side: from his right he faces right, from his left he faces left
 * - floor: seen from above, his left on the viewer's right as in the front view, his front downwards
 */
export type ViewId = 'front' | 'side' | 'floor'
export const VIEWS: readonly ViewId[] = ['front', 'side', 'floor']

/** Unit vectors of the world: to the right and up on the screen, and toward the viewer. */
export interface Axes {
  readonly right: Vec3
  readonly up: Vec3
  readonly toward: Vec3
}

export interface Facing {
  readonly sideFrom: 'R' | 'L'
  /** As a mirror shows it: every view is flipped left to right. */
  readonly mirrored: boolean
}

export const PLAIN: Facing = { sideFrom: 'R', mirrored: false }

/** A view placed on the drawing. */
export interface View {
  readonly id: ViewId
  readonly axes: Axes
  /** Pixels in a metre. */
  readonly scale: number
  /** Where the world's origin comes to lie, px. */
  readonly x0: number
  readonly y0: number
  /** The part of the drawing that belongs to the view, px. */
  readonly area: Rect
}

/** A place on the drawing, px, and how near it is to the viewer, m. */
export type Projected = readonly [x: number, y: number, depth: number]

export const project = (view: View, p: Vec3): Projected => [
  view.x0 + view.scale * dot(view.axes.right, p),
  view.y0 - view.scale * dot(view.axes.up, p),
  dot(view.axes.toward, p),
]

/** The place in the world under a point of the drawing, as near to the viewer as `through`; undoes `project`. */
export function unproject(view: View, x: number, y: number, through: Vec3): Vec3 {
  const { right, up, toward } = view.axes
  const u = (x - view.x0) / view.scale
  const v = (view.y0 - y) / view.scale
  const w = dot(toward, through)
  return [
    right[0] * u + up[0] * v + toward[0] * w,
    right[1] * u + up[1] * v + toward[1] * w,
    right[2] * u + up[2] * v + toward[2] * w,
  ]
}

/** A move on the drawing, px, as a move in the world on the view's plane, m. */
export const unprojectMove = (view: View, dx: number, dy: number): Vec3 =>
  unproject({ ...view, x0: 0, y0: 0 }, dx, dy, [0, 0, 0])

export function axesOf(id: ViewId, { sideFrom, mirrored }: Facing = PLAIN): Axes {
  const axes = id === 'side' ? SIDE_AXES[sideFrom] : AXES[id]
  if (!mirrored) return axes
  const [x, y, z] = axes.right
  return { ...axes, right: [-x || 0, -y || 0, -z || 0] }
}

/**
 * An orthographic view of one's own: turned about the vertical (> 0: the viewer goes to his left) and
 * raised (> 0: the viewer looks down), rad. For the shot's camera.
 */
export function axesTurned(turn: number, raise: number): Axes {
  const toward: Vec3 = [Math.sin(turn) * Math.cos(raise), Math.sin(raise), Math.cos(turn) * Math.cos(raise)]
  const right: Vec3 = [Math.cos(turn), 0, -Math.sin(turn)]
  return { right, up: cross(toward, right), toward }
}

const AXES: Record<'front' | 'floor', Axes> = {
  front: { right: [1, 0, 0], up: [0, 1, 0], toward: [0, 0, 1] },
  floor: { right: [1, 0, 0], up: [0, 0, -1], toward: [0, 1, 0] },
}

const SIDE_AXES: Record<'R' | 'L', Axes> = {
  R: { right: [0, 0, 1], up: [0, 1, 0], toward: [-1, 0, 0] },
  L: { right: [0, 0, -1], up: [0, 1, 0], toward: [1, 0, 0] },
}
