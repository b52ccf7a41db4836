/** A point of the ground seen from above: x, z. */
export type Point2 = readonly [number, number]

/**
 * Convex hull of points, by Andrew's monotone chain: its corners in order, so that the area
 * ½ Σ (x₁ z₂ − x₂ z₁) is positive. Points on a line between two corners are left out. Points on one line
 * give its two ends, points on one spot one point, none nothing.
 */
export function hull(points: readonly Point2[]): Point2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const lower = chain(sorted)
  const upper = chain(sorted.reverse())
  if (lower.length < 2) return lower
  return [...lower.slice(0, -1), ...upper.slice(0, -1)]
}

/** The corners met on the way from the first point to the last, keeping all others on the left. */
function chain(sorted: readonly Point2[]): Point2[] {
  const corners: Point2[] = []
  for (const c of sorted) {
    let b = corners.at(-1)
    if (b && b[0] === c[0] && b[1] === c[1]) continue
    for (let a = corners.at(-2); a && b; a = corners.at(-2)) {
      if ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 0) break
      corners.pop()
      b = corners.at(-1)
    }
    corners.push(c)
  }
  return corners
}
