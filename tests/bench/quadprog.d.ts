/** All arrays count from 1: entry 0 is left out. */
declare module 'quadprog' {
  /**
   * Least ½ xᵀ D x − dᵀ x with Aᵀ x ≥ b, the first `meq` of them equalities.
   * `message` is empty where there is an answer; `value[1]` is then the least.
   */
  export function solveQP(
    D: number[][],
    d: number[],
    A: number[][],
    b: number[],
    meq: number,
  ): { solution: number[]; value: number[]; message: string }
}
