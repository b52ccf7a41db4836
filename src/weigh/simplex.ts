import { LP_FEASIBLE, LP_PERTURBATION, LP_PIVOT, LP_SLIP } from './constants'

/**
 * The columns of a linear programme that is too wide to write down: the solver asks for the best one
 * and for its numbers. Columns are numbered from 0.
 */
export interface Columns {
  /**
   * The column with the least cost − duals · column, or −1 where that is below nought for none. Where
   * `free` every cost is nought.
   */
  price(duals: Float64Array, free: boolean): number
  /** Writes a column to `out`, a number a row, and returns its cost. */
  fill(column: number, out: Float64Array): number
  cost(column: number): number
}

/** Pivots allowed for one objective, and those from which it counts as long: one in three million did. */
const MAX_PIVOTS = 1000
const LONG_RUN = 100
/** Pivots after which the inverse is made afresh. */
const REFRESH = 50

/**
 * A revised simplex for few rows (about a dozen) and many columns: least Σ cost · x with
 * Σ column · x = rhs and x ≥ 0. It keeps its last basis, so that the next objective over the same columns
 * and right-hand side starts from there. Values are moved off zero by a fixed tiny amount, which keeps it
 * from cycling; answers are for the right-hand side as it was given.
 *
 * Use: `begin`, write the right-hand side, `adopt` slack columns, `findFeasible`, `optimise` as often as
 * the costs change.
 */
export class Simplex {
  private rows = 0
  private columns!: Columns
  private rhs = new Float64Array(16)
  /** The right-hand side that the values, moved off zero, belong to. */
  private moved = new Float64Array(16)
  /** Basic column of each row; an artificial variable is −1 − its row. */
  private basis = new Int32Array(16)
  /** Sign of each row's artificial variable. */
  private sign = new Float64Array(16)
  private value = new Float64Array(16)
  private inverse = new Float64Array(256)
  private spare = new Float64Array(512)
  private duals = new Float64Array(16)
  /** The entering column, and inverse · it. */
  private column = new Float64Array(16)
  private alpha = new Float64Array(16)
  private pivots = 0
  private phaseOne = false

  /** Begins a problem of so many rows, all basic variables artificial. Returns the right-hand side to be written. */
  begin(columns: Columns, rows: number): Float64Array {
    if (rows > this.rhs.length) this.grow(2 * rows)
    this.columns = columns
    this.rows = rows
    this.pivots = 0
    this.inverse.fill(0, 0, rows * rows)
    for (let r = 0; r < rows; r++) {
      this.basis[r] = -1 - r
      this.sign[r] = 1
      this.inverse[r * rows + r] = 1
    }
    return this.rhs
  }

  /** Makes a column, 1 in `row` and 0 elsewhere, basic from the start. */
  adopt(column: number, row: number): void {
    this.basis[row] = column
  }

  /** Looks for any solution, all costs nought: false where there is none. */
  findFeasible(): boolean {
    const { rows, basis, value, inverse, sign, rhs, moved } = this
    for (let r = 0; r < rows; r++) {
      const b = rhs[r] as number
      if ((basis[r] as number) < 0 && b < 0) {
        sign[r] = -1
        inverse[r * rows + r] = -1
      }
      value[r] = Math.abs(b)
      moved[r] = b
      this.moveBy(r, perturbation(r))
    }
    this.phaseOne = true
    this.run()
    this.phaseOne = false
    let missing = 0
    for (let r = 0; r < rows; r++) {
      if ((basis[r] as number) >= 0) continue
      // By the right-hand side as given: between nearly parallel columns, moving it can take it out of reach.
      missing += Math.abs(rowTimes(inverse, r, rhs, rows))
      this.moveBy(r, -(value[r] as number))
    }
    return missing < LP_FEASIBLE
  }

  /** The least total cost. */
  optimise(): number {
    this.run()
    let sum = 0
    for (let r = 0; r < this.rows; r++) sum += (this.duals[r] as number) * (this.rhs[r] as number)
    return sum
  }

  /** Hands every basic column and its value to `take`. */
  solution(take: (column: number, value: number) => void): void {
    const { rows, basis, inverse, rhs } = this
    for (let r = 0; r < rows; r++) {
      if ((basis[r] as number) >= 0) take(basis[r] as number, rowTimes(inverse, r, rhs, rows))
    }
  }

  private grow(rows: number): void {
    this.rhs = new Float64Array(rows)
    this.moved = new Float64Array(rows)
    this.basis = new Int32Array(rows)
    this.sign = new Float64Array(rows)
    this.value = new Float64Array(rows)
    this.inverse = new Float64Array(rows * rows)
    this.spare = new Float64Array(2 * rows * rows)
    this.duals = new Float64Array(rows)
    this.column = new Float64Array(rows)
    this.alpha = new Float64Array(rows)
  }

  private run(): void {
    this.findDuals()
    for (let i = 1; i <= MAX_PIVOTS; i++) {
      const entering = this.columns.price(this.duals, this.phaseOne)
      if (entering < 0) return
      const reduced = this.aim(entering)
      // The columns' own sum and this one differ by rounding; where that decides, there is nothing to gain.
      if (reduced >= 0) return
      const leaving = this.leavingRow()
      if (leaving < 0) return
      this.exchange(entering, leaving, reduced)
      if (this.pivots > REFRESH) this.refresh()
      if (i % LONG_RUN === 0) this.moveOffZero(i)
    }
  }

  /** Steps of length nought can still meet again; after a long run the values are moved once more, and otherwise. */
  private moveOffZero(seed: number): void {
    for (let r = 0; r < this.rows; r++) {
      const stuck = (this.basis[r] as number) < 0 && !this.phaseOne
      if (!stuck && (this.value[r] as number) < LP_PERTURBATION) this.moveBy(r, perturbation(r + seed))
    }
  }

  /** duals = costs of the basis · inverse */
  private findDuals(): void {
    const { rows, basis, inverse, duals, columns, phaseOne } = this
    for (let k = 0; k < rows; k++) duals[k] = 0
    for (let r = 0; r < rows; r++) {
      const column = basis[r] as number
      const cost = column < 0 ? (phaseOne ? 1 : 0) : phaseOne ? 0 : columns.cost(column)
      if (cost === 0) continue
      for (let k = 0; k < rows; k++)
        duals[k] = (duals[k] as number) + cost * (inverse[r * rows + k] as number)
    }
  }

  /** Sets alpha = inverse · column and returns the column's reduced cost. */
  private aim(entering: number): number {
    const { rows, inverse, column, alpha, duals } = this
    const cost = this.columns.fill(entering, column)
    let reduced = this.phaseOne ? 0 : cost
    for (let k = 0; k < rows; k++) reduced -= (duals[k] as number) * (column[k] as number)
    for (let r = 0; r < rows; r++) alpha[r] = rowTimes(inverse, r, column, rows)
    return reduced
  }

  /**
   * The row whose variable reaches zero first, after Harris: of those that do within a slip, the one with the
   * largest pivot; −1 where none does. An artificial variable left over from phase one stays at zero, so it
   * leaves as soon as it would move.
   */
  private leavingRow(): number {
    const { rows, basis, value, alpha, phaseOne } = this
    let reach = Number.POSITIVE_INFINITY
    for (let r = 0; r < rows; r++) {
      const a = alpha[r] as number
      if ((basis[r] as number) < 0 && !phaseOne) {
        if (Math.abs(a) > LP_PIVOT) reach = Math.min(reach, 0)
      } else if (a > LP_PIVOT) reach = Math.min(reach, ((value[r] as number) + LP_SLIP) / a)
    }
    let best = -1
    let largest = LP_PIVOT
    for (let r = 0; r < rows; r++) {
      const a = alpha[r] as number
      const stuck = (basis[r] as number) < 0 && !phaseOne
      const pivot = stuck ? Math.abs(a) : a
      if (pivot > largest && (stuck || (value[r] as number) <= reach * a)) {
        largest = pivot
        best = r
      }
    }
    return best
  }

  private exchange(entering: number, leaving: number, reduced: number): void {
    const { rows, basis, value, inverse, alpha, duals } = this
    const pivot = alpha[leaving] as number
    const at = leaving * rows
    // A value may have slipped below zero, and one stuck at zero may have a negative pivot.
    const step = pivot > 0 ? Math.max(0, (value[leaving] as number) / pivot) : 0
    for (let k = 0; k < rows; k++) {
      const x = (inverse[at + k] as number) / pivot
      inverse[at + k] = x
      duals[k] = (duals[k] as number) + reduced * x
    }
    for (let r = 0; r < rows; r++) {
      const a = alpha[r] as number
      if (r === leaving || a === 0) continue
      value[r] = (value[r] as number) - step * a
      const to = r * rows
      for (let k = 0; k < rows; k++)
        inverse[to + k] = (inverse[to + k] as number) - a * (inverse[at + k] as number)
    }
    value[leaving] = step
    basis[leaving] = entering
    this.pivots++
  }

  /** Makes inverse, values and duals afresh from the basis, by Gauss–Jordan elimination with row exchange. */
  private refresh(): void {
    const { rows, inverse, spare, column, moved, value } = this
    const wide = 2 * rows
    for (let c = 0; c < rows; c++) {
      this.fillBasic(c)
      for (let r = 0; r < rows; r++) {
        spare[r * wide + c] = column[r] as number
        spare[r * wide + rows + c] = r === c ? 1 : 0
      }
    }
    for (let c = 0; c < rows; c++) eliminate(spare, c, rows, wide)
    for (let r = 0; r < rows; r++) {
      for (let k = 0; k < rows; k++) inverse[r * rows + k] = spare[r * wide + rows + k] as number
      value[r] = rowTimes(inverse, r, moved, rows)
    }
    this.findDuals()
    this.pivots = 0
  }

  /** Moves the value of the basic variable of row r, and the right-hand side with it. */
  private moveBy(r: number, by: number): void {
    const { moved, column, value, rows } = this
    this.fillBasic(r)
    for (let k = 0; k < rows; k++) moved[k] = (moved[k] as number) + by * (column[k] as number)
    value[r] = (value[r] as number) + by
  }

  /** Writes the column of the basic variable of row r to `column`. */
  private fillBasic(r: number): void {
    const { rows, basis, column, sign } = this
    const id = basis[r] as number
    if (id >= 0) this.columns.fill(id, column)
    else {
      column.fill(0, 0, rows)
      column[-1 - id] = sign[-1 - id] as number
    }
  }
}

/** Between one and two perturbations, different for each seed, the same every time. */
const perturbation = (seed: number): number => LP_PERTURBATION * (1 + ((seed * 0.6180339887) % 1))

/** Row r of a square matrix times x. */
function rowTimes(matrix: Float64Array, r: number, x: Float64Array, rows: number): number {
  let sum = 0
  const at = r * rows
  for (let k = 0; k < rows; k++) sum += (matrix[at + k] as number) * (x[k] as number)
  return sum
}

/** Makes column c of a matrix a unit column by row operations, its largest entry below the diagonal as pivot. */
function eliminate(m: Float64Array, c: number, rows: number, wide: number): void {
  let best = c
  for (let r = c + 1; r < rows; r++) {
    if (Math.abs(m[r * wide + c] as number) > Math.abs(m[best * wide + c] as number)) best = r
  }
  const pivot = m[best * wide + c] as number
  for (let k = 0; k < wide; k++) {
    const x = (m[best * wide + k] as number) / pivot
    m[best * wide + k] = m[c * wide + k] as number
    m[c * wide + k] = x
  }
  for (let r = 0; r < rows; r++) {
    const a = m[r * wide + c] as number
    if (r === c || a === 0) continue
    for (let k = c; k < wide; k++)
      m[r * wide + k] = (m[r * wide + k] as number) - a * (m[c * wide + k] as number)
  }
}
