/** A point of the ground seen from above: x, z. */
export type Point2 = readonly [number, number]

/**
 * Convex hull of points, by Andrew's monotone chain: its corners in order, so that the area
 * ½ Σ (x₁ z₂ − x₂ z₁) is positive. Corners closer than `flat` to the line through their neighbours are
 * left out. Points on one line give its two ends, points on one spot one point, none nothing.
 */
export function hull(points: readonly Point2[], flat = 0): Point2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const ends = (chain: Point2[], p: Point2): Point2[] => {
    while (
      chain.length > 1 &&
      !turns(chain[chain.length - 2] as Point2, chain[chain.length - 1] as Point2, p, flat)
    )
      chain.pop()
    if (chain.length !== 1 || !same(chain[0] as Point2, p, flat)) chain.push(p)
    return chain
  }
  const lower = sorted.reduce(ends, [] as Point2[])
  const upper = sorted.reduceRight(ends, [] as Point2[])
  return lower.length < 2 ? lower : [...lower.slice(0, -1), ...upper.slice(0, -1)]
}

/** Whether b lies more than `flat` to the right of the way from a to c, so that a–b–c turns left. */
function turns(a: Point2, b: Point2, c: Point2, flat: number): boolean {
  const x = c[0] - a[0]
  const z = c[1] - a[1]
  return (b[0] - a[0]) * z - (b[1] - a[1]) * x > flat * Math.sqrt(x * x + z * z)
}

const same = (a: Point2, b: Point2, flat: number): boolean =>
  Math.abs(a[0] - b[0]) <= flat && Math.abs(a[1] - b[1]) <= flat
