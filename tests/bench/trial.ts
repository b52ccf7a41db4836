import { random } from '../../src/space/random'
import { restingShares } from '../../src/trial/rest'
import { anyLifts, tried } from '../trial/poses'
import type { Case } from './measure'

/** Goals are the project's own: a trial fits into one slice of the calculation thread. */
export function trialCases(): Case[] {
  const lifts = [false, true].flatMap((uneven) =>
    anyLifts(random(1), uneven, 200).map(({ problem }) => problem),
  )
  const tips = lifts.filter((problem) => tried(problem).outcome === 'tips')
  return [
    {
      name: 'lift trial to 15°',
      input: 'random poses that tip, level and uneven, 7 bodies',
      goal: { median: 4, p99: 8 },
      run: (turn) => void tried(tips[turn % tips.length] as (typeof tips)[number]),
    },
    {
      name: 'lift trial',
      input: 'random poses, level and uneven, 7 bodies',
      goal: { median: 4, p99: 8 },
      run: (turn) => void tried(lifts[turn % lifts.length] as (typeof lifts)[number]),
    },
    {
      name: 'resting loads of two contacts',
      input: 'a body on two points at one height',
      goal: { median: 4, p99: 8 },
      run: () =>
        void restingShares([
          [-0.07, -0.4],
          [0.05, -0.4],
        ]),
    },
  ]
}
