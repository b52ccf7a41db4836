import type { Vec3 } from '../space/vec'
import { ANGLE_WEIGHT, FAR, FLOOR, FLOOR_EASE, STEP_END, STEP_LONGEST, STEPS } from './constants'
import { N, nullspace, solveGram, solvePositive } from './small'
import { Easing, HalfSquare, type Rod, type Rope } from './ties'

/**
 * Puts the pelvis as near to the asked place as the planted limbs allow.
 *
 * Unknowns are the pelvis's place and its list together, since solving the height from x and z is
 * singular in heel sit. Minimised is |Δplace|²/H² + 0.25² Δlist² + the easing of limbs near their
 * limits, subject to |anchor − target| = length for every rod. Newton's method on the surface that the
 * rods leave: a step in its tangent plane, drawn back onto it, so that the lengths hold at every step and
 * the objective only falls. At most STEPS steps, always the same ones; no step is taken from the clock.
 */
export function solvePelvis(problem: PelvisProblem): PelvisSolution {
  const { stature, asked } = problem
  unit.fill(stature, 0, 3)
  unit[3] = 1 / ANGLE_WEIGHT
  q.set(asked.place)
  q[3] = asked.list
  let value = descend(problem)
  // A far request may end in a hollow on the wrong side of the knees: begun from above them, it may end better.
  if (value > FAR * FAR) {
    best.set(q)
    startAbove(problem)
    const second = descend(problem)
    if (second < value) value = second
    else q.set(best)
  }
  if (!Number.isFinite(value)) return { ok: false, place: asked.place, list: asked.list, pulls: [] }
  return {
    ok: true,
    place: [q[0], q[1], q[2]] as unknown as Vec3,
    list: q[3] as number,
    pulls: pulls(problem),
  }
}

/** From q downhill to rest; the objective there, infinite where the rods leave no place. */
function descend(problem: PelvisProblem): number {
  if (!retract(problem.rods, q)) return Number.POSITIVE_INFINITY
  let value = objective(problem, q)
  for (let step = 0; step < STEPS; step++) {
    if (!tangentStep(problem)) break
    const long = size(move)
    if (long < STEP_END) break
    if (long > STEP_LONGEST) for (let i = 0; i < N; i++) move[i] = ((move[i] as number) * STEP_LONGEST) / long
    const next = search(problem, value)
    if (next >= value - 1e-18) break
    value = next
  }
  return value
}

/** Puts q level above the middle of what the legs stand on, most of a thigh's or leg's length up. */
function startAbove({ rods, ropes }: PelvisProblem): void {
  const legs = rods.length > 0 ? rods : ropes.filter(({ name }) => name.startsWith('leg'))
  q.fill(0)
  for (const { target } of legs)
    for (let i = 0; i < 3; i++) q[i] = (q[i] as number) + (target[i] as number) / legs.length
  const reach = rods[0]?.length ?? Math.min(...ropes.map(({ easeMax }) => easeMax), unit[1] as number)
  q[1] = (q[1] as number) + 0.8 * reach
}

export interface Ties {
  readonly rods: readonly Rod[]
  readonly ropes: readonly Rope[]
}

export interface PelvisProblem extends Ties {
  readonly stature: number
  readonly asked: { readonly place: Vec3; readonly list: number }
}

export interface PelvisSolution {
  /** False when the planted knees lie too far apart for the thighs. */
  readonly ok: boolean
  readonly place: Vec3
  readonly list: number
  /** How hard each rope pulls the pelvis away from where it was asked, per unit of 1/H, strongest first. */
  readonly pulls: readonly {
    readonly name: string
    readonly pull: number
    readonly end: 'straight' | 'folded'
  }[]
}

// Room to work in: the solver runs to its end in one call.
const q = new Float64Array(N)
const trial = new Float64Array(N)
const best = new Float64Array(N)
const move = new Float64Array(N)
const gradient = new Float64Array(N)
const hessian = new Float64Array(N * N)
const basis = new Float64Array(N * N)
const reduced = new Float64Array(N * N)
const damped = new Float64Array(N * N)
const inPlane = new Float64Array(N)
const rows = new Float64Array(2 * N)
const multipliers = new Float64Array(2)
/** One unit of each unknown: in these the objective's own Hessian is 2 · 1. */
const unit = new Float64Array(N)
const tie = new HalfSquare()
const ease = new Easing()

/** A step in units. */
function size(v: Float64Array): number {
  let square = 0
  for (let i = 0; i < N; i++) square += ((v[i] as number) / (unit[i] as number)) ** 2
  return Math.sqrt(square)
}

/** Halves the step until the objective falls; leaves the new state in q and returns its value. */
function search(problem: PelvisProblem, value: number): number {
  for (let share = 1; share > 1e-7; share /= 2) {
    for (let i = 0; i < N; i++) trial[i] = (q[i] as number) + share * (move[i] as number)
    if (!retract(problem.rods, trial)) continue
    const next = objective(problem, trial)
    if (next < value) {
      q.set(trial)
      return next
    }
  }
  return value
}

const RETRACT_STEPS = 60
/** Misses of a squared length, over it: there, and as good as there when no step helps any more. */
const RETRACT_DONE = 1e-14
const RETRACT_NEAR = 1e-9
/** A far start may overshoot: no step is longer than this, in units. */
const RETRACT_LONGEST = 0.25

/** Draws a state onto the rods' surface by least-norm Newton steps, in place; false where there is none. */
function retract(rods: readonly Rod[], state: Float64Array): boolean {
  if (rods.length === 0) return true
  let worst = Number.POSITIVE_INFINITY
  for (let step = 0; step < RETRACT_STEPS; step++) {
    worst = 0
    for (let r = 0; r < rods.length; r++) {
      const rod = rods[r] as Rod
      const square = rod.length * rod.length
      tie.at(rod.anchor, rod.target, state)
      const miss = (tie.squared - square) / (2 * square)
      worst = Math.max(worst, Math.abs(miss))
      multipliers[r] = -miss
      for (let i = 0; i < N; i++) rows[r * N + i] = ((tie.slope[i] as number) * (unit[i] as number)) / square
    }
    if (worst < RETRACT_DONE) return true
    if (!solveGram(rows, multipliers, rods.length)) return false
    let long = 0
    for (let i = 0; i < N; i++) {
      let d = 0
      for (let r = 0; r < rods.length; r++) d += (rows[r * N + i] as number) * (multipliers[r] as number)
      inPlane[i] = d
      long += d * d
    }
    const cap = Math.min(1, RETRACT_LONGEST / Math.sqrt(long + 1e-300))
    for (let i = 0; i < N; i++)
      state[i] = (state[i] as number) + cap * (inPlane[i] as number) * (unit[i] as number)
  }
  return worst < RETRACT_NEAR
}

function objective({ asked, ropes }: PelvisProblem, state: Float64Array): number {
  let sum = 0
  for (let i = 0; i < N; i++) {
    const want = i < 3 ? (asked.place[i] as number) : asked.list
    sum += (((state[i] as number) - want) / (unit[i] as number)) ** 2
  }
  for (const rope of ropes)
    sum += ease.at(rope, Math.sqrt(tie.at(rope.anchor, rope.target, state).squared)).value
  return sum + floor(state).value
}

/** Newton's step in the plane tangent to the rods, left in `move`; false where the surface is a point. */
function tangentStep({ asked, ropes, rods }: PelvisProblem): boolean {
  hessian.fill(0)
  for (let i = 0; i < N; i++) {
    const want = i < 3 ? (asked.place[i] as number) : asked.list
    gradient[i] = (2 * ((q[i] as number) - want)) / (unit[i] as number)
    hessian[i * N + i] = 2
  }
  for (const rope of ropes) addRope(rope)
  addFloor()
  surface(rods)
  const columns = nullspace(rows, rods.length, basis)
  if (columns === 0 || !solveGram(rows, multipliers, rods.length)) return false
  // The surface curves: its own second slopes count with the rods' multipliers.
  for (let r = 0; r < rods.length; r++) {
    const { anchor, target } = rods[r] as Rod
    tie.at(anchor, target, q).addTo(hessian, unit, multipliers[r] as number, 0)
  }
  reduce(columns)
  return dampedStep(columns)
}

/** The pelvis itself comes to rest above the floor. */
const floor = (state: Float64Array) =>
  ease.below(state[1] as number, FLOOR * (unit[1] as number), FLOOR_EASE * (unit[1] as number))

function addFloor(): void {
  const { slope, bend } = floor(q)
  const height = unit[1] as number
  gradient[1] = (gradient[1] as number) + slope * height
  hessian[N + 1] = (hessian[N + 1] as number) + bend * height * height
}

/** The rods' slopes at q, and their pull against the gradient's part along them. */
function surface(rods: readonly Rod[]): void {
  for (let r = 0; r < rods.length; r++) {
    const rod = rods[r] as Rod
    tie.at(rod.anchor, rod.target, q)
    let product = 0
    for (let i = 0; i < N; i++) {
      rows[r * N + i] = (tie.slope[i] as number) * (unit[i] as number)
      product += (rows[r * N + i] as number) * (gradient[i] as number)
    }
    multipliers[r] = -product
  }
}

function addRope(rope: Rope): void {
  const distance = Math.sqrt(tie.at(rope.anchor, rope.target, q).squared)
  const { slope, bend } = ease.at(rope, distance)
  if ((slope === 0 && bend === 0) || distance === 0) return
  for (let i = 0; i < N; i++)
    gradient[i] =
      (gradient[i] as number) + (slope / distance) * (tie.slope[i] as number) * (unit[i] as number)
  tie.addTo(hessian, unit, slope / distance, (bend - slope / distance) / tie.squared)
}

/** The Hessian and the downhill slope within the tangent plane. */
function reduce(columns: number): void {
  for (let a = 0; a < columns; a++) {
    let down = 0
    for (let i = 0; i < N; i++) down -= (basis[i * N + a] as number) * (gradient[i] as number)
    inPlane[a] = down
    for (let b = 0; b < columns; b++) {
      let sum = 0
      for (let i = 0; i < N; i++)
        for (let j = 0; j < N; j++)
          sum += (basis[i * N + a] as number) * (hessian[i * N + j] as number) * (basis[j * N + b] as number)
      reduced[a * N + b] = sum
    }
  }
}

/** Damps the reduced Hessian until it is positive, so that the step goes downhill. */
function dampedStep(columns: number): boolean {
  for (let damping = 0; damping < 1e6; damping = damping === 0 ? 0.1 : damping * 4) {
    damped.set(reduced)
    for (let a = 0; a < columns; a++) {
      damped[a * N + a] = (damped[a * N + a] as number) + damping
      trial[a] = inPlane[a] as number
    }
    if (!solvePositive(damped, trial, columns, 1e-9)) continue
    for (let i = 0; i < N; i++) {
      let sum = 0
      for (let a = 0; a < columns; a++) sum += (basis[i * N + a] as number) * (trial[a] as number)
      move[i] = sum * (unit[i] as number)
    }
    return true
  }
  return false
}

/**
 * The pelvis to ask for so that it comes to rest at a place that the rods allow: what the ropes' easing
 * will take away there along the rods' surface, added.
 * @returns x, y, z in m and the list in rad
 */
export function askedPelvis(
  stature: number,
  place: Vec3,
  list: number,
  { rods, ropes }: Ties,
): [Vec3, number] {
  unit.fill(stature, 0, 3)
  unit[3] = 1 / ANGLE_WEIGHT
  q.set(place)
  q[3] = list
  gradient.fill(0)
  hessian.fill(0)
  for (const rope of ropes) addRope(rope)
  addFloor()
  surface(rods)
  const columns = nullspace(rows, rods.length, basis)
  reduce(columns)
  // At rest 2 (at − asked) / unit² + the ropes' slope is square to the surface; `inPlane` is that slope, downhill.
  const asked = (i: number) => {
    let slope = 0
    for (let a = 0; a < columns; a++) slope -= (basis[i * N + a] as number) * (inPlane[a] as number)
    return (q[i] as number) + (slope * (unit[i] as number)) / 2
  }
  return [[asked(0), asked(1), asked(2)], asked(3)]
}

const endOf = (slope: number) => (slope > 0 ? ('straight' as const) : ('folded' as const))

function pulls({ ropes, stature }: PelvisProblem): PelvisSolution['pulls'] {
  const found = []
  for (const rope of ropes) {
    const { slope } = ease.at(rope, Math.sqrt(tie.at(rope.anchor, rope.target, q).squared))
    if (slope !== 0) found.push({ name: rope.name, pull: Math.abs(slope) * stature, end: endOf(slope) })
  }
  return found.sort((a, b) => b.pull - a.pull)
}
