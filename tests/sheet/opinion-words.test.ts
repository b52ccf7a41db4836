import { expect, test } from 'vitest'
import { makeBody } from '../../src/body/model'
import type { Take } from '../../src/document/plan'
import { makeMotion } from '../../src/pose/between'
import { opinionWords } from '../../src/sheet/opinion-words'
import { secondOpinionsAt } from '../../src/worker/trials'
import { stancePlan } from '../support/plans'

const plan = stancePlan()
const pose = makeMotion(makeBody(plan.body), plan.takes[0] as Take).poseAt(0)
const [opinions = []] = secondOpinionsAt({ plan, frame: 0 })

test('both views of a tall kneel agree with the split, and both places are named', () => {
  const { summary, views } = opinionWords(opinions, pose)
  const [, bound] =
    summary.match(
      /^Loads checked by a physics engine in the front and side views: within ([\d.]+)\u00a0%\.$/,
    ) ?? []
  const worst = 100 * Math.max(...opinions.map(({ difference }) => difference))
  expect(Number(bound)).toBeGreaterThanOrEqual(worst)
  expect(Number(bound)).toBeLessThanOrEqual(0.1)
  expect(views.flatMap(({ rows }) => rows.map(({ pads }) => pads))).toEqual([
    'knee R, toes R',
    'knee L, toes L',
    'toes L, toes R',
    'knee L, knee R',
  ])
})

test('a difference is rounded up, so that the loads are within it', () => {
  const off = (difference: number) =>
    opinionWords([{ ...(opinions[0] as (typeof opinions)[0]), difference }], pose).summary
  expect(off(0.00041)).toContain('within 0.05\u00a0%')
  expect(off(0.0005)).toContain('within 0.05\u00a0%')
  expect(off(0.021)).toContain('within 3\u00a0%')
  expect(off(0)).toContain('in the front view: within 0.01\u00a0%')
})
