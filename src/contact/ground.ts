import type { Box, Grip, Ground } from '../document/plan'
import { UP, type Vec3 } from '../space/vec'

/**
 * What lies straight below a place: the highest top not above it, else the flat ground at y = 0.
 * @param slack how far above the place a top may still count, m
 */
export function surfaceBelow(ground: Ground, place: Vec3, slack = 0): Surface {
  let best: Surface = { on: 'ground', height: 0, normal: UP, grip: ground.grip }
  for (const box of ground.boxes) {
    const top = box.position[1] + box.size[1]
    if (top > best.height && top <= place[1] + slack && contains(box, place))
      best = { on: box.id, height: top, normal: UP, grip: box.grip }
  }
  return best
}

export interface Surface {
  readonly on: string
  readonly height: number
  readonly normal: Vec3
  readonly grip: Grip
}

/** Grip of what a contact stands on; a box that is gone counts as ground. */
export const gripOf = (ground: Ground, on: string): Grip =>
  ground.boxes.find((box) => box.id === on)?.grip ?? ground.grip

/** Whether a place lies over the box's footprint. */
export function contains(box: Box, place: Vec3): boolean {
  const [u, v] = toBox(box, place)
  return Math.abs(u) <= box.size[0] / 2 && Math.abs(v) <= box.size[2] / 2
}

/** The four corners of the footprint in order, world x and z, m. */
export function footprint(box: Box): [number, number][] {
  const c = Math.cos(box.turn)
  const s = Math.sin(box.turn)
  const [w, , d] = box.size
  return (
    [
      [-w / 2, -d / 2],
      [w / 2, -d / 2],
      [w / 2, d / 2],
      [-w / 2, d / 2],
    ] as const
  ).map(([u, v]) => [box.position[0] + u * c + v * s, box.position[2] - u * s + v * c])
}

function toBox(box: Box, place: Vec3): [number, number] {
  const c = Math.cos(box.turn)
  const s = Math.sin(box.turn)
  const x = place[0] - box.position[0]
  const z = place[2] - box.position[2]
  return [x * c - z * s, x * s + z * c]
}

export const FLAT: Ground = { grip: 'normal', boxes: [] }
