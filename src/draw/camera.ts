import type { Camera } from '../document/plan'
import { addScaled, cross, distance, dot, norm, sub, UP, unit, type Vec3 } from '../space/vec'
import type { Projected } from './project'

/**
 * A camera's picture: level across, its focal length for a frame FRAME_WIDTH mm wide that fills the picture's
 * width. Pixels from the top left.
 */
export interface Shot {
  readonly position: Vec3
  /** Unit vectors of the world: to the right and up in the picture, and from the camera into it. */
  readonly right: Vec3
  readonly up: Vec3
  readonly into: Vec3
  /** Pixels for a tangent of 1: the focal length in the picture's own scale. */
  readonly focal: number
  readonly width: number
  readonly height: number
}

/** Width of the frame that a lens is named for, mm: the 24 × 36 mm of small film, common practice. */
const FRAME_WIDTH = 36

/** Nearer than this nothing is shown, m. */
export const NEAR = 0.02

export function shotOf(camera: Camera, width: number, height: number): Shot {
  const into = unit(sub(camera.aim, camera.position), [0, 0, -1])
  // Straight down or up it has the floor view's right.
  const across = cross(into, UP)
  const right = norm(across) < 1e-6 ? ([1, 0, 0] as const) : unit(across)
  return {
    position: camera.position,
    right,
    up: cross(right, into),
    into,
    focal: (camera.lens / FRAME_WIDTH) * width,
    width,
    height,
  }
}

/** A place in the picture, px, and how far it is, m; null behind the camera. */
export function projectShot(shot: Shot, p: Vec3): Projected | null {
  const from = sub(p, shot.position)
  const far = dot(from, shot.into)
  if (far < NEAR) return null
  const by = shot.focal / far
  return [shot.width / 2 + by * dot(from, shot.right), shot.height / 2 - by * dot(from, shot.up), far]
}

/** A straight way in the picture, cut off at the camera; null where none of it is before it. */
export function projectLine(shot: Shot, a: Vec3, b: Vec3): readonly [Projected, Projected] | null {
  const [fa, fb] = [a, b].map((p) => dot(sub(p, shot.position), shot.into)) as [number, number]
  if (fa < NEAR && fb < NEAR) return null
  const at = (p: Vec3, far: number, other: Vec3, otherFar: number): Vec3 =>
    far >= NEAR ? p : addScaled(p, sub(other, p), (NEAR * (1 + 1e-9) - far) / (otherFar - far))
  const start = projectShot(shot, at(a, fa, b, fb))
  const end = projectShot(shot, at(b, fb, a, fa))
  return start && end && [start, end]
}

/**
 * The camera carried round its aim at the same distance.
 * @param turn about the vertical, rad; > 0 goes to the camera's own right
 * @param raise rad; > 0 higher; it stops short of straight above and below
 */
export function orbited(camera: Camera, turn: number, raise: number): Camera {
  const away = sub(camera.position, camera.aim)
  const far = norm(away)
  const heading = Math.atan2(away[0], away[2]) + turn
  const height = Math.max(-STEEP, Math.min(STEEP, Math.asin(away[1] / far) + raise))
  return {
    ...camera,
    position: [
      camera.aim[0] + far * Math.cos(height) * Math.sin(heading),
      camera.aim[1] + far * Math.sin(height),
      camera.aim[2] + far * Math.cos(height) * Math.cos(heading),
    ],
  }
}

/** As steep as an orbit goes: beyond it left and right would change places, rad. */
const STEEP = (88 * Math.PI) / 180

/** The camera at another distance from its aim, by a factor > 0. */
export const distanced = (camera: Camera, factor: number): Camera => ({
  ...camera,
  position: addScaled(camera.aim, sub(camera.position, camera.aim), Math.max(factor, 1e-3)),
})

/**
 * A first camera for a body: before it and a little to its left, at half its height, with a 50 mm lens, far
 * enough for the whole body in a picture of 16 : 9. Ours.
 * @param middle of what it should look at, m
 */
export function firstCamera(middle: Vec3, stature: number): Camera {
  const camera: Camera = {
    position: [middle[0], middle[1], middle[2] + FAR * stature],
    aim: middle,
    lens: 50,
  }
  return orbited(camera, THREE_QUARTERS, SLIGHTLY_ABOVE)
}

/** Over the stature; rad. */
const FAR = 3.2
const THREE_QUARTERS = (30 * Math.PI) / 180
const SLIGHTLY_ABOVE = (6 * Math.PI) / 180

/** How far the camera is from its aim, m. */
export const aimDistance = ({ position, aim }: Camera): number => distance(position, aim)
