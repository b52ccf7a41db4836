import type { Vec3 } from '../space/vec'
import type { Anchor } from './anchor'
import { ANGLE_WEIGHT, EASE_CAP, EASE_STRENGTH, STEP_END, STEPS } from './constants'

/**
 * Puts the pelvis as near to the asked place as the planted limbs allow.
 *
 * Unknowns are the pelvis's place and its list together, since solving the height from x and z is
 * singular in heel sit. Minimised is |Δplace|²/H² + 0.25² Δlist² + the easing of limbs near their
 * limits, subject to |anchor − target| = length for every rod (a thigh on a planted knee). Newton's
 * method on the surface that the rods leave: a step in its tangent plane, drawn back onto it, so that
 * the lengths hold at every step and the objective only falls. At most 40 steps, always the same ones.
 */
export function solvePelvis(problem: PelvisProblem): PelvisSolution {
  const { stature, asked } = problem
  let q = retract(problem, [...asked.place, asked.list] as State)
  if (q === null) return { ok: false, place: asked.place, list: asked.list, pulls: [] }
  let f = objective(problem, q)
  for (let step = 0; step < STEPS; step++) {
    const move = tangentStep(problem, q)
    if (move === null || length4(move, stature) < STEP_END) break
    let better = false
    for (let share = 1; share > 1e-7; share /= 2) {
      const next: State | null = retract(problem, [
        q[0] + move[0] * share,
        q[1] + move[1] * share,
        q[2] + move[2] * share,
        q[3] + move[3] * share,
      ])
      if (next === null) continue
      const value = objective(problem, next)
      if (value < f) {
        better = f - value > 1e-18
        q = next
        f = value
        break
      }
    }
    if (!better) break
  }
  return { ok: true, place: [q[0], q[1], q[2]], list: q[3], pulls: pulls(problem, q) }
}

export interface PelvisProblem {
  readonly stature: number
  readonly asked: { readonly place: Vec3; readonly list: number }
  /** Exact distances: thighs on planted knees. */
  readonly rods: readonly Rod[]
  /** Distances within limits, eased: legs on planted feet, arms on planted hands. */
  readonly ropes: readonly Rope[]
}

export interface Rod {
  readonly name: string
  readonly anchor: Anchor
  readonly target: Vec3
  readonly length: number
}

export interface Rope {
  readonly name: string
  readonly anchor: Anchor
  readonly target: Vec3
  /** Eased from `easeMax` to `max`, and from `easeMin` down to `min`, m. */
  readonly max: number
  readonly easeMax: number
  readonly min: number
  readonly easeMin: number
}

export interface PelvisSolution {
  /** False when the planted knees lie too far apart for the thighs. */
  readonly ok: boolean
  readonly place: Vec3
  readonly list: number
  /** How hard each rope pulls the pelvis away from where it was asked, strongest first; > 0 stops it from stretching. */
  readonly pulls: readonly {
    readonly name: string
    readonly pull: number
    readonly end: 'straight' | 'folded'
  }[]
}

/** x, y, z in m, list in rad. */
type State = [number, number, number, number]

const length4 = (v: State, stature: number) =>
  Math.hypot(v[0], v[1], v[2]) / stature + Math.abs(v[3]) * ANGLE_WEIGHT

/** The anchor less the target, the anchor's slope in the list, and its second slope. */
function span(anchor: Anchor, target: Vec3, q: State) {
  const c = Math.cos(q[3])
  const s = Math.sin(q[3])
  const { c0, c1, c2 } = anchor
  const e: Vec3 = [
    q[0] + c0[0] + c * c1[0] + s * c2[0] - target[0],
    q[1] + c0[1] + c * c1[1] + s * c2[1] - target[1],
    q[2] + c0[2] + c * c1[2] + s * c2[2] - target[2],
  ]
  const slope: Vec3 = [c * c2[0] - s * c1[0], c * c2[1] - s * c1[1], c * c2[2] - s * c1[2]]
  const bend: Vec3 = [-c * c1[0] - s * c2[0], -c * c1[1] - s * c2[1], -c * c1[2] - s * c2[2]]
  return { e, slope, bend }
}

const dot3 = (a: Vec3, b: Vec3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]

/** Gradient of half the squared distance, and its 4 × 4 Hessian. */
function halfSquare(anchor: Anchor, target: Vec3, q: State) {
  const { e, slope, bend } = span(anchor, target, q)
  const gradient: State = [e[0], e[1], e[2], dot3(e, slope)]
  const hessian = [
    [1, 0, 0, slope[0]],
    [0, 1, 0, slope[1]],
    [0, 0, 1, slope[2]],
    [slope[0], slope[1], slope[2], dot3(slope, slope) + dot3(e, bend)],
  ]
  return { squared: dot3(e, e), gradient, hessian }
}

/** Draws a state onto the rods' surface by least-norm Newton steps; null where there is none. */
function retract({ rods, stature }: PelvisProblem, start: State): State | null {
  if (rods.length === 0) return start
  const q: State = [...start]
  const weight = inverseMetric(stature)
  for (let i = 0; i < 60; i++) {
    const rows = rods.map((rod) => {
      const { squared, gradient } = halfSquare(rod.anchor, rod.target, q)
      return { miss: (squared - rod.length ** 2) / 2 / rod.length ** 2, gradient, scale: rod.length ** 2 }
    })
    if (rows.every((row) => Math.abs(row.miss) < 1e-14)) return q
    const jacobian = rows.map((row) => row.gradient.map((g) => g / row.scale))
    const gram = jacobian.map((a) =>
      jacobian.map((b) => a.reduce((sum, v, k) => sum + v * (weight[k] as number) * (b[k] as number), 0)),
    )
    const multipliers = solveSmall(
      gram,
      rows.map((row) => -row.miss),
    )
    if (multipliers === null) return null
    const d = [0, 1, 2, 3].map(
      (k) =>
        (weight[k] as number) *
        jacobian.reduce((sum, row, i) => sum + (row[k] as number) * (multipliers[i] as number), 0),
    ) as State
    // A far start may overshoot: no step longer than a quarter of the stature or a third of a radian.
    const cap = Math.min(
      1,
      (0.25 * stature) / (Math.hypot(d[0], d[1], d[2]) + 1e-300),
      0.33 / (Math.abs(d[3]) + 1e-300),
    )
    for (let k = 0; k < 4; k++) q[k] = (q[k] as number) + cap * (d[k] as number)
    if (cap === 1 && length4(d, stature) < 1e-15) return q
  }
  const worst = Math.max(
    ...rods.map((rod) => {
      const { squared } = halfSquare(rod.anchor, rod.target, q)
      return Math.abs(Math.sqrt(squared) - rod.length)
    }),
  )
  return worst < 1e-9 * stature ? q : null
}

const inverseMetric = (stature: number): State => [
  stature * stature,
  stature * stature,
  stature * stature,
  1 / (ANGLE_WEIGHT * ANGLE_WEIGHT),
]

function objective({ asked, stature, ropes }: PelvisProblem, q: State): number {
  const dx = q[0] - asked.place[0]
  const dy = q[1] - asked.place[1]
  const dz = q[2] - asked.place[2]
  const da = (q[3] - asked.list) * ANGLE_WEIGHT
  let f = (dx * dx + dy * dy + dz * dz) / (stature * stature) + da * da
  for (const rope of ropes) {
    const { e } = span(rope.anchor, rope.target, q)
    f += easing(rope, Math.hypot(...e)).value
  }
  return f
}

/** The easing of one rope at a distance, with its first and second slope in the distance. */
function easing(rope: Rope, distance: number) {
  if (distance > rope.easeMax) {
    const width = rope.max - rope.easeMax
    const { value, slope, bend } = wall((distance - rope.easeMax) / width)
    return { value, slope: slope / width, bend: bend / width ** 2 }
  }
  if (distance < rope.easeMin) {
    const width = rope.easeMin - rope.min
    const { value, slope, bend } = wall((rope.easeMin - distance) / width)
    return { value, slope: -slope / width, bend: bend / width ** 2 }
  }
  return { value: 0, slope: 0, bend: 0 }
}

/** k t³ / (1 − t), smooth to the second slope at 0, carried on as its own parabola past the cap. */
function wall(t: number) {
  const c = Math.min(t, EASE_CAP)
  const r = 1 / (1 - c)
  let value = c ** 3 * r
  let slope = 3 * c * c * r + c ** 3 * r * r
  const bend = 6 * c * r + 6 * c * c * r * r + 2 * c ** 3 * r ** 3
  if (t > c) {
    const d = t - c
    value += slope * d + (bend * d * d) / 2
    slope += bend * d
  }
  return { value: EASE_STRENGTH * value, slope: EASE_STRENGTH * slope, bend: EASE_STRENGTH * bend }
}

/** Newton's step in the plane tangent to the rods, or null where the surface has come down to a point. */
function tangentStep(problem: PelvisProblem, q: State): State | null {
  const { asked, stature, ropes, rods } = problem
  // In units of H and of 1/0.25 rad the objective's own Hessian is 2·I, so distances mean the same on all four.
  const unit: State = [stature, stature, stature, 1 / ANGLE_WEIGHT]
  const g: State = [
    (2 * (q[0] - asked.place[0])) / stature,
    (2 * (q[1] - asked.place[1])) / stature,
    (2 * (q[2] - asked.place[2])) / stature,
    2 * (q[3] - asked.list) * ANGLE_WEIGHT,
  ]
  const h = [0, 1, 2, 3].map((i) => [0, 1, 2, 3].map((j) => (i === j ? 2 : 0)))
  const addTerm = (
    gradient: State,
    hessian: readonly (readonly number[])[],
    first: number,
    second: number,
  ) => {
    for (let i = 0; i < 4; i++)
      for (let j = 0; j < 4; j++) {
        const row = h[i] as number[]
        row[j] =
          (row[j] as number) +
          (unit[i] as number) *
            (unit[j] as number) *
            (first * (hessian[i]?.[j] as number) + second * (gradient[i] as number) * (gradient[j] as number))
      }
  }
  for (const rope of ropes) {
    const { squared, gradient, hessian } = halfSquare(rope.anchor, rope.target, q)
    const d = Math.sqrt(squared)
    if (d < 1e-9 * stature) continue
    const { slope, bend } = easing(rope, d)
    if (slope === 0 && bend === 0) continue
    for (let i = 0; i < 4; i++)
      g[i] = (g[i] as number) + ((slope * (gradient[i] as number)) / d) * (unit[i] as number)
    addTerm(gradient, hessian, slope / d, (bend - slope / d) / squared)
  }
  const surface = rods.map((rod) => {
    const { gradient, hessian } = halfSquare(rod.anchor, rod.target, q)
    return { gradient, hessian, row: gradient.map((v, i) => v * (unit[i] as number)) }
  })
  const basis = tangentBasis(surface.map((s) => s.row))
  if (basis.length === 0) return null
  const multipliers = solveSmall(
    surface.map((a) => surface.map((b) => dotN(a.row, b.row))),
    surface.map((a) => -dotN(a.row, g)),
  )
  if (multipliers === null) return null
  for (const [i, s] of surface.entries()) addTerm(s.gradient, s.hessian, multipliers[i] as number, 0)

  const reduced = basis.map((a) =>
    basis.map((b) =>
      dotN(
        a,
        h.map((row) => dotN(row, b)),
      ),
    ),
  )
  const slope = basis.map((a) => -dotN(a, g))
  for (let damping = 0; damping < 1e6; damping = damping === 0 ? 0.1 : damping * 4) {
    const damped = reduced.map((row, i) => row.map((v, j) => (i === j ? v + damping : v)))
    const y = positiveSolve(damped, slope)
    if (y !== null)
      return [0, 1, 2, 3].map(
        (k) =>
          (unit[k] as number) * basis.reduce((sum, b, i) => sum + (b[k] as number) * (y[i] as number), 0),
      ) as State
  }
  return null
}

/** Vectors of four numbers, orthonormal, square to all rows. */
function tangentBasis(rows: readonly (readonly number[])[]): number[][] {
  const done: number[][] = []
  const orthogonal = (v: readonly number[], against: readonly number[][]) => {
    let w = [...v]
    for (let pass = 0; pass < 2; pass++)
      for (const b of against) {
        const k = dotN(w, b)
        w = w.map((x, i) => x - k * (b[i] as number))
      }
    return w
  }
  for (const row of rows) {
    const w = orthogonal(row, done)
    const n = Math.sqrt(dotN(w, w))
    if (n > 1e-9 * Math.sqrt(dotN(row, row))) done.push(w.map((x) => x / n))
  }
  const basis: number[][] = []
  while (done.length + basis.length < 4) {
    const all = [...done, ...basis]
    const candidates = [0, 1, 2, 3].map((k) =>
      orthogonal(
        [0, 1, 2, 3].map((i) => (i === k ? 1 : 0)),
        all,
      ),
    )
    const best = candidates.reduce((a, b) => (dotN(b, b) > dotN(a, a) ? b : a))
    const n = Math.sqrt(dotN(best, best))
    basis.push(best.map((x) => x / n))
  }
  return basis
}

const dotN = (a: readonly number[], b: readonly number[]) =>
  a.reduce((sum, v, i) => sum + v * (b[i] as number), 0)

/** Solves a x = b for a symmetric positive definite matrix by Cholesky; null if it is not. */
function positiveSolve(a: readonly (readonly number[])[], b: readonly number[]): number[] | null {
  const n = b.length
  const l = a.map((row) => row.map(() => 0))
  const at = (m: readonly (readonly number[])[], i: number, j: number) => m[i]?.[j] as number
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = at(a, i, j)
      for (let k = 0; k < j; k++) sum -= at(l, i, k) * at(l, j, k)
      if (i === j) {
        if (sum <= 1e-9) return null
        ;(l[i] as number[])[i] = Math.sqrt(sum)
      } else (l[i] as number[])[j] = sum / at(l, j, j)
    }
  const x = [...b]
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i] = (x[i] as number) - at(l, i, k) * (x[k] as number)
    x[i] = (x[i] as number) / at(l, i, i)
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i] = (x[i] as number) - at(l, k, i) * (x[k] as number)
    x[i] = (x[i] as number) / at(l, i, i)
  }
  return x
}

/** Solves a symmetric system of no, one or two rows; null where it is singular. */
function solveSmall(a: readonly (readonly number[])[], b: readonly number[]): number[] | null {
  if (b.length === 0) return []
  const [a00, b0] = [a[0]?.[0] as number, b[0] as number]
  if (b.length === 1) return Math.abs(a00) < 1e-300 ? null : [b0 / a00]
  const a01 = a[0]?.[1] as number
  const a11 = a[1]?.[1] as number
  const b1 = b[1] as number
  const det = a00 * a11 - a01 * a01
  if (Math.abs(det) < 1e-14 * a00 * a11) return null
  return [(b0 * a11 - b1 * a01) / det, (b1 * a00 - b0 * a01) / det]
}

function pulls({ ropes, stature }: PelvisProblem, q: State): PelvisSolution['pulls'] {
  return ropes
    .map((rope) => {
      const d = Math.hypot(...span(rope.anchor, rope.target, q).e)
      const { slope } = easing(rope, d)
      return {
        name: rope.name,
        pull: Math.abs(slope) * stature,
        end: slope >= 0 ? ('straight' as const) : ('folded' as const),
      }
    })
    .filter((p) => p.pull > 0)
    .sort((a, b) => b.pull - a.pull)
}
