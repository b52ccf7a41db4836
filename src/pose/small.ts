/**
 * Linear algebra for the four unknowns of a pelvis, on flat arrays row by row, without allocation.
 */

/** How many unknowns: x, y, z and list. */
export const N = 4

/**
 * Orthonormal columns square to `count` given rows (0 … 3 of N numbers), by Householder reflections.
 * Writes N × (N − rank) numbers to `basis`, row by row with N columns in store, and returns how many
 * columns there are. Rows that depend on each other count once.
 */
export function nullspace(rows: Float64Array, count: number, basis: Float64Array): number {
  for (let i = 0; i < count * N; i++) a[i] = rows[i] as number
  let rank = 0
  for (let r = 0; r < count; r++) {
    const at = r * N
    let size = 0
    let whole = 0
    for (let j = 0; j < N; j++) {
      const v = a[at + j] as number
      whole += v * v
      if (j >= rank) size += v * v
    }
    if (size <= 1e-18 * whole || whole === 0) continue
    // The reflection that turns the rest of this row into a multiple of the axis `rank`.
    const v = rank * N
    for (let j = 0; j < N; j++) reflectors[v + j] = j < rank ? 0 : (a[at + j] as number)
    const head = reflectors[v + rank] as number
    reflectors[v + rank] = head + (head < 0 ? -1 : 1) * Math.sqrt(size)
    let square = 0
    for (let j = rank; j < N; j++) square += (reflectors[v + j] as number) ** 2
    scales[rank] = 2 / square
    for (let s = r; s < count; s++) reflect(a, s * N, rank)
    rank++
  }
  const columns = N - rank
  for (let c = 0; c < columns; c++) {
    for (let j = 0; j < N; j++) column[j] = j === rank + c ? 1 : 0
    for (let k = rank - 1; k >= 0; k--) reflect(column, 0, k)
    for (let j = 0; j < N; j++) basis[j * N + c] = column[j] as number
  }
  return columns
}

/**
 * Solves m x = b in place for a symmetric positive definite m of n rows (N columns in store) by
 * Cholesky's method; false, with b spoilt, where a pivot is not above `least`.
 */
export function solvePositive(m: Float64Array, b: Float64Array, n: number, least: number): boolean {
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = m[i * N + j] as number
      for (let k = 0; k < j; k++) sum -= (m[i * N + k] as number) * (m[j * N + k] as number)
      if (i === j) {
        if (!(sum > least)) return false
        m[i * N + i] = Math.sqrt(sum)
      } else m[i * N + j] = sum / (m[j * N + j] as number)
    }
  for (let i = 0; i < n; i++) {
    let sum = b[i] as number
    for (let k = 0; k < i; k++) sum -= (m[i * N + k] as number) * (b[k] as number)
    b[i] = sum / (m[i * N + i] as number)
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i] as number
    for (let k = i + 1; k < n; k++) sum -= (m[k * N + i] as number) * (b[k] as number)
    b[i] = sum / (m[i * N + i] as number)
  }
  return true
}

/**
 * Multipliers x of `count` rows R (0 … 2) with R Rᵀ x = b, written over b; false where the rows depend
 * on each other.
 */
export function solveGram(rows: Float64Array, b: Float64Array, count: number): boolean {
  if (count === 0) return true
  const a00 = rowDot(rows, 0, 0)
  const b0 = b[0] as number
  if (count === 1) {
    if (!(a00 > 0)) return false
    b[0] = b0 / a00
    return true
  }
  const [a01, a11, b1] = [rowDot(rows, 0, 1), rowDot(rows, 1, 1), b[1] as number]
  const det = a00 * a11 - a01 * a01
  if (!(det > 1e-14 * a00 * a11)) return false
  b[0] = (b0 * a11 - b1 * a01) / det
  b[1] = (b1 * a00 - b0 * a01) / det
  return true
}

const a = new Float64Array(3 * N)
const reflectors = new Float64Array(N * N)
const scales = new Float64Array(N)
const column = new Float64Array(N)

/** x − s (v·x) v for the N numbers of `x` from `at` on, by the reflector number `r`. */
function reflect(x: Float64Array, at: number, r: number): void {
  const v = r * N
  let k = 0
  for (let j = 0; j < N; j++) k += (x[at + j] as number) * (reflectors[v + j] as number)
  k *= scales[r] as number
  for (let j = 0; j < N; j++) x[at + j] = (x[at + j] as number) - k * (reflectors[v + j] as number)
}

function rowDot(rows: Float64Array, i: number, j: number): number {
  let sum = 0
  for (let k = 0; k < N; k++) sum += (rows[i * N + k] as number) * (rows[j * N + k] as number)
  return sum
}
