import { LP_OPTIMAL } from './constants'
import type { Columns } from './simplex'
import type { ContactSystem } from './system'

/** Columns of a vertex: eight edges of its friction pyramid and its own split force. */
const EACH = 9
const OWN = 8
/** Cosines of 0°, 45° … 315°; the sine of 45° · i is entry (i + 6) mod 8. */
const COSINES = [1, Math.SQRT1_2, 0, -Math.SQRT1_2, -1, -Math.SQRT1_2, 0, Math.SQRT1_2]
/** tan 22.5° */
const HALF_STEP = Math.SQRT2 - 1

/**
 * Every force the contacts can give, as columns of a linear programme: at each vertex the eight edges of a
 * pyramid inside its friction cone, and the force the split found there where the pyramid leaves it out (it
 * could be outside by 8 % of the sideways holding, and the range would then not contain the load). A column
 * is a force with normal part 1 and its moment about the centre of mass.
 *
 * Rows: force (3); moment (3), or only the moment about one axis; the sum of all normal loads; then the load
 * of each contact that has a limit row. The last kinds are limits, with a slack column each.
 */
export class ConeColumns implements Columns {
  rows = 0
  /** Row of the sum of all normal loads. */
  totalRow = 6
  /** Row of each contact's limit, or −1. */
  limitRow = new Int32Array(8)
  /** 1 where the contact takes part. */
  active = new Uint8Array(8)
  /** What a unit of each contact's normal load costs. */
  loadCost = new Float64Array(8)
  /** What a unit of moment about x, y, z costs. */
  readonly momentCost = new Float64Array(3)
  private system!: ContactSystem
  /** The one axis about which moments are balanced, where they aren't about all three. */
  private readonly axis = new Float64Array(3)
  private allAxes = true
  /** Own force of each vertex along u and v over its normal part, and whether it counts. */
  private slope = new Float64Array(96)
  private owns = new Uint8Array(48)
  /** Force and moment of the last located column. */
  private readonly wrench = new Float64Array(6)
  private readonly prices = new Float64Array(6)
  private bestReduced = 0
  private best = -1

  /** Takes over the contacts and the forces of their split; all take part and nothing costs. */
  load(system: ContactSystem): void {
    this.system = system
    const { contacts, vertices, first, friction } = system
    if (contacts > this.active.length) {
      this.active = new Uint8Array(2 * contacts)
      this.loadCost = new Float64Array(2 * contacts)
      this.limitRow = new Int32Array(2 * contacts)
    }
    if (vertices > this.owns.length) {
      this.owns = new Uint8Array(2 * vertices)
      this.slope = new Float64Array(4 * vertices)
    }
    this.active.fill(1, 0, contacts)
    this.loadCost.fill(0)
    this.momentCost.fill(0)
    for (let c = 0; c < contacts; c++) {
      for (let j = first[c] as number; j < (first[c + 1] as number); j++)
        this.loadOwn(j, friction[c] as number)
    }
  }

  /** Numbers the rows: moments about all three axes, or about `axis`; limit rows where `limited` is 1. */
  layOut(axis: Float64Array | null, limited: Uint8Array): number {
    this.allAxes = axis === null
    if (axis !== null) this.axis.set(axis)
    this.totalRow = axis === null ? 6 : 4
    let row = this.totalRow + 1
    for (let c = 0; c < this.system.contacts; c++) {
      this.limitRow[c] = this.active[c] === 1 && limited[c] === 1 ? row++ : -1
    }
    this.rows = row
    return row
  }

  slackOf(row: number): number {
    return EACH * this.system.vertices + row
  }

  isSlack(column: number): boolean {
    return column >= EACH * this.system.vertices
  }

  contactOf(column: number): number {
    const { first } = this.system
    let contact = 0
    while (EACH * (first[contact + 1] as number) <= column) contact++
    return contact
  }

  cost(column: number): number {
    return this.isSlack(column) ? 0 : this.costOf(this.locate(column))
  }

  fill(column: number, out: Float64Array): number {
    for (let r = 0; r < this.rows; r++) out[r] = 0
    if (this.isSlack(column)) {
      out[column - this.slackOf(0)] = 1
      return 0
    }
    const contact = this.locate(column)
    const { wrench, axis } = this
    for (let i = 0; i < 3; i++) out[i] = wrench[i] as number
    if (this.allAxes) for (let i = 3; i < 6; i++) out[i] = wrench[i] as number
    else
      for (let i = 0; i < 3; i++)
        out[3] = (out[3] as number) + (axis[i] as number) * (wrench[3 + i] as number)
    out[this.totalRow] = 1
    const row = this.limitRow[contact] as number
    if (row >= 0) out[row] = 1
    return this.costOf(contact)
  }

  /** Cost of the last located column. */
  private costOf(contact: number): number {
    const { wrench, momentCost, loadCost } = this
    let cost = loadCost[contact] as number
    for (let i = 0; i < 3; i++) cost += (momentCost[i] as number) * (wrench[3 + i] as number)
    return cost
  }

  /** Adds value × the moment of a column to `sum`. */
  addMoment(column: number, value: number, sum: Float64Array): void {
    if (this.isSlack(column)) return
    this.locate(column)
    for (let i = 0; i < 3; i++) sum[i] = (sum[i] as number) + value * (this.wrench[3 + i] as number)
  }

  price(duals: Float64Array, free: boolean): number {
    const { contacts } = this.system
    this.bestReduced = -LP_OPTIMAL
    this.best = -1
    for (let r = this.totalRow; r < this.rows; r++) this.offer(this.slackOf(r), -(duals[r] as number))
    this.setPrices(duals, free ? 0 : 1)
    for (let c = 0; c < contacts; c++) if (this.active[c] === 1) this.priceContact(c, duals, free ? 0 : 1)
    return this.best
  }

  private offer(column: number, reduced: number): void {
    if (reduced >= this.bestReduced) return
    this.bestReduced = reduced
    this.best = column
  }

  /** What a unit of force and of moment costs, less what the duals say it is worth. */
  private setPrices(duals: Float64Array, paid: number): void {
    const { prices, momentCost, axis, allAxes } = this
    for (let i = 0; i < 3; i++) {
      const worth = allAxes ? (duals[3 + i] as number) : (duals[3] as number) * (axis[i] as number)
      prices[i] = -(duals[i] as number)
      prices[3 + i] = paid * (momentCost[i] as number) - worth
    }
  }

  /**
   * A force f at r has the reduced cost f · (g + m × r) + its load's, with g and m the prices: three numbers along n, u, v a vertex, from which its best pyramid edge can be read.
   */
  private priceContact(c: number, duals: Float64Array, paid: number): void {
    const { axes, friction, first, local } = this.system
    const { slope, owns, prices } = this
    const gx = prices[0] as number
    const gy = prices[1] as number
    const gz = prices[2] as number
    const mx = prices[3] as number
    const my = prices[4] as number
    const mz = prices[5] as number
    const row = this.limitRow[c] as number
    const load =
      paid * (this.loadCost[c] as number) -
      (duals[this.totalRow] as number) -
      (row < 0 ? 0 : (duals[row] as number))
    const at = 9 * c
    const nx = axes[at] as number
    const ny = axes[at + 1] as number
    const nz = axes[at + 2] as number
    const ux = axes[at + 3] as number
    const uy = axes[at + 4] as number
    const uz = axes[at + 5] as number
    const vx = axes[at + 6] as number
    const vy = axes[at + 7] as number
    const vz = axes[at + 8] as number
    const gn = load + gx * nx + gy * ny + gz * nz
    const gu = gx * ux + gy * uy + gz * uz
    const gv = gx * vx + gy * vy + gz * vz
    const mn = mx * nx + my * ny + mz * nz
    const mu = mx * ux + my * uy + mz * uz
    const mv = mx * vx + my * vy + mz * vz
    const grip = friction[c] as number
    let { best, bestReduced } = this
    const end = first[c + 1] as number
    for (let j = first[c] as number; j < end; j++) {
      const rn = local[3 * j] as number
      const ru = local[3 * j + 1] as number
      const rv = local[3 * j + 2] as number
      const qn = gn + mu * rv - mv * ru
      const qu = gu + mv * rn - mn * rv
      const qv = gv + mn * ru - mu * rn
      const au = Math.abs(qu)
      const av = Math.abs(qv)
      const reduced = qn - grip * Math.max(au, av, Math.SQRT1_2 * (au + av))
      if (reduced < bestReduced) {
        bestReduced = reduced
        best = EACH * j + edgeAlong(-qu, -qv)
      }
      if (owns[j] === 1) {
        const own = qn + (slope[2 * j] as number) * qu + (slope[2 * j + 1] as number) * qv
        if (own < bestReduced) {
          bestReduced = own
          best = EACH * j + OWN
        }
      }
    }
    this.best = best
    this.bestReduced = bestReduced
  }

  private loadOwn(j: number, grip: number): void {
    const { force } = this.system
    const fn = force[3 * j] as number
    this.owns[j] = 0
    if (fn < 1e-12) return
    const a = (force[3 * j + 1] as number) / fn
    const b = (force[3 * j + 2] as number) / fn
    this.slope[2 * j] = a
    this.slope[2 * j + 1] = b
    const high = Math.max(Math.abs(a), Math.abs(b))
    const low = Math.min(Math.abs(a), Math.abs(b))
    if (high + HALF_STEP * low > grip) this.owns[j] = 1
  }

  /** Writes the force and moment of a column to `wrench` and returns its contact. */
  private locate(column: number): number {
    const { axes, place, friction } = this.system
    const { wrench, slope } = this
    const vertex = Math.floor(column / EACH)
    const edge = column - EACH * vertex
    const contact = this.contactOf(column)
    const grip = friction[contact] as number
    const a = edge === OWN ? (slope[2 * vertex] as number) : grip * (COSINES[edge] as number)
    const b = edge === OWN ? (slope[2 * vertex + 1] as number) : grip * (COSINES[(edge + 6) & 7] as number)
    const at = 9 * contact
    const fx = (axes[at] as number) + a * (axes[at + 3] as number) + b * (axes[at + 6] as number)
    const fy = (axes[at + 1] as number) + a * (axes[at + 4] as number) + b * (axes[at + 7] as number)
    const fz = (axes[at + 2] as number) + a * (axes[at + 5] as number) + b * (axes[at + 8] as number)
    const x = place[3 * vertex] as number
    const y = place[3 * vertex + 1] as number
    const z = place[3 * vertex + 2] as number
    wrench[0] = fx
    wrench[1] = fy
    wrench[2] = fz
    wrench[3] = y * fz - z * fy
    wrench[4] = z * fx - x * fz
    wrench[5] = x * fy - y * fx
    return contact
  }
}

/** The pyramid edge, 0 … 7 in steps of 45° from u towards v, that lies furthest along (u, v). */
function edgeAlong(u: number, v: number): number {
  const au = Math.abs(u)
  const av = Math.abs(v)
  if (au * HALF_STEP >= av) return u >= 0 ? 0 : 4
  if (av * HALF_STEP >= au) return v >= 0 ? 2 : 6
  return u >= 0 ? (v >= 0 ? 1 : 7) : v >= 0 ? 3 : 5
}
