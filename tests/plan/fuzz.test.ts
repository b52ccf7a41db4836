import { expect, it } from 'vitest'
import { faultsOf, readPlan } from '../../src/plan/read'
import { writePlan } from '../../src/plan/write'
import { random } from '../../src/space/random'
import { mutateText, mutateValue } from './mutate'
import { smallPlan } from './random-plan'

/** Reads a file; what comes back must be a plan that is in order, or coded faults. */
function readSafely(text: string, seed: number): boolean {
  const read = readPlan(text)
  const why = `seed ${seed}`
  if (read.ok) {
    expect(faultsOf(read.plan), why).toEqual([])
    expect(readPlan(writePlan(read.plan)).ok, why).toBe(true)
    return true
  }
  expect(read.faults.length, why).toBeGreaterThan(0)
  expect(read.faults.length, why).toBeLessThanOrEqual(21)
  for (const { message } of read.faults) expect(message, why).not.toMatch(/\n/)
  return false
}

it('reads 1,000 files with a changed value: a plan in order or coded faults', () => {
  let read = 0
  for (let seed = 0; seed < 1_000; seed++) {
    const next = random(seed)
    const changed = mutateValue(next, SMALL[seed % SMALL.length])
    if (readSafely(JSON.stringify(changed), seed)) read += 1
  }
  // Some changes are harmless, most are not: both ways must have been gone.
  expect(read).toBeGreaterThan(20)
  expect(read).toBeLessThan(500)
}, 60_000)

it('reads 1,000 files with changed text: a plan in order or coded faults', () => {
  let read = 0
  for (let seed = 0; seed < 1_000; seed++) {
    const next = random(seed)
    const text = TEXTS[seed % TEXTS.length] as string
    if (readSafely(mutateText(next, mutateText(next, text)), seed)) read += 1
  }
  expect(read).toBeGreaterThan(5)
  expect(read).toBeLessThan(500)
}, 60_000)

const SMALL = [1, 2, 3, 4].map(smallPlan)
const TEXTS = SMALL.map((plan) => JSON.stringify(JSON.parse(writePlan(plan))))
