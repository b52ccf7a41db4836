import type { HandleId } from '../pose/handles'
import type { Vec3 } from '../space/vec'
import type { StageHandle } from './input'
import { project, type ViewId } from './project'
import type { Scene } from './scene'
import { covers, type Silhouette } from './silhouette'
import type { BodyPart } from './volume'

/** A handle in one view. */
export interface PlacedHandle {
  readonly id: HandleId
  readonly limb: BodyPart
  readonly view: ViewId
  /** px */
  readonly x: number
  readonly y: number
  /** The place itself, world, m: what `unproject` takes as `through`. */
  readonly at: Vec3
  /** How near to the viewer, m. */
  readonly depth: number
  /** Whether another part of the body lies before it. */
  readonly covered: boolean
}

/** Where things are on the drawing, for pointing and dragging. */
export interface StageHits {
  /** Every handle in every view. */
  readonly handles: readonly PlacedHandle[]
  /** The volumes of each view, nearest first. */
  readonly shapes: Readonly<Partial<Record<ViewId, readonly Silhouette[]>>>
}

export function hitsOf(scenes: readonly Scene[], handles: readonly StageHandle[]): StageHits {
  const shapes: Partial<Record<ViewId, readonly Silhouette[]>> = {}
  const placed = scenes.flatMap(({ view, shapes: farToNear }): PlacedHandle[] => {
    const near = farToNear.toReversed()
    shapes[view.id] = near
    return handles.map(({ id, at, limb }) => {
      const [x, y, depth] = project(view, at)
      const top = near.find((shape) => covers(shape, x, y))
      const covered = top !== undefined && !belongs(top.volume.part, limb)
      return { id, limb, view: view.id, x, y, at, depth, covered }
    })
  })
  return { handles: placed, shapes }
}

/** The hips lie inside the thighs: a leg does not cover the trunk's handles. */
const belongs = (part: BodyPart, limb: BodyPart): boolean =>
  part === limb || (limb === 'trunk' && part.startsWith('leg'))

/** The part of the body under a point of the drawing, or null. */
export function partAt(hits: StageHits, view: ViewId, x: number, y: number): BodyPart | null {
  return hits.shapes[view]?.find((shape) => covers(shape, x, y))?.volume.part ?? null
}

/** The handles within a distance of a point, px, nearest first: repeated taps go through them. */
export function handlesNear(hits: StageHits, x: number, y: number, radius: number): PlacedHandle[] {
  return hits.handles
    .map((handle) => ({ handle, d: Math.hypot(handle.x - x, handle.y - y) }))
    .filter(({ d }) => d <= radius)
    .sort((a, b) => a.d - b.d)
    .map(({ handle }) => handle)
}
