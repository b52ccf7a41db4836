/**
 * Something tried with many seeds. The long form (`npm run soak`) also looks at the time each case takes; the short
 * one, a fiftieth of it, is a test and never does.
 */
export interface Soak {
  readonly name: string
  /** How many seeds the long form tries. */
  readonly long: number
  /** What one case may take, ms; only the long form looks. */
  readonly most: number
  /** Seeds that failed once, each with what was wrong then. */
  readonly regressions: readonly (readonly [seed: number, was: string])[]
  /** Makes what a case takes beforehand where that takes longer than the case itself; its time does not count. */
  prepare?(seed: number): void
  /**
   * Tries the case of a seed; throws where anything is wrong with what comes back.
   * @returns what else looks at the answer, where that takes so long that its time should not count
   */
  attempt(seed: number): (() => void) | undefined
}

/** Throws unless it holds. */
export function must(holds: boolean, what: () => string): asserts holds {
  if (!holds) throw new Error(what())
}

/** Throws where a number anywhere in a value is NaN, and where it is not finite unless `open`. */
export function mustBeNumbers(value: unknown, path: string, open = false): void {
  if (typeof value === 'number') {
    must(!Number.isNaN(value) && (open || Number.isFinite(value)), () => `${path} is ${value}`)
  } else if (ArrayBuffer.isView(value)) {
    for (const one of value as unknown as Iterable<number>) mustBeNumbers(one, path, open)
  } else if (typeof value === 'object' && value !== null) {
    for (const [name, part] of Object.entries(value)) mustBeNumbers(part, `${path}.${name}`, open)
  }
}
