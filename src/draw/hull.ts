/**
 * The outline of the convex hull of circles: the silhouette that spheres wrapped in one skin show in an
 * orthographic view.
 *
 * The hull's support function is the upper envelope of one sinusoid per circle, so the outline is walked by
 * the direction of its normal: each circle owns a span of normals, and a straight tangent joins two spans.
 * @param circles x, y, r of each circle, flat, px; at least one
 * @returns flat triples: index of the circle, first and last normal angle of its span, increasing, together
 *   one full turn
 */
export function hullSpans(circles: readonly number[]): number[] {
  const count = circles.length / 3
  let current = 0
  for (let i = 1; i < count; i++)
    if (at(circles, i, 0) + at(circles, i, 2) > at(circles, current, 0) + at(circles, current, 2)) current = i
  if (count === 1) return [0, 0, TURN]
  const spans: number[] = []
  let angle = 0
  // Each circle owns at most a few spans; the bound only guards against rounding.
  for (let guard = 4 * count; guard > 0; guard--) {
    let next = TURN
    let heir = current
    for (let j = 0; j < count; j++) {
      if (j === current) continue
      const over = overtakes(circles, current, j, angle)
      if (over < next) {
        next = over
        heir = j
      }
    }
    if (next > angle) spans.push(current, angle, next)
    if (heir === current) break
    current = heir
    angle = next
  }
  return spans
}

const TURN = 2 * Math.PI

const at = (circles: readonly number[], i: number, k: 0 | 1 | 2) => circles[3 * i + k] as number

/** The first normal angle from `angle` on at which circle j reaches further out than circle i; Infinity if never. */
function overtakes(circles: readonly number[], i: number, j: number, angle: number): number {
  const dx = at(circles, j, 0) - at(circles, i, 0)
  const dy = at(circles, j, 1) - at(circles, i, 1)
  const d = Math.hypot(dx, dy)
  const k = (at(circles, i, 2) - at(circles, j, 2)) / d
  if (!(Math.abs(k) < 1 - 1e-12)) return Number.POSITIVE_INFINITY
  const over = Math.atan2(dy, dx) - Math.acos(k)
  // Circles that touch one tangent take over from each other at one angle, give or take rounding.
  return Math.max(angle, over + TURN * Math.ceil((angle - over) / TURN - 1e-9))
}

/**
 * An outline as points in order of their normals, dense enough for a smooth pen line: on arcs by their
 * sagitta, on tangents by a step.
 */
export interface Outline {
  /** Places and outward unit normals, px, y down; the outline closes on itself. */
  readonly x: readonly number[]
  readonly y: readonly number[]
  readonly nx: readonly number[]
  readonly ny: readonly number[]
  /** Which circle each point lies on; on a tangent the nearer one. */
  readonly owner: readonly number[]
  /** For each arc: centre x, y, radius, first normal x, y, last normal x, y, whether it is more than half a turn. */
  readonly arcs: readonly number[]
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

/**
 * @param circles x, y, r flat, px
 * @param sagitta greatest distance of an arc from its chord, px
 * @param step greatest distance of points along a tangent, px
 */
export function outlineOf(circles: readonly number[], sagitta: number, step: number): Outline {
  const spans = hullSpans(circles)
  const out = {
    x: [] as number[],
    y: [] as number[],
    nx: [] as number[],
    ny: [] as number[],
    owner: [] as number[],
    arcs: [] as number[],
    left: Number.POSITIVE_INFINITY,
    right: Number.NEGATIVE_INFINITY,
    top: Number.POSITIVE_INFINITY,
    bottom: Number.NEGATIVE_INFINITY,
  }
  const push = (x: number, y: number, nx: number, ny: number, owner: number) => {
    out.x.push(x)
    out.y.push(y)
    out.nx.push(nx)
    out.ny.push(ny)
    out.owner.push(owner)
    if (x < out.left) out.left = x
    if (x > out.right) out.right = x
    if (y < out.top) out.top = y
    if (y > out.bottom) out.bottom = y
  }
  for (let s = 0; s < spans.length; s += 3) {
    const i = spans[s] as number
    const from = spans[s + 1] as number
    const to = spans[s + 2] as number
    const r = at(circles, i, 2)
    const turn = 2 * Math.acos(Math.max(0.7, 1 - sagitta / Math.max(r, sagitta)))
    const pieces = Math.max(1, Math.ceil((to - from) / turn))
    for (let p = 0; p <= pieces; p++) {
      const a = from + ((to - from) * p) / pieces
      const c = Math.cos(a)
      const n = Math.sin(a)
      push(at(circles, i, 0) + r * c, at(circles, i, 1) + r * n, c, n, i)
    }
    const wide = to - from > Math.PI ? 1 : 0
    out.arcs.push(at(circles, i, 0), at(circles, i, 1), r)
    out.arcs.push(Math.cos(from), Math.sin(from), Math.cos(to), Math.sin(to), wide)
    const j = spans[(s + 3) % spans.length] as number
    if (j !== i) alongTangent(circles, i, j, to, step, push)
  }
  return out
}

function alongTangent(
  circles: readonly number[],
  i: number,
  j: number,
  angle: number,
  step: number,
  push: (x: number, y: number, nx: number, ny: number, owner: number) => void,
) {
  const c = Math.cos(angle)
  const n = Math.sin(angle)
  const x = at(circles, i, 0) + at(circles, i, 2) * c
  const y = at(circles, i, 1) + at(circles, i, 2) * n
  const dx = at(circles, j, 0) + at(circles, j, 2) * c - x
  const dy = at(circles, j, 1) + at(circles, j, 2) * n - y
  const pieces = Math.ceil(Math.hypot(dx, dy) / step)
  for (let p = 1; p < pieces; p++)
    push(x + (dx * p) / pieces, y + (dy * p) / pieces, c, n, 2 * p < pieces ? i : j)
}

/**
 * How deep a point lies inside an outline, px: the distance to it. Outside the result is negative (a sign,
 * not a distance).
 */
export function depthInside(o: Outline, x: number, y: number): number {
  if (x <= o.left || x >= o.right || y <= o.top || y >= o.bottom) return -1
  let least = Number.POSITIVE_INFINITY
  const a = o.arcs
  for (let i = 0; i < a.length; i += 8) {
    const qx = x - (a[i] as number)
    const qy = y - (a[i + 1] as number)
    const r = a[i + 2] as number
    const fx = a[i + 3] as number
    const fy = a[i + 4] as number
    const lx = a[i + 5] as number
    const ly = a[i + 6] as number
    // The tangents at the arc's ends bound the hull; the arc itself does where the point lies in its span.
    const past = fx * qy - fy * qx >= 0
    const before = qx * ly - qy * lx >= 0
    const facing = a[i + 7] === 1 ? past || before : past && before
    const d = facing ? r - Math.sqrt(qx * qx + qy * qy) : r - Math.max(fx * qx + fy * qy, lx * qx + ly * qy)
    if (d <= 0) return d
    if (d < least) least = d
  }
  return least
}
