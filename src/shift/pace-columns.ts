import { TOTAL_LIMIT } from '../weigh/constants'
import type { Columns } from '../weigh/simplex'
import type { ContactSystem } from '../weigh/system'
import { PACE_OPTIMAL } from './constants'

/** What counts besides balance. */
export interface Allowance {
  /** Friction over what it is. */
  readonly grip: number
  /** Moments about level axes; otherwise nothing tips. */
  readonly tipping: boolean
  /** Load limits of the contacts, and of all together. */
  readonly limits: boolean
  /** Greatest push from nowhere, W. */
  readonly push: number
}

const WRENCH = 6
const TOTAL = 6
const PUSH = 7
const FIRST_LIMIT = 8
/** The columns that are always there: the pace, then a slack for each row from TOTAL on. */
const PACE = 0

/**
 * The columns of a programme for one frame's pace λ: Σ f + push − λ w_dynamic = w_static. Forces come from
 * exact friction cones and the push from a ball: the edge of a cone, or the point of the ball, that a price asks
 * for is made into a column when it is asked for. Units as in the system; the pace's column has length 1.
 */
export class PaceColumns implements Columns {
  rows = 0
  /** Cost of the pace: −1 to look for the most, 1 for the least. */
  paceCost = 0
  /** Of w_dynamic, W. */
  size = 0
  private system!: ContactSystem
  private allowance!: Allowance
  private readonly dynamic = new Float64Array(WRENCH)
  /** What each part of the wrench is worth. */
  private readonly worth = new Float64Array(WRENCH)
  /** Made columns: six numbers of wrench each, and the contact, −1 for the push. */
  private wrenches = new Float64Array(6 * 64)
  private contacts = new Int32Array(64)
  private made = 0
  private bestReduced = 0
  private best = -1

  /** Takes over the contacts of a loaded system and its wrench, of which `static` is what a still body needs. */
  load(system: ContactSystem, still: readonly number[], allowance: Allowance): number {
    this.system = system
    this.allowance = allowance
    this.made = 0
    let square = 0
    for (let i = 0; i < WRENCH; i++) {
      const d = this.counts(i) ? (system.wrench[i] as number) - (still[i] as number) : 0
      this.dynamic[i] = d
      square += d * d
    }
    this.size = Math.sqrt(square)
    this.rows = FIRST_LIMIT + (allowance.limits ? system.contacts : 0)
    return this.rows
  }

  /** The right-hand side of each row. */
  fillBounds(rhs: Float64Array, still: readonly number[]): void {
    const { allowance, system, rows } = this
    for (let i = 0; i < WRENCH; i++) rhs[i] = still[i] as number
    rhs[TOTAL] = allowance.limits ? TOTAL_LIMIT : UNLIMITED
    rhs[PUSH] = allowance.push
    for (let r = FIRST_LIMIT; r < rows; r++) rhs[r] = system.limit[r - FIRST_LIMIT] as number
  }

  /** The rows that have a slack, and its column. */
  slackOf(row: number): number {
    return row - TOTAL + 1
  }

  cost(column: number): number {
    return column === PACE ? this.paceCost : 0
  }

  fill(column: number, out: Float64Array): number {
    for (let r = 0; r < this.rows; r++) out[r] = 0
    const slacks = this.rows - TOTAL
    if (column === PACE) for (let i = 0; i < WRENCH; i++) out[i] = -(this.dynamic[i] as number) / this.size
    else if (column <= slacks) out[TOTAL + column - 1] = 1
    else {
      const made = column - slacks - 1
      for (let i = 0; i < WRENCH; i++) out[i] = this.counts(i) ? (this.wrenches[6 * made + i] as number) : 0
      const contact = this.contacts[made] as number
      out[contact < 0 ? PUSH : TOTAL] = 1
      if (contact >= 0 && this.allowance.limits) out[FIRST_LIMIT + contact] = 1
    }
    return this.cost(column)
  }

  price(duals: Float64Array, free: boolean): number {
    this.best = -1
    this.bestReduced = -PACE_OPTIMAL
    let pace = free ? 0 : this.paceCost
    let square = 0
    const { worth } = this
    for (let i = 0; i < WRENCH; i++) {
      const d = this.counts(i) ? (duals[i] as number) : 0
      worth[i] = d
      pace += (d * (this.dynamic[i] as number)) / this.size
      square += d * d
    }
    this.offer(PACE, pace)
    for (let r = TOTAL; r < this.rows; r++) this.offer(this.slackOf(r), -(duals[r] as number))
    const next = this.rows - TOTAL + 1 + this.made
    const steep = Math.sqrt(square)
    if (steep > 0 && this.offer(next, -steep - (duals[PUSH] as number))) {
      this.reserve()
      for (let i = 0; i < WRENCH; i++) this.wrenches[6 * this.made + i] = (worth[i] as number) / steep
      this.contacts[this.made] = -1
    }
    for (let c = 0; c < this.system.contacts; c++) this.priceContact(c, duals, next)
    if (this.best === next) this.made++
    return this.best
  }

  /** Whether a part of the wrench has to be balanced. */
  private counts(part: number): boolean {
    return this.allowance.tipping || (part !== 3 && part !== 5)
  }

  private offer(column: number, reduced: number): boolean {
    if (!(reduced < this.bestReduced)) return false
    this.bestReduced = reduced
    this.best = column
    return true
  }

  /** Of the forces with normal part 1 at its vertices, the one that improves most. */
  private priceContact(c: number, duals: Float64Array, next: number): void {
    const { first, friction, axes, place } = this.system
    const grip = this.allowance.grip * (friction[c] as number)
    const at = 9 * c
    const load = -(duals[TOTAL] as number) - (this.allowance.limits ? (duals[FIRST_LIMIT + c] as number) : 0)
    const d0 = this.worth[0] as number
    const d1 = this.worth[1] as number
    const d2 = this.worth[2] as number
    const d3 = this.worth[3] as number
    const d4 = this.worth[4] as number
    const d5 = this.worth[5] as number
    for (let j = first[c] as number; j < (first[c + 1] as number); j++) {
      const x = place[3 * j] as number
      const y = place[3 * j + 1] as number
      const z = place[3 * j + 2] as number
      // What a force at r is worth: (duals of force + duals of moment × r) · f.
      const wx = d0 + d4 * z - d5 * y
      const wy = d1 + d5 * x - d3 * z
      const wz = d2 + d3 * y - d4 * x
      const along = (k: number) =>
        wx * (axes[at + k] as number) + wy * (axes[at + k + 1] as number) + wz * (axes[at + k + 2] as number)
      const n = along(0)
      const u = along(3)
      const v = along(6)
      const side = Math.sqrt(u * u + v * v)
      if (!this.offer(next, load - n - grip * side)) continue
      const slope = side > 0 ? grip / side : 0
      this.make(c, j, slope * u, slope * v)
    }
  }

  /** Writes the column of the force n + a u + b v at a vertex. */
  private make(c: number, j: number, a: number, b: number): void {
    this.reserve()
    const { axes, place } = this.system
    const { wrenches, made } = this
    const at = 9 * c
    const part = (i: number) =>
      (axes[at + i] as number) + a * (axes[at + 3 + i] as number) + b * (axes[at + 6 + i] as number)
    const [fx, fy, fz] = [part(0), part(1), part(2)]
    const x = place[3 * j] as number
    const y = place[3 * j + 1] as number
    const z = place[3 * j + 2] as number
    wrenches[6 * made] = fx
    wrenches[6 * made + 1] = fy
    wrenches[6 * made + 2] = fz
    wrenches[6 * made + 3] = y * fz - z * fy
    wrenches[6 * made + 4] = z * fx - x * fz
    wrenches[6 * made + 5] = x * fy - y * fx
    this.contacts[made] = c
  }

  private reserve(): void {
    if (this.made < this.contacts.length) return
    const [wrenches, contacts] = [this.wrenches, this.contacts]
    this.wrenches = new Float64Array(2 * wrenches.length)
    this.contacts = new Int32Array(2 * contacts.length)
    this.wrenches.set(wrenches)
    this.contacts.set(contacts)
  }
}

/** A sum of loads that is as good as no limit, W. */
const UNLIMITED = 1e3
