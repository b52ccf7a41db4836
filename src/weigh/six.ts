/** Vectors of six numbers and a symmetric 6 × 6 matrix, row by row, for the split. */

/** x with A x = b for a positive definite A given by its lower triangle, which is overwritten (Cholesky). */
export function solveDefinite6(a: Float64Array, b: Float64Array, x: Float64Array): void {
  for (let j = 0; j < 6; j++) {
    let d = a[7 * j] as number
    for (let k = 0; k < j; k++) d -= (a[6 * j + k] as number) * (a[6 * j + k] as number)
    // Rounding can make a tiny pivot negative; the step is then long, and the line search shortens it.
    const root = Math.sqrt(Math.max(d, Number.MIN_VALUE))
    a[7 * j] = root
    for (let i = j + 1; i < 6; i++) {
      let s = a[6 * i + j] as number
      for (let k = 0; k < j; k++) s -= (a[6 * i + k] as number) * (a[6 * j + k] as number)
      a[6 * i + j] = s / root
    }
  }
  for (let i = 0; i < 6; i++) {
    let s = b[i] as number
    for (let k = 0; k < i; k++) s -= (a[6 * i + k] as number) * (x[k] as number)
    x[i] = s / (a[7 * i] as number)
  }
  for (let i = 5; i >= 0; i--) {
    let s = x[i] as number
    for (let k = i + 1; k < 6; k++) s -= (a[6 * k + i] as number) * (x[k] as number)
    x[i] = s / (a[7 * i] as number)
  }
}

export function dot6(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < 6; i++) sum += (a[i] as number) * (b[i] as number)
  return sum
}

export const norm6 = (a: Float64Array): number => Math.sqrt(dot6(a, a))
