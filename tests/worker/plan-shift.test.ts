import { expect, test } from 'vitest'
import { planShiftOf } from '../../src/worker/plan-shift'
import { stancePlan } from '../support/plans'

test('a shift is planned with what the plan says: progress in pieces, last the answer', {
  timeout: 60_000,
}, () => {
  const plan = { ...stancePlan('tall-kneel'), firstFrame: 1001 }
  const pieces = [...planShiftOf({ plan, wish: { frame: 0, mover: 'legL', goal: { kind: 'heel-sit' } } })]
  const answer = pieces.at(-1)
  expect(pieces.slice(0, -1).every((piece) => 'trying' in piece && piece.done >= 0 && piece.done <= 1)).toBe(
    true,
  )
  if (answer === undefined || !('found' in answer) || !answer.found) throw new Error('a way should be found')
  expect(answer.options[0]?.take.mover.limb).toBe('legL')
  expect(answer.options[0]?.frames).toBe((answer.options[0]?.take.length ?? 0) - 1)
})

test('the plan’s own gravity counts: on the moon the same shift takes longer', { timeout: 60_000 }, () => {
  const plan = stancePlan('tall-kneel')
  const wish = { frame: 0, mover: 'legL', goal: { kind: 'heel-sit' } } as const
  const frames = (gravity: number) => {
    const answer = [...planShiftOf({ plan: { ...plan, gravity }, wish })].at(-1)
    return answer && 'found' in answer && answer.found ? answer.options[0]?.frames : undefined
  }
  expect(frames(1.62)).toBeGreaterThan(frames(9.81) ?? Number.POSITIVE_INFINITY)
})

test('nothing asked, nothing worked out', () => {
  expect([...planShiftOf(null)]).toEqual([])
})
