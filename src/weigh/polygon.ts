import type { Point2 } from '../contact/hull'

/*
 * Convex polygons on the ground: corners (x, z) in order, area ½ Σ (x₁ z₂ − x₂ z₁) positive. Two corners are
 * a line and one is a spot: they have no inside.
 */

/** Distance from a point to the edge: positive inside, negative outside, −∞ where the polygon is empty. */
export function roomIn(polygon: readonly Point2[], point: Point2): number {
  if (polygon.length === 0) return Number.NEGATIVE_INFINITY
  const { height } = edgeNearest(polygon, point)
  if (polygon.length > 2 && height >= 0) return height
  const near = nearestIn(polygon, point)
  return -length(near[0] - point[0], near[1] - point[1])
}

/** The point of a polygon, not empty, nearest to `point`: the point itself where it lies inside. */
export function nearestIn(polygon: readonly Point2[], point: Point2): Point2 {
  if (polygon.length > 2 && edgeNearest(polygon, point).height >= 0) return point
  let best = polygon[0] as Point2
  let least = Number.POSITIVE_INFINITY
  for (let i = 0; i < polygon.length; i++) {
    const near = nearestOnSegment(corner(polygon, i), corner(polygon, i + 1), point)
    const far = length(near[0] - point[0], near[1] - point[1])
    if (far >= least) continue
    least = far
    best = near
  }
  return best
}

/** The part of a polygon that keeps `by` from every edge; empty where there is none. */
export function inset(polygon: readonly Point2[], by: number): Point2[] {
  if (polygon.length < 3) return []
  let left: readonly Point2[] = polygon
  for (let i = 0; i < polygon.length; i++) left = clip(left, corner(polygon, i), corner(polygon, i + 1), by)
  return [...left]
}

/** A polygon without the corners that lie within `flat` of the straight way past them; at least one is left. */
export function tidy(polygon: readonly Point2[], flat: number): Point2[] {
  const kept = [...polygon]
  for (let i = 0; i < kept.length && kept.length > 1; ) {
    const here = kept[i] as Point2
    const near = nearestOnSegment(corner(kept, i + kept.length - 1), corner(kept, i + 1), here)
    if (length(near[0] - here[0], near[1] - here[1]) > flat) i++
    else {
      kept.splice(i, 1)
      i = Math.max(0, i - 1)
    }
  }
  return kept
}

/** Least height over the lines through the edges, negative outside, and the outward unit normal of that edge. */
export function edgeNearest(polygon: readonly Point2[], point: Point2): { height: number; outward: Point2 } {
  let height = Number.POSITIVE_INFINITY
  let edge = 0
  for (let i = 0; i < polygon.length; i++) {
    const over = heightOver(corner(polygon, i), corner(polygon, i + 1), point)
    if (!(over < height)) continue
    height = over
    edge = i
  }
  const a = corner(polygon, edge)
  const b = corner(polygon, edge + 1)
  const long = length(b[0] - a[0], b[1] - a[1])
  return { height, outward: long > 0 ? [(b[1] - a[1]) / long, (a[0] - b[0]) / long] : [1, 0] }
}

const corner = (polygon: readonly Point2[], i: number): Point2 => polygon[i % polygon.length] as Point2

/** Several times faster than Math.hypot, and no number here comes near an overflow. */
const length = (x: number, z: number): number => Math.sqrt(x * x + z * z)

/** Distance of p from the line a → b, positive on the inner side; not a number where a and b are one point. */
function heightOver(a: Point2, b: Point2, p: Point2): number {
  const x = b[0] - a[0]
  const z = b[1] - a[1]
  return (x * (p[1] - a[1]) - z * (p[0] - a[0])) / length(x, z)
}

function nearestOnSegment(a: Point2, b: Point2, p: Point2): Point2 {
  const x = b[0] - a[0]
  const z = b[1] - a[1]
  const square = x * x + z * z
  const t = square > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * x + (p[1] - a[1]) * z) / square)) : 0
  return [a[0] + t * x, a[1] + t * z]
}

/** What of a polygon lies at least `by` inside of the line a → b (Sutherland–Hodgman). */
function clip(polygon: readonly Point2[], a: Point2, b: Point2, by: number): Point2[] {
  const kept: Point2[] = []
  for (let i = 0; i < polygon.length; i++) {
    const p = corner(polygon, i)
    const q = corner(polygon, i + 1)
    const hp = heightOver(a, b, p) - by
    const hq = heightOver(a, b, q) - by
    if (hp >= 0) kept.push(p)
    if (hp >= 0 === hq >= 0) continue
    const t = hp / (hp - hq)
    kept.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])])
  }
  return kept
}
