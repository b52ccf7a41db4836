import type { Point2 } from '../contact/hull'
import type { Vec3 } from '../space/vec'
import type { DynamicFrame } from '../weigh/dynamic'
import { nearestIn, roomIn } from '../weigh/polygon'

/**
 * Where a body would have to be caught to come to rest: ξ = x + ẋ/ω, ω = √(g/z) (Pratt et al. 2006; the
 * extrapolated centre of mass of Hof, Gazendam & Sinke 2005). Level place, x and z, m.
 * @param velocity of the centre of mass, m/s
 * @param height of the centre of mass over what it stands on, m, > 0
 */
export function capturePoint(com: Vec3, velocity: Vec3, height: number, gravity: number): Point2 {
  const omega = Math.sqrt(gravity / height)
  return [com[0] + velocity[0] / omega, com[2] + velocity[2] / omega]
}

/**
 * How the body is when the mover leaves: `lift` is the last frame at which it touches, weighed with a verdict
 * on it. *Careful*: the plumb and the capture point both lie in the region of what stays, so that it could stop
 * there at any time. *Thrown*: it could not, but the capture point has passed the near edge of the leading
 * support, and every frame of the way is admissible. *Falls* otherwise.
 * @param admissible whether every frame of the way is
 * @param leading where it will bear: the region of what stays, where absent
 */
export function paceAtLift(lift: DynamicFrame, admissible: boolean, leading?: readonly Point2[]): LiftPace {
  const { body, velocity, weighing, verdict } = lift
  if (verdict === null) throw new TypeError('the pace at a lift needs a frame weighed with its mover')
  const stays = verdict.still.region
  const plumb: Point2 = [body.com[0], body.com[2]]
  const height = Math.max(body.com[1] - weighing.plumb[1], Number.MIN_VALUE)
  const capture = capturePoint(body.com, velocity, height, body.gravity)
  const room = roomIn(stays, capture)
  const careful = room >= 0 && roomIn(stays, plumb) >= 0
  const passed = pastNearEdge(leading ?? stays, plumb, capture)
  return { pace: careful ? 'careful' : passed && admissible ? 'thrown' : 'falls', capture, room }
}

export interface LiftPace {
  readonly pace: 'careful' | 'thrown' | 'falls'
  /** x and z, m. */
  readonly capture: Point2
  /** Of the capture point in the region of what stays, m; negative outside (Hof's margin of stability). */
  readonly room: number
}

/** Whether a point has come as far as the edge that faces the plumb, seen along the way there. */
function pastNearEdge(leading: readonly Point2[], plumb: Point2, point: Point2): boolean {
  if (leading.length === 0) return false
  if (roomIn(leading, plumb) >= 0) return roomIn(leading, point) >= 0
  const near = nearestIn(leading, plumb)
  const way: Point2 = [near[0] - plumb[0], near[1] - plumb[1]]
  return (point[0] - near[0]) * way[0] + (point[1] - near[1]) * way[1] >= 0
}
