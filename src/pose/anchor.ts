import { fromAngles, type Mat3 } from '../space/rotation'
import type { Vec3 } from '../space/vec'

/**
 * A point fixed to the pelvis, as the solver sees it: with turn and tilt held, the point at pelvis
 * place p and list l is p + c0 + cos l · c1 + sin l · c2.
 */
export interface Anchor {
  readonly c0: Vec3
  readonly c1: Vec3
  readonly c2: Vec3
}

/**
 * @param local the point in the pelvis's own frame, m
 * @param turn rad
 * @param tilt rad
 */
export function anchor(local: Vec3, turn: number, tilt: number): Anchor {
  const [x, y, z] = tip(local, tilt)
  const c = Math.cos(turn)
  const s = Math.sin(turn)
  return {
    c0: [s * z, 0, c * z],
    c1: [c * x, y, -s * x],
    c2: [-c * y, x, s * y],
  }
}

/** The rotation of the pelvis. */
export const pelvisRotation = (turn: number, list: number, tilt: number): Mat3 =>
  fromAngles({ turn, list, tilt })

/** `local` after the tilt alone. */
function tip([x, y, z]: Vec3, tilt: number): Vec3 {
  const c = Math.cos(tilt)
  const s = Math.sin(tilt)
  return [x, c * y - s * z, s * y + c * z]
}
