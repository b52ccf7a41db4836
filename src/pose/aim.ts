import { add, addScaled, cross, dot, norm, reject, scale, sub, unit, type Vec3 } from '../space/vec'

/**
 * The point of a sphere that a drag means.
 *
 * A drag in an orthographic view says nothing about depth: `free` is the unit direction it leaves open. The
 * line through the target along it meets the sphere where the pointer is, on the side of `near`; where it
 * misses, and without a free direction, the point is the one nearest to the target.
 */
export function onSphere(centre: Vec3, radius: number, target: Vec3, free: Vec3 | null, near: Vec3): Vec3 {
  const from = sub(target, centre)
  const fallback = unit(sub(near, centre))
  if (free === null) return addScaled(centre, unit(from, fallback), radius)
  const beside = reject(from, free)
  const depth = Math.sqrt(Math.max(0, radius * radius - dot(beside, beside)))
  const sign = dot(sub(near, centre), free) < 0 ? -1 : 1
  return addScaled(centre, unit(addScaled(beside, free, sign * depth), fallback), radius)
}

/**
 * The angle by which `at` must go round a circle to come nearest to a target, rad, −π … π; > 0 is
 * right-handed about `axis`. Of two places that a view shows alike, the nearer one counts.
 * @param axis unit vector through the circle's middle
 * @param free see `onSphere`
 */
export function alongCircle(centre: Vec3, axis: Vec3, at: Vec3, target: Vec3, free: Vec3 | null): number {
  const arm = reject(sub(at, centre), axis)
  const radius = norm(arm)
  if (radius < 1e-9) return 0
  const across = cross(axis, arm)
  const middle = addScaled(at, arm, -1)
  const miss = (angle: number) => {
    const p = add(middle, add(scale(arm, Math.cos(angle)), scale(across, Math.sin(angle))))
    const off = sub(target, p)
    const flat = free === null ? off : reject(off, free)
    return dot(flat, flat) / (radius * radius) + WAY_ROUND * (1 - Math.cos(angle))
  }
  let best = 0
  for (let i = 1; i < COARSE; i++) {
    const angle = ((i > COARSE / 2 ? i - COARSE : i) * 2 * Math.PI) / COARSE
    if (miss(angle) < miss(best)) best = angle
  }
  let step = (2 * Math.PI) / COARSE
  while (step > 1e-9) {
    const sides = [best - step, best + step]
    const better = sides.find((angle) => miss(angle) < miss(best))
    if (better === undefined) step /= 2
    else best = better
  }
  return Math.atan2(Math.sin(best), Math.cos(best))
}

/** Places tried round a circle before the nearest is refined. */
const COARSE = 48
/** How much a way round a circle counts against missing the target by the circle's radius. */
const WAY_ROUND = 1e-6
