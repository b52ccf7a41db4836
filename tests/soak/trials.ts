import { random } from '../../src/space/random'
import { anyLifts, tried } from '../trial/poses'
import { must, mustBeNumbers, type Soak } from './soak'

/** Any lift of any pose, on level and uneven ground: it comes out, in order, and the same again. */
export const trials: Soak = {
  name: 'trials',
  long: 10_000,
  most: 2_000,
  regressions: [],
  attempt(seed) {
    const [lift] = anyLifts(random(seed), seed % 2 === 1, 1)
    must(lift !== undefined, () => 'there is no lift')
    const trial = tried(lift.problem)
    mustBeNumbers(trial, 'trial')
    const turn = trial.outcome === 'tips' ? trial : 'loose' in trial ? trial.loose : null
    if (turn !== null) {
      const { seconds, frames, angles } = turn
      must(seconds === null || seconds > 0, () => `past 5° after ${seconds} s`)
      must((seconds === null) === (frames === null), () => `${seconds} s are ${frames} frames`)
      must(angles.length > 1 && angles[0] === 0, () => `${angles.length} angles from ${angles[0]}`)
      must(
        angles.every((angle) => Math.abs(angle) <= Math.PI),
        () => `turned past half a turn: ${Math.max(...angles)}`,
      )
    }
    if (seed % 10 === 0)
      must(JSON.stringify(tried(lift.problem)) === JSON.stringify(trial), () => 'tried again it differs')
    return undefined
  },
}
