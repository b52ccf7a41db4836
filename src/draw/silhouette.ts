import { dot } from '../space/vec'
import { SAGITTA, TANGENT_STEP } from './constants'
import { depthInside, type Outline, outlineOf } from './hull'
import type { View } from './project'
import type { Volume } from './volume'

/** A volume as one view shows it. */
export interface Silhouette {
  readonly volume: Volume
  /** x, y, r of each sphere, flat, px. */
  readonly circles: readonly number[]
  /** How near each sphere is to the viewer, px. */
  readonly depths: readonly number[]
  readonly outline: Outline
  /** By which volumes are sorted, px: > is nearer. */
  readonly depth: number
}

/**
 * The volumes in a view, from far to near.
 * @param fine smooth enough for pen lines; otherwise only for fills
 */
export function silhouettesOf(volumes: readonly Volume[], view: View, fine = true): Silhouette[] {
  return volumes.map((volume) => silhouette(volume, view, fine)).sort((a, b) => a.depth - b.depth)
}

function silhouette(volume: Volume, { axes, scale, x0, y0 }: View, fine: boolean): Silhouette {
  const { right, up, toward } = axes
  const circles: number[] = []
  const depths: number[] = []
  const s = volume.spheres
  let sum = 0
  for (let i = 0; i < s.length; i += 4) {
    const p = [s[i] as number, s[i + 1] as number, s[i + 2] as number] as const
    circles.push(
      x0 + scale * dot(right, p),
      y0 - scale * dot(up, p),
      Math.max(0.3, scale * (s[i + 3] as number)),
    )
    const depth = scale * dot(toward, p)
    depths.push(depth)
    sum += depth
  }
  return {
    volume,
    circles,
    depths,
    outline: fine
      ? outlineOf(circles, SAGITTA, TANGENT_STEP)
      : outlineOf(circles, 2 * SAGITTA, Number.POSITIVE_INFINITY),
    depth: sum / depths.length + scale * volume.bias,
  }
}

/** Whether a point of the drawing lies inside a silhouette. */
export const covers = (s: Silhouette, x: number, y: number): boolean => depthInside(s.outline, x, y) > 0
