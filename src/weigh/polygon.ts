import type { Point2 } from '../contact/hull'

/**
 * Distance from a point to the edge of a convex polygon (corners in order, area positive): positive
 * inside, negative outside, −∞ where the polygon is empty. A line or a spot has no inside.
 */
export function roomIn(polygon: readonly Point2[], point: Point2): number {
  if (polygon.length === 0) return Number.NEGATIVE_INFINITY
  const inside = edgeNearest(polygon, point).height
  if (polygon.length > 2 && inside >= 0) return inside
  const near = nearestIn(polygon, point)
  return -Math.hypot(near[0] - point[0], near[1] - point[1])
}

/** The point of a convex polygon, not empty, nearest to `point`: the point itself where it lies inside. */
export function nearestIn(polygon: readonly Point2[], point: Point2): Point2 {
  if (polygon.length > 2 && edgeNearest(polygon, point).height >= 0) return point
  let best = polygon[0] as Point2
  let least = Number.POSITIVE_INFINITY
  polygon.forEach((a, i) => {
    const near = nearestOnSegment(a, polygon[(i + 1) % polygon.length] as Point2, point)
    const far = Math.hypot(near[0] - point[0], near[1] - point[1])
    if (far >= least) return
    least = far
    best = near
  })
  return best
}

/** The part of a convex polygon that keeps `by` from every edge; empty where there is none. */
export function inset(polygon: readonly Point2[], by: number): Point2[] {
  if (polygon.length < 3) return []
  return polygon.reduce<Point2[]>((left, a, i) => {
    const b = polygon[(i + 1) % polygon.length] as Point2
    return clip(left, (p) => heightOver(a, b, p) - by)
  }, polygon.slice())
}

/** The edge whose line is nearest to a point inside, by height over it, and that edge's outward unit normal. */
export function edgeNearest(polygon: readonly Point2[], point: Point2): { height: number; outward: Point2 } {
  let height = Number.POSITIVE_INFINITY
  let outward: Point2 = [1, 0]
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length] as Point2
    const over = heightOver(a, b, point)
    if (!(over < height)) return
    const length = Math.hypot(b[0] - a[0], b[1] - a[1])
    height = over
    outward = [(b[1] - a[1]) / length, (a[0] - b[0]) / length]
  })
  return { height, outward }
}

/** Distance of p from the line a → b, positive on its left (inside). */
function heightOver(a: Point2, b: Point2, p: Point2): number {
  const x = b[0] - a[0]
  const z = b[1] - a[1]
  return (x * (p[1] - a[1]) - z * (p[0] - a[0])) / Math.hypot(x, z)
}

function nearestOnSegment(a: Point2, b: Point2, p: Point2): Point2 {
  const x = b[0] - a[0]
  const z = b[1] - a[1]
  const square = x * x + z * z
  const t = square > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * x + (p[1] - a[1]) * z) / square)) : 0
  return [a[0] + t * x, a[1] + t * z]
}

/** Sutherland–Hodgman against one line: keeps where `height` ≥ 0. */
function clip(polygon: readonly Point2[], height: (p: Point2) => number): Point2[] {
  const kept: Point2[] = []
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length] as Point2
    const ha = height(a)
    const hb = height(b)
    if (ha >= 0) kept.push(a)
    if (ha >= 0 === hb >= 0) return
    const t = ha / (ha - hb)
    kept.push([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])])
  })
  return kept
}
