import { type BodyModel, SEGMENTS, type Segment } from '../body/model'
import type { CarriedLoad } from '../document/plan'
import { loadPlace } from '../pose/mass'
import type { ReachedPose } from '../pose/types'
import { type Mat3, multiply, toAxisAngle, transpose } from '../space/rotation'

/**
 * How a body moves at one moment, from poses close to it: linear momentum, centre of mass and angular momentum
 * about it, of the segments alone; then place and velocity of every carried load. See the constants below for
 * what stands where. World frame, kg, m, s.
 */
export type MotionState = Float64Array

/** Where the entries of a state begin; three numbers each, six for each load. */
export const MOMENTUM = 0
export const CENTRE = 3
export const SPIN = 6
const LOADS = 9

export type Placed = Pick<ReachedPose, 'segments' | 'joints'>

/** The state half way between two poses that are `seconds` apart; at rest where they are one and the same. */
export function stateBetween(
  body: BodyModel,
  loads: readonly CarriedLoad[],
  before: Placed,
  after: Placed,
  seconds: number,
): MotionState {
  const rate = before === after ? 0 : 1 / seconds
  begin(body)
  for (const id of SEGMENTS) {
    const a = before.segments[id]
    const b = after.segments[id]
    for (let i = 0; i < 3; i++) {
      place[i] = ((a.com[i] as number) + (b.com[i] as number)) / 2
      velocity[i] = ((b.com[i] as number) - (a.com[i] as number)) * rate
    }
    turnFrom(a.rotation, b.rotation, turn)
    addSegment(body.segments[id], a.rotation, b.rotation, turn, rate)
  }
  const state = finish(loads.length)
  loads.forEach((load, l) => {
    const a = loadPlace(load, before.joints, before.segments)
    const b = loadPlace(load, after.joints, after.segments)
    for (let i = 0; i < 3; i++) {
      state[LOADS + 6 * l + i] = ((a[i] as number) + (b[i] as number)) / 2
      state[LOADS + 6 * l + 3 + i] = ((b[i] as number) - (a[i] as number)) * rate
    }
  })
  return state
}

/**
 * The state at the first of three poses, from those on one side of it alone: `seconds` apart, negative where
 * they lie before it. Exact for constant acceleration.
 */
export function stateAtEnd(
  body: BodyModel,
  loads: readonly CarriedLoad[],
  [here, next, far]: readonly [Placed, Placed, Placed],
  seconds: number,
): MotionState {
  const rate = 1 / (2 * seconds)
  const slope = (x: number, y: number, z: number) => (4 * (y - x) - (z - x)) * rate
  begin(body)
  for (const id of SEGMENTS) {
    const [a, b, c] = [here.segments[id], next.segments[id], far.segments[id]]
    for (let i = 0; i < 3; i++) {
      place[i] = a.com[i] as number
      velocity[i] = slope(a.com[i] as number, b.com[i] as number, c.com[i] as number)
    }
    turnFrom(a.rotation, b.rotation, turn)
    turnFrom(a.rotation, c.rotation, far3)
    for (let i = 0; i < 3; i++) turn[i] = 4 * (turn[i] as number) - (far3[i] as number)
    addSegment(body.segments[id], a.rotation, a.rotation, turn, rate)
  }
  const state = finish(loads.length)
  loads.forEach((load, l) => {
    const at = (pose: Placed) => loadPlace(load, pose.joints, pose.segments)
    const [a, b, c] = [at(here), at(next), at(far)]
    for (let i = 0; i < 3; i++) {
      state[LOADS + 6 * l + i] = a[i] as number
      state[LOADS + 6 * l + 3 + i] = slope(a[i] as number, b[i] as number, c[i] as number)
    }
  })
  return state
}

/**
 * Body and loads together: linear momentum, common centre, angular momentum about it, as in a state.
 * @param mass of the body alone, kg
 * @param borne the mass of each load that counts, kg
 */
export function together(state: MotionState, mass: number, borne: ArrayLike<number>): Float64Array {
  const sum = state.slice(0, LOADS)
  if (borne.length === 0) return sum
  let whole = mass
  for (let i = 0; i < 3; i++) sum[CENTRE + i] = mass * (state[CENTRE + i] as number)
  for (let l = 0; l < borne.length; l++) {
    const m = borne[l] as number
    const at = LOADS + 6 * l
    whole += m
    for (let i = 0; i < 3; i++) {
      sum[i] = (sum[i] as number) + m * (state[at + 3 + i] as number)
      sum[CENTRE + i] = (sum[CENTRE + i] as number) + m * (state[at + i] as number)
    }
  }
  for (let i = 0; i < 3; i++) sum[CENTRE + i] = (sum[CENTRE + i] as number) / whole
  addSpin(sum, state, CENTRE, MOMENTUM, 1)
  for (let l = 0; l < borne.length; l++)
    addSpin(sum, state, LOADS + 6 * l, LOADS + 6 * l + 3, borne[l] as number)
  return sum
}

/** Adds (place − common centre) × factor · motion to the spin of `sum`; places and motions stand in `state`. */
function addSpin(sum: Float64Array, state: MotionState, at: number, motion: number, factor: number): void {
  const x = (state[at] as number) - (sum[CENTRE] as number)
  const y = (state[at + 1] as number) - (sum[CENTRE + 1] as number)
  const z = (state[at + 2] as number) - (sum[CENTRE + 2] as number)
  const px = factor * (state[motion] as number)
  const py = factor * (state[motion + 1] as number)
  const pz = factor * (state[motion + 2] as number)
  sum[SPIN] = (sum[SPIN] as number) + y * pz - z * py
  sum[SPIN + 1] = (sum[SPIN + 1] as number) + z * px - x * pz
  sum[SPIN + 2] = (sum[SPIN + 2] as number) + x * py - y * px
}

// Room to work in: a state is made in one call.
const place = new Float64Array(3)
const velocity = new Float64Array(3)
const turn = new Float64Array(3)
const far3 = new Float64Array(3)
const momentum = new Float64Array(3)
const moment = new Float64Array(3)
const spin = new Float64Array(3)
let mass = 0

function begin(body: BodyModel): void {
  mass = 0
  for (const id of SEGMENTS) mass += body.segments[id].mass
  momentum.fill(0)
  moment.fill(0)
  spin.fill(0)
}

/**
 * Adds a segment at `place` with `velocity`, turning at rate · `turned` (rad, along its own axes), its spin
 * taken along the mean of two orientations. Spin is about the world's origin until `finish`.
 */
function addSegment(segment: Segment, a: Mat3, b: Mat3, turned: Float64Array, rate: number): void {
  const m = segment.mass
  const [ix, iy, iz] = segment.inertia
  const hx = (ix * (turned[0] as number) * rate) / 2
  const hy = (iy * (turned[1] as number) * rate) / 2
  const hz = (iz * (turned[2] as number) * rate) / 2
  const [x, y, z] = place as unknown as [number, number, number]
  const px = m * (velocity[0] as number)
  const py = m * (velocity[1] as number)
  const pz = m * (velocity[2] as number)
  momentum[0] = (momentum[0] as number) + px
  momentum[1] = (momentum[1] as number) + py
  momentum[2] = (momentum[2] as number) + pz
  moment[0] = (moment[0] as number) + m * x
  moment[1] = (moment[1] as number) + m * y
  moment[2] = (moment[2] as number) + m * z
  spin[0] =
    (spin[0] as number) + y * pz - z * py + (a[0] + b[0]) * hx + (a[1] + b[1]) * hy + (a[2] + b[2]) * hz
  spin[1] =
    (spin[1] as number) + z * px - x * pz + (a[3] + b[3]) * hx + (a[4] + b[4]) * hy + (a[5] + b[5]) * hz
  spin[2] =
    (spin[2] as number) + x * py - y * px + (a[6] + b[6]) * hx + (a[7] + b[7]) * hy + (a[8] + b[8]) * hz
}

function finish(loads: number): MotionState {
  const state = new Float64Array(LOADS + 6 * loads)
  for (let i = 0; i < 3; i++) {
    state[MOMENTUM + i] = momentum[i] as number
    state[CENTRE + i] = (moment[i] as number) / mass
    state[SPIN + i] = spin[i] as number
  }
  const [x, y, z] = state.subarray(CENTRE) as unknown as [number, number, number]
  const [px, py, pz] = momentum as unknown as [number, number, number]
  state[SPIN] = (state[SPIN] as number) - (y * pz - z * py)
  state[SPIN + 1] = (state[SPIN + 1] as number) - (z * px - x * pz)
  state[SPIN + 2] = (state[SPIN + 2] as number) - (x * py - y * px)
  return state
}

/** The turn that takes orientation a to b, along their own axes: angle times unit axis, rad (the log of aᵀb). */
function turnFrom(a: Mat3, b: Mat3, out: Float64Array): void {
  const x = (a[2] * b[1] + a[5] * b[4] + a[8] * b[7] - (a[1] * b[2] + a[4] * b[5] + a[7] * b[8])) / 2
  const y = (a[0] * b[2] + a[3] * b[5] + a[6] * b[8] - (a[2] * b[0] + a[5] * b[3] + a[8] * b[6])) / 2
  const z = (a[1] * b[0] + a[4] * b[3] + a[7] * b[6] - (a[0] * b[1] + a[3] * b[4] + a[6] * b[7])) / 2
  const sine = Math.sqrt(x * x + y * y + z * z)
  let cosine = -1
  for (let i = 0; i < 9; i++) cosine += (a[i] as number) * (b[i] as number)
  // Beyond 30° the arc sine loses digits, beyond a right angle it is wrong.
  if (sine > 0.5 || cosine < 0) {
    const { axis, angle } = toAxisAngle(multiply(transpose(a), b))
    for (let i = 0; i < 3; i++) out[i] = angle * (axis[i] as number)
    return
  }
  const scale = sine < 1e-9 ? 1 : Math.asin(sine) / sine
  out[0] = x * scale
  out[1] = y * scale
  out[2] = z * scale
}
