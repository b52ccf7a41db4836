import type { BodyModel } from '../body/model'
import { footprint } from '../contact/ground'
import type { Box } from '../document/plan'
import type { ReachedPose } from '../pose/types'
import { dot, type Vec3 } from '../space/vec'
import { MARGIN } from './constants'
import type { Rect } from './list'
import { axesOf, type Facing, PLAIN, type View, type ViewId } from './project'
import { volumesOf } from './volumes'

/** An upright box in the world, m. */
export interface Bounds {
  readonly min: Vec3
  readonly max: Vec3
}

/** What has to be seen: the body's flesh in all poses (a take's key poses), the boxes, and the ground. */
export function boundsOf(body: BodyModel, poses: readonly ReachedPose[], boxes: readonly Box[] = []): Bounds {
  const min: [number, number, number] = [Infinity, 0, Infinity]
  const max: [number, number, number] = [-Infinity, 0, -Infinity]
  const reach = (i: 0 | 1 | 2, value: number, r: number) => {
    min[i] = Math.min(min[i], value - r)
    max[i] = Math.max(max[i], value + r)
  }
  for (const pose of poses)
    for (const { spheres } of volumesOf(body, pose))
      for (let k = 0; k < spheres.length; k += 4)
        for (const i of [0, 1, 2] as const) reach(i, spheres[k + i] as number, spheres[k + 3] as number)
  for (const box of boxes) {
    reach(1, box.position[1] + box.size[1], 0)
    for (const [x, z] of footprint(box)) {
      reach(0, x, 0)
      reach(2, z, 0)
    }
  }
  // Flesh that the ground flattens is not drawn below it.
  min[1] = 0
  return min[0] <= max[0] ? { min, max } : { min: [-1, 0, -1], max: [1, 1, 1] }
}

export type Arrangement =
  /** Front, side and floor in three quarters, the fourth left free for the page being read. */
  | { readonly kind: 'quarter'; readonly free?: { readonly width: number; readonly height: number } }
  /** Front over floor, for narrow screens. */
  | { readonly kind: 'stack' }
  /** One view enlarged. */
  | { readonly kind: 'single'; readonly view: ViewId }

export interface LayoutOptions {
  readonly width: number
  readonly height: number
  readonly arrangement: Arrangement
  readonly bounds: Bounds
  readonly facing?: Facing
  /** Rows of load labels under the ground: 2 when more than two limbs stand on it. Default 1. */
  readonly loadRows?: 1 | 2
}

export interface StageLayout {
  readonly width: number
  readonly height: number
  /** Pixels in a metre, one for all views. */
  readonly scale: number
  readonly views: readonly View[]
  readonly facing: Facing
  /** What the views leave free, px; empty (0 × 0) in other arrangements than `quarter`. */
  readonly free: Rect
  readonly loadRows: 1 | 2
}

/** Places the views at one scale so that everything within the bounds, and the labels around it, can be seen. */
export function layoutStage(options: LayoutOptions): StageLayout {
  const { width, height, facing = PLAIN, loadRows = 1, arrangement, bounds } = options
  const size = extents(bounds)
  const under = underGround(loadRows)
  const place = placer(bounds, facing)
  const base = { width, height, facing, loadRows }
  if (arrangement.kind === 'single') {
    const { view } = arrangement
    const across = view === 'side' ? size.z : size.x
    const upright = view === 'floor' ? size.z : size.y
    const below = view === 'floor' ? MARGIN.floorBottom : under
    const scale = positive(
      Math.min((width - 2 * MARGIN.label) / across, (height - MARGIN.title - below) / upright),
    )
    const area = { x: 0, y: 0, width, height }
    const ground = groundLine(0, height, under, size.y * scale)
    return { ...base, scale, views: [place(view, scale, area, ground)], free: NOTHING }
  }
  if (arrangement.kind === 'stack') {
    const rows = MARGIN.title + under + MARGIN.floorTitle + MARGIN.floorBottom
    const scale = positive(Math.min((width - 2 * MARGIN.label) / size.x, (height - rows) / (size.y + size.z)))
    const spare = height - rows - (size.y + size.z) * scale
    const top = MARGIN.title + size.y * scale + under + spare / 2
    return {
      ...base,
      scale,
      views: [
        place('front', scale, { x: 0, y: 0, width, height: top }, groundLine(0, top, under, size.y * scale)),
        place('floor', scale, { x: 0, y: top, width, height: height - top }, 0),
      ],
      free: NOTHING,
    }
  }
  return { ...base, ...quarters(options, size, under, place, arrangement.free ?? FREE) }
}

const NOTHING: Rect = { x: 0, y: 0, width: 0, height: 0 }
/** What the page being read takes at the least, px: two lines of three limbs at 13 px in 1280 × 720. */
const FREE = { width: 336, height: 268 }

function quarters(
  { width, height }: LayoutOptions,
  size: { x: number; y: number; z: number },
  under: number,
  place: ReturnType<typeof placer>,
  free: { readonly width: number; readonly height: number },
) {
  const columns = 2 * MARGIN.label + 2 * MARGIN.edge
  const rows = MARGIN.title + under + MARGIN.floorTitle + MARGIN.floorBottom
  const scale = positive(
    Math.min(
      (width - columns) / (size.x + size.z),
      (height - rows) / (size.y + size.z),
      (width - free.width - 2 * MARGIN.label) / size.x,
      (height - free.height - MARGIN.title - MARGIN.underSide) / size.y,
    ),
  )
  const leftLeast = size.x * scale + 2 * MARGIN.label
  const rightLeast = Math.max(free.width, size.z * scale + 2 * MARGIN.edge)
  const left = Math.max(leftLeast, Math.min(width * 0.56, width - rightLeast))
  const topLeast = MARGIN.title + size.y * scale + under
  const bottomLeast = Math.max(
    free.height - (under - MARGIN.underSide),
    MARGIN.floorTitle + size.z * scale + MARGIN.floorBottom,
  )
  const top = Math.max(
    topLeast,
    Math.min(topLeast + (height - rows - (size.y + size.z) * scale) / 2, height - bottomLeast),
  )
  const ground = groundLine(0, top, under, size.y * scale)
  // The loads stand under the front view alone: the page begins higher than the floor view.
  const page = ground + MARGIN.underSide
  return {
    scale,
    views: [
      place('front', scale, { x: 0, y: 0, width: left, height: top }, ground),
      place('side', scale, { x: left, y: 0, width: width - left, height: page }, ground),
      place('floor', scale, { x: 0, y: top, width: left, height: height - top }, 0),
    ],
    free: { x: left, y: page, width: width - left, height: height - page },
  }
}

/** Height under the ground line for the load bars and their labels, px. */
const underGround = (rows: 1 | 2): number => MARGIN.under + rows * MARGIN.loadRow

/** A small body stands in the middle of its area rather than at its bottom. */
const groundLine = (top: number, bottom: number, under: number, tall: number): number =>
  bottom - under - Math.max(0, bottom - top - under - MARGIN.title - tall) / 3

const positive = (scale: number): number => Math.max(scale, 1e-6)

function extents({ min, max }: Bounds) {
  const span = (i: 0 | 1 | 2) => Math.max(max[i] - min[i], 1e-3)
  return { x: span(0), y: span(1), z: span(2) }
}

/** Puts a view's bounds in the middle of its area; front and side stand on `ground`. */
function placer({ min, max }: Bounds, facing: Facing) {
  const middle: Vec3 = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2]
  return (id: ViewId, scale: number, area: Rect, ground: number): View => {
    const axes = axesOf(id, facing)
    const x0 = area.x + area.width / 2 - scale * dot(axes.right, middle)
    const free = area.height - MARGIN.floorTitle - MARGIN.floorBottom
    const y0 = id === 'floor' ? area.y + MARGIN.floorTitle + free / 2 + scale * dot(axes.up, middle) : ground
    return { id, axes, scale, x0, y0, area }
  }
}
