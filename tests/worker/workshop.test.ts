import { expect, test } from 'vitest'
import type { Answer, TakePiece, TakeProblem } from '../../src/worker/protocol'
import { outwards, weighTake } from '../../src/worker/weigh-take'
import { openWorkshop, type Thread, type Workers } from '../../src/worker/workshop'
import { stancePlan } from '../support/plans'

/** A thread whose clock goes on by `step` ms at every look, and whose pauses end when the test says so. */
function slowThread(step: number) {
  const answers: Answer[] = []
  const waiting: (() => void)[] = []
  let time = 0
  const thread: Thread = {
    now: () => {
      time += step
      return time
    },
    pause: (then) => void waiting.push(then),
    answer: (answer) => void answers.push(answer),
  }
  const turn = () => {
    const then = waiting.shift()
    then?.()
    return then !== undefined
  }
  return { thread, answers, turn }
}

/** No trials. */
const never = () => Promise.reject(new Error('not here'))
const workers: Workers = {
  'weigh take': weighTake,
  'weigh motion': never,
  'least frames': never,
  'read notes': never,
  'do remedy': never,
  'reads as': never,
  'plan shift': never,
  'try lift': never,
  'second opinion': never,
}

const problem = (): TakeProblem => ({ plan: stancePlan(), near: 20 })

test('a take comes in pieces that together are all its frames, the nearest first', () => {
  const { thread, answers, turn } = slowThread(3)
  openWorkshop(workers, thread)({ id: 1, job: 'weigh take', input: problem() })
  while (turn());
  expect(answers.length).toBeGreaterThan(5)
  const pieces = answers.flatMap((answer) => ('pieces' in answer ? (answer.pieces as TakePiece[]) : []))
  const frames = pieces.flatMap((piece) => ('frame' in piece ? [piece] : []))
  expect(frames.map(({ frame }) => frame)).toEqual([...outwards(20, 48)])
  expect(answers.map((answer) => 'done' in answer && answer.done).indexOf(true)).toBe(answers.length - 1)
  for (const { weighing } of frames)
    expect(weighing.limbs.reduce((sum, { vertical }) => sum + vertical, 0)).toBeCloseTo(1, 6)
  const last = pieces.at(-1)
  expect(last && 'sheet' in last && last.sheet.rows.length).toBe(48)
  expect(structuredClone(pieces)).toEqual(pieces)
})

test('the newest request wins: of the one before nothing more is heard', () => {
  const { thread, answers, turn } = slowThread(3)
  const ask = openWorkshop(workers, thread)
  ask({ id: 1, job: 'weigh take', input: problem() })
  turn()
  ask({ id: 2, job: 'weigh take', input: problem() })
  while (turn());
  const ids = answers.map(({ id }) => id)
  expect(ids[0]).toBe(1)
  expect(ids.slice(1).every((id) => id === 2)).toBe(true)
  expect(ids.length).toBeGreaterThan(5)
})

test('a job that throws is answered with the reason, and the next one works', () => {
  const { thread, answers, turn } = slowThread(1)
  const ask = openWorkshop(workers, thread)
  ask({ id: 1, job: 'weigh take', input: { ...problem(), plan: { ...stancePlan(), gravity: Number.NaN } } })
  while (turn());
  expect(answers).toEqual([{ id: 1, failed: expect.stringMatching(/./) }])
  ask({ id: 2, job: 'weigh take', input: problem() })
  while (turn());
  expect(answers.at(-1)).toMatchObject({ id: 2, done: true })
})

test('a job whose code is loaded first begins when it is there, unless a newer one came', async () => {
  const { thread, answers, turn } = slowThread(1)
  const loaded: (() => void)[] = []
  const ask = openWorkshop(
    {
      ...workers,
      'try lift': ({ frame }) =>
        new Promise((resolve) => {
          loaded.push(() => resolve([{ outcome: 'falls', frame } as never][Symbol.iterator]()))
        }),
    },
    thread,
  )
  const input = (frame: number) => ({ plan: stancePlan(), frame })
  ask({ id: 1, job: 'try lift', input: input(1) })
  ask({ id: 2, job: 'try lift', input: input(2) })
  expect(turn()).toBe(false)
  for (const resolve of loaded) resolve()
  await Promise.resolve()
  while (turn());
  expect(answers).toEqual([{ id: 2, pieces: [{ outcome: 'falls', frame: 2 }], done: true }])
})

test('a job whose code can’t be loaded is answered with the reason', async () => {
  const { thread, answers } = slowThread(1)
  openWorkshop(workers, thread)({ id: 1, job: 'second opinion', input: { plan: stancePlan(), frame: 0 } })
  await Promise.resolve()
  await Promise.resolve()
  expect(answers).toEqual([{ id: 1, failed: 'not here' }])
})

test.each([
  [0, 3, [0, 1, 2]],
  [1, 4, [1, 2, 0, 3]],
  [99, 3, [2, 1, 0]],
  [0, 1, [0]],
])('outwards from %i in %i', (near, length, frames) => {
  expect([...outwards(near, length)]).toEqual(frames)
})
