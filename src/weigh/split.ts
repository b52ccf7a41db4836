import {
  DUAL_REACH,
  EPSILON_LEAST,
  LINE_SEARCH_DROP,
  PROXIMAL_STEPS,
  PUSH_GONE,
  PUSH_SETTLED,
  PUSH_STAYS,
  REGULARISATIONS,
  SPLIT_LOOSE,
  SPLIT_NOISE,
  SPLIT_ROUNDED,
  SPLIT_TIGHT,
} from './constants'
import { SplitDual } from './dual'
import { dot6, norm6, solveDefinite6 } from './six'
import type { ContactSystem } from './system'

/** What `split` returns; the arrays are used again by the next one. */
export interface Split {
  /** The push from nowhere: force over W, then moment over W L, about the centre of mass. */
  readonly push: Float64Array
  /** The dual's unknowns y, their anchor and the last ε: f = k P(Gᵀy) and push = ε (y − anchor). */
  readonly dual: Float64Array
  readonly anchor: Float64Array
  readonly epsilon: number
}

/**
 * Splits the wrench a body needs over its contacts: forces f at the vertices, inside exact friction cones,
 * with least Σ |f|² / k, k a vertex's stiffness. Writes them to `system.force`. What of the wrench is left
 * over is the push; where the contacts can't give the wrench it is as small as any can be. There is always
 * an answer.
 *
 * Method: Newton's on the dual (see `SplitDual`) for ε from 1e-2 to 1e-6 in turn, then a few proximal
 * steps, anchored at the last y, which take away the push that ε invents. Where the push doesn't fall with
 * ε, y runs along a straight line in 1/ε, and each start is taken from that line.
 */
export function split(system: ContactSystem): Split {
  splitter.solve(system)
  return splitter
}

const LAST = REGULARISATIONS.length - 1
/**
 * Newton steps for one ε, and gradients in one line search. In 300,000 random problems the most were 52 and,
 * once, all 100; the answer was good nevertheless.
 */
const MAX_NEWTON = 100
const MAX_SECANTS = 100

class Splitter implements Split {
  readonly push = new Float64Array(6)
  readonly dual = new Float64Array(6)
  epsilon = REGULARISATIONS[LAST] as number
  private readonly phi = new SplitDual()
  readonly anchor = this.phi.anchor
  /** y at the end of the ε, or of the proximal step, before this one. */
  private readonly before = new Float64Array(6)
  /** Size of the push at that end, and whether it hardly fell there. */
  private size = 0
  private stays = false
  private readonly trial = new Float64Array(6)
  private readonly step = new Float64Array(6)

  solve(system: ContactSystem): void {
    const { dual, anchor, push, phi } = this
    this.epsilon = REGULARISATIONS[LAST] as number
    phi.begin(system)
    dual.fill(0)
    this.before.fill(0)
    this.size = Number.POSITIVE_INFINITY
    this.stays = false
    this.followEpsilon()
    this.takeProximalSteps()
    for (let i = 0; i < 6; i++) {
      push[i] = this.epsilon * ((dual[i] as number) - (anchor[i] as number)) - (phi.gradient[i] as number)
    }
  }

  /** Minimises for each ε in turn. */
  private followEpsilon(): void {
    for (let i = 0; i <= LAST; i++) {
      const epsilon = REGULARISATIONS[i] as number
      const last = i > 0 ? 1 / (REGULARISATIONS[i - 1] as number) : 0
      const older = i > 1 ? 1 / (REGULARISATIONS[i - 2] as number) : 0
      this.lead((1 / epsilon - last) / (last - older))
      this.minimise(epsilon, i < LAST ? SPLIT_LOOSE : SPLIT_TIGHT)
      this.note(epsilon)
    }
  }

  /**
   * Anchored at the last y, ε invents a push only of what y still moves. The smaller that is, the smaller ε
   * may be without y running off: so soft contacts, whose y is large, get there in a few steps as well.
   */
  private takeProximalSteps(): void {
    const { dual, anchor } = this
    let reach = 1 / (1 - this.epsilon / (REGULARISATIONS[LAST - 1] as number))
    for (let round = 0; round < PROXIMAL_STEPS; round++) {
      anchor.set(dual)
      const epsilon = Math.min(this.epsilon, Math.max(EPSILON_LEAST, this.size / DUAL_REACH))
      this.lead((reach * this.epsilon) / epsilon)
      reach = 1
      this.epsilon = epsilon
      this.minimise(epsilon, SPLIT_TIGHT)
      const before = this.size
      this.note(epsilon)
      if (this.size < PUSH_GONE || this.size > PUSH_SETTLED * before) return
    }
  }

  /** Takes down the size of the push ε (y − anchor), and whether it stayed. */
  private note(epsilon: number): void {
    let square = 0
    for (let i = 0; i < 6; i++) square += ((this.dual[i] as number) - (this.anchor[i] as number)) ** 2
    const size = epsilon * Math.sqrt(square)
    this.stays = size > PUSH_STAYS * this.size
    this.size = size
  }

  /** Where the push stays, moves y on by `reach` times its last change. */
  private lead(reach: number): void {
    const { dual, before } = this
    for (let i = 0; i < 6; i++) {
      const y = dual[i] as number
      if (this.stays) dual[i] = y + reach * (y - (before[i] as number))
      before[i] = y
    }
  }

  /** Newton's method from the present y until the gradient is below `tolerance` or drowned in rounding. */
  private minimise(epsilon: number, tolerance: number): void {
    const { dual, phi, step } = this
    phi.evaluate(dual, epsilon)
    let size = norm6(phi.gradient)
    for (let round = 0; round < MAX_NEWTON; round++) {
      if (size < tolerance || size < SPLIT_NOISE * norm6(dual)) return
      phi.curve()
      solveDefinite6(phi.hessian, phi.gradient, step)
      this.search(epsilon)
      const now = norm6(phi.gradient)
      if (now >= size && now < SPLIT_ROUNDED) return
      size = now
    }
  }

  /**
   * Goes from y against `step` to where the slope of φ along it has dropped: the full step, or by secants
   * of the slope between a point where φ still falls and one where it rises (Illinois' variant).
   */
  private search(epsilon: number): void {
    const { dual, trial, step, phi } = this
    const start = -dot6(phi.gradient, step)
    let low = 0
    let lowSlope = start
    let high = 0
    let highSlope = 0
    let side = 0
    let t = 1
    for (let k = 0; k < MAX_SECANTS; k++) {
      for (let i = 0; i < 6; i++) trial[i] = (dual[i] as number) - t * (step[i] as number)
      phi.evaluate(trial, epsilon)
      const slope = -dot6(phi.gradient, step)
      if (Math.abs(slope) <= LINE_SEARCH_DROP * Math.abs(start) || (slope < 0 && high === 0)) break
      if (slope > 0) {
        high = t
        highSlope = slope
        if (side > 0) lowSlope *= 0.5
        side = 1
      } else {
        low = t
        lowSlope = slope
        if (side < 0) highSlope *= 0.5
        side = -1
      }
      t = low + ((high - low) * lowSlope) / (lowSlope - highSlope)
    }
    dual.set(trial)
  }
}

const splitter = new Splitter()
