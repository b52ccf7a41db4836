import { describe, expect, it } from 'vitest'
import { type Columns, Simplex } from '../../src/weigh/simplex'

/** A programme written out: least costs · x with matrix · x = rhs, x ≥ 0. */
class Written implements Columns {
  constructor(
    private readonly matrix: readonly (readonly number[])[],
    public costs: readonly number[],
  ) {}

  price(duals: Float64Array, free: boolean): number {
    const reduced = this.costs.map((cost, c) =>
      this.matrix.reduce((sum, row, r) => sum - (duals[r] as number) * (row[c] as number), free ? 0 : cost),
    )
    const least = Math.min(...reduced)
    return least < -1e-9 ? reduced.indexOf(least) : -1
  }

  fill(column: number, out: Float64Array): number {
    this.matrix.forEach((row, r) => {
      out[r] = row[column] as number
    })
    return this.cost(column)
  }

  cost(column: number): number {
    return this.costs[column] as number
  }
}

function begin(matrix: readonly (readonly number[])[], costs: readonly number[], rhs: readonly number[]) {
  const columns = new Written(matrix, costs)
  const simplex = new Simplex()
  simplex.begin(columns, matrix.length).set(rhs)
  return { columns, simplex, feasible: simplex.findFeasible() }
}

function solution(simplex: Simplex, count: number): number[] {
  const x = Array<number>(count).fill(0)
  simplex.solution((column, value) => {
    x[column] = value
  })
  return x
}

describe('the simplex', () => {
  it('solves a textbook programme', () => {
    // Most 3x + 5y with x ≤ 4, 2y ≤ 12, 3x + 2y ≤ 18 is 36 at (2, 6): Hillier & Lieberman's first example, from memory.
    const matrix = [
      [1, 0, 1, 0, 0],
      [0, 2, 0, 1, 0],
      [3, 2, 0, 0, 1],
    ]
    const { simplex, columns, feasible } = begin(matrix, [-3, -5, 0, 0, 0], [4, 12, 18])
    expect(feasible).toBe(true)
    expect(simplex.optimise()).toBeCloseTo(-36, 9)
    const x = solution(simplex, 5)
    expect(x[0]).toBeCloseTo(2, 9)
    expect(x[1]).toBeCloseTo(6, 9)
    // Another objective from there.
    columns.costs = [-3, 0, 0, 0, 0]
    expect(simplex.optimise()).toBeCloseTo(-12, 9)
  })

  it('takes negative right-hand sides', () => {
    const { simplex, feasible } = begin([[-1, -1]], [1, 2], [-3])
    expect(feasible).toBe(true)
    expect(simplex.optimise()).toBeCloseTo(3, 9)
  })

  it('says where there is no solution', () => {
    expect(begin([[1, 1]], [1, 1], [-1]).feasible).toBe(false)
    expect(
      begin(
        [
          [1, 0],
          [1, 0],
        ],
        [0, 0],
        [1, 2],
      ).feasible,
    ).toBe(false)
  })

  it('is not misled by rows that say the same, or that say nothing', () => {
    const matrix = [
      [1, 1, 1],
      [2, 2, 2],
      [0, 0, 0],
      [1, 0, -1],
    ]
    const { simplex, feasible } = begin(matrix, [1, 5, 2], [1, 2, 0, 0])
    expect(feasible).toBe(true)
    // x = z, 2x + y = 1: cost 3x + 5 (1 − 2x) is least at x = ½.
    expect(simplex.optimise()).toBeCloseTo(1.5, 8)
  })

  it('doesn’t run in circles where every step has length nought', () => {
    // Beale's example (1955, from memory), on which the plain rule cycles; its least is −1/20.
    const matrix = [
      [1 / 4, -60, -1 / 25, 9, 1, 0, 0],
      [1 / 2, -90, -1 / 50, 3, 0, 1, 0],
      [0, 0, 1, 0, 0, 0, 1],
    ]
    const { simplex } = begin(matrix, [-3 / 4, 150, -1 / 50, 6, 0, 0, 0], [0, 0, 1])
    expect(simplex.optimise()).toBeCloseTo(-1 / 20, 7)
  })

  it('stays exact over hundreds of objectives', () => {
    const angles = Array.from({ length: 400 }, (_, i) => i * 2.399963)
    const matrix = [Array.from({ length: 60 }, () => 1), Array.from({ length: 60 }, (_, k) => Math.sin(k))]
    const { simplex, columns } = begin(matrix, Array(60).fill(0), [1, 0.2])
    for (const angle of angles) {
      columns.costs = Array.from({ length: 60 }, (_, k) => Math.cos(angle + k * k))
      const warm = simplex.optimise()
      const cold = begin(matrix, columns.costs, [1, 0.2])
      expect(warm).toBeCloseTo(cold.simplex.optimise(), 9)
    }
  })
})
