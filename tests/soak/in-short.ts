import { describe, it } from 'vitest'
import type { Soak } from './soak'

/** The long form's seeds, less by this much. */
const SHARE = 50

/** The short form of a soak as tests. */
export function inShort(soak: Soak): void {
  const seeds = soak.long / SHARE
  describe(soak.name, () => {
    it(`${seeds} seeds of ${soak.long}`, () => {
      for (let seed = 0; seed < seeds; seed++) attempt(soak, seed)
    })
    for (const [seed, was] of soak.regressions)
      it(`seed ${seed}, which once was wrong: ${was}`, () => attempt(soak, seed))
  })
}

function attempt(soak: Soak, seed: number): void {
  try {
    soak.attempt(seed)?.()
  } catch (error) {
    throw new Error(`${soak.name}, seed ${seed}`, { cause: error })
  }
}
