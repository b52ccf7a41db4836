import { expect, test } from 'vitest'
import { secondOpinionsAt, tryLiftAt } from '../../src/worker/trials'
import { stancePlan } from '../support/plans'

test('a lift is tried at a frame of the plan, and the answer is plain data', () => {
  const [trial, ...more] = tryLiftAt({ plan: stancePlan(), frame: 0 })
  expect(more).toEqual([])
  expect(trial).toMatchObject({ outcome: 'tips', edge: { axis: { level: true } } })
  expect(structuredClone(trial)).toEqual(trial)
})

test('the second opinions on a frame come in one piece', () => {
  const [opinions, ...more] = secondOpinionsAt({ plan: stancePlan(), frame: 0 })
  expect(more).toEqual([])
  expect(opinions?.map(({ view }) => view)).toEqual(['front', 'side'])
  for (const { difference } of opinions ?? []) expect(difference).toBeLessThan(0.001)
})
