import type { ReachedPose } from '../pose/types'
import { lerp, type Vec3 } from '../space/vec'
import { project, type ViewId } from './project'
import type { Scene } from './scene'
import { covers, type Silhouette } from './silhouette'
import type { BodyPart } from './volume'

/** What can be taken hold of. */
export type HandleId = 'pelvis' | 'chest' | 'head' | `${'knee' | 'foot' | 'hand' | 'elbow'}${'L' | 'R'}`

export interface Handle {
  readonly id: HandleId
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
  readonly handles: readonly Handle[]
  /** The volumes of each view, nearest first. */
  readonly shapes: Readonly<Partial<Record<ViewId, readonly Silhouette[]>>>
}

export function hitsOf(scenes: readonly Scene[], pose: ReachedPose): StageHits {
  const places = handlePlaces(pose)
  const shapes: Partial<Record<ViewId, readonly Silhouette[]>> = {}
  const handles = scenes.flatMap(({ view, shapes: farToNear }): Handle[] => {
    const near = farToNear.toReversed()
    shapes[view.id] = near
    return places.map(([id, at]) => {
      const [x, y, depth] = project(view, at)
      const top = near.find((s) => covers(s, x, y))
      return {
        id,
        view: view.id,
        x,
        y,
        at,
        depth,
        covered: top !== undefined && !OWNERS[kindOf(id)](top, id),
      }
    })
  })
  return { handles, shapes }
}

/** The part of the body under a point of the drawing, or null. */
export function partAt(hits: StageHits, view: ViewId, x: number, y: number): BodyPart | null {
  return hits.shapes[view]?.find((shape) => covers(shape, x, y))?.volume.part ?? null
}

/** The handles within a distance of a point, nearest first: repeated taps go through them. */
export function handlesNear(hits: StageHits, x: number, y: number, radius: number): Handle[] {
  return hits.handles
    .map((handle) => ({ handle, d: Math.hypot(handle.x - x, handle.y - y) }))
    .filter(({ d }) => d <= radius)
    .sort((a, b) => a.d - b.d)
    .map(({ handle }) => handle)
}

/** Where each handle sits in the world. */
function handlePlaces({ joints, segments }: ReachedPose): (readonly [HandleId, Vec3])[] {
  return [
    ['pelvis', joints.midHip],
    ['chest', segments.upperTrunk.com],
    ['head', segments.head.com],
    ...(['L', 'R'] as const).flatMap((side): (readonly [HandleId, Vec3])[] => [
      [`knee${side}`, joints[`knee${side}`]],
      [`foot${side}`, lerp(joints[`ankle${side}`], joints[`ball${side}`], 0.5)],
      [`hand${side}`, joints[`knuckle${side}`]],
      [`elbow${side}`, joints[`elbow${side}`]],
    ]),
  ]
}

const kindOf = (id: HandleId) => id.replace(/[LR]$/, '') as keyof typeof OWNERS

/** Whether a volume belongs to what the handle moves. */
const OWNERS = {
  pelvis: (s: Silhouette) => s.volume.part === 'trunk' || s.volume.part.startsWith('leg'),
  chest: (s: Silhouette) => s.volume.part === 'trunk',
  head: (s: Silhouette) => s.volume.part === 'head',
  knee: (s: Silhouette, id: HandleId) => s.volume.part === `leg${id.slice(-1)}`,
  foot: (s: Silhouette, id: HandleId) => s.volume.part === `leg${id.slice(-1)}`,
  hand: (s: Silhouette, id: HandleId) => s.volume.part === `arm${id.slice(-1)}`,
  elbow: (s: Silhouette, id: HandleId) => s.volume.part === `arm${id.slice(-1)}`,
}
