import type { StageInput } from './input'
import type { View } from './project'
import { type Silhouette, silhouettesOf } from './silhouette'
import { volumesOf } from './volumes'

/** One view with everything in it that has flesh. */
export interface Scene {
  readonly view: View
  /** Far to near. */
  readonly shapes: readonly Silhouette[]
  readonly ghosts: readonly { readonly shapes: readonly Silhouette[]; readonly style: 'outline' | 'onion' }[]
}

/** The volumes are worked out once for all views. */
export function scenesOf({ layout, body, pose, ghosts = [] }: StageInput): Scene[] {
  const volumes = volumesOf(body, pose)
  const others = ghosts.map((ghost) => ({ style: ghost.style, volumes: volumesOf(ghost.body, ghost.pose) }))
  return layout.views.map((view) => ({
    view,
    // The floor view shows the body without lines.
    shapes: silhouettesOf(volumes, view, view.id !== 'floor'),
    ghosts: others.map(({ style, volumes: v }) => ({ style, shapes: silhouettesOf(v, view) })),
  }))
}
