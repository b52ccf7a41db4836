import { expect, it } from 'vitest'
import { setControls } from '../../src/plan/edit/keys'
import { readPlan } from '../../src/plan/read'
import { writePlan } from '../../src/plan/write'
import { random } from '../../src/space/random'
import { randomPlan } from './random-plan'

it('gives back 300 random plans exactly', () => {
  for (let seed = 0; seed < 300; seed++) {
    const plan = randomPlan(random(seed))
    expect(readPlan(writePlan(plan)), `seed ${seed}`).toEqual({ ok: true, plan })
  }
})

it('rounds to 1e-9 once: the second round trip changes nothing', () => {
  for (let seed = 0; seed < 300; seed++) {
    const next = random(seed)
    const plan = randomPlan(next)
    const value = (next() - 0.5) * 10 ** Math.floor(next() * 4)
    const rough = setControls(plan, 'take-1', 0, { 'pelvis.x': value, 'pelvis.turn': value / 30 })
    const once = writePlan(rough)
    const read = readPlan(once)
    if (!read.ok) throw new Error(`seed ${seed}: ${read.faults[0]?.message}`)
    expect(writePlan(read.plan), `seed ${seed}`).toBe(once)
    const stored = read.plan.takes[0]?.channels['pelvis.x'][0]?.value as number
    expect(Math.abs(stored - value), `seed ${seed}`).toBeLessThanOrEqual(0.5000001e-9)
  }
})

it('shows one changed key as one changed line', () => {
  const plan = randomPlan(random(5))
  const before = writePlan(plan).split('\n')
  const after = writePlan(setControls(plan, 'take-1', 0, { 'head.tilt': 0.25 })).split('\n')
  expect(after).toHaveLength(before.length)
  const changed = after.filter((line, i) => line !== before[i])
  expect(changed).toHaveLength(1)
  expect(changed[0]).toMatch(/^ +\{ "frame": 0, "value": 0\.25, "in": [\d.]+, "out": [\d.]+ \},?$/)
})

it('leaves out what the format does not know, and −0', () => {
  const plan = randomPlan(random(6))
  const extra = { ...plan, screen: 'dark', scene: { ...plan.scene, root: [-0, 0, 0] as const } }
  expect(writePlan(extra)).toBe(writePlan(plan))
})

it('throws on a number that no file can hold', () => {
  const plan = randomPlan(random(6))
  for (const gravity of [Number.NaN, Number.POSITIVE_INFINITY])
    expect(() => writePlan({ ...plan, gravity })).toThrow(RangeError)
})
