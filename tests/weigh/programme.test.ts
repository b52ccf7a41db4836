import { describe, expect, it } from 'vitest'
import { random } from '../../src/space/random'
import { ContactProgramme } from '../../src/weigh/programme'
import { split } from '../../src/weigh/split'
import { ContactSystem } from '../../src/weigh/system'
import type { Stance } from './by-hand'
import { anyStance, kneeling } from './stances'

const system = new ContactSystem()

/** A stance weighed, up to what its ranges begin with. */
function prepared({ contacts, body }: Stance) {
  system.load(contacts, body)
  split(system)
  system.sumUp()
  return { active: new Uint8Array(contacts.length).fill(1), wrench: system.borne, axis: null, limits: true }
}

/** Stances of one source that once went wrong, by their number in it. */
function* failures(numbers: readonly number[]): Generator<[Stance, string]> {
  const next = random(1)
  for (let i = 0; i <= Math.max(...numbers); i++) {
    const stance = i % 5 === 4 ? kneeling(next) : anyStance(next)
    if (numbers.includes(i)) yield [stance, `stance ${i}`]
  }
}

describe('programmes over contacts', { timeout: 60_000 }, () => {
  it('find forces for every split, as those between nearly parallel cones', () => {
    // There the tiny move off zero used to put the right-hand side out of reach.
    const programme = new ContactProgramme()
    for (const [stance, name] of failures([9030, 22780, 24167, 28818, 36557]))
      expect(programme.begin(system, prepared(stance)), name).toBe(true)
  })

  it('end, and with the same answer from any start', () => {
    // The first went round on a pivot of 1e-9, the second in steps of length nought.
    const warm = new ContactProgramme()
    const cold = new ContactProgramme()
    for (const [stance, name] of failures([16963, 21516])) {
      const task = prepared(stance)
      for (const axis of [null, Float64Array.of(0, 1, 0)]) {
        // About one axis only, what the contacts bear, so that they can.
        const asked = { ...task, axis }
        warm.begin(system, asked)
        for (let k = 0; k < 16; k++) {
          const cost = [Math.cos(k), 0, Math.sin(k)]
          warm.columns.momentCost.set(cost)
          cold.begin(system, asked)
          cold.columns.momentCost.set(cost)
          expect(warm.optimise(), `${name}, ${k}`).toBeCloseTo(cold.optimise(), 5)
        }
      }
    }
  })

  it('keep limits that only a later objective runs over', () => {
    const stance = kneeling()
    const limited = { ...stance, contacts: stance.contacts.map((c) => ({ ...c, limit: 0.45 })) }
    const programme = new ContactProgramme()
    expect(programme.begin(system, prepared(limited))).toBe(true)
    const most = limited.contacts.map((_, c) => {
      programme.columns.loadCost.fill(0)
      programme.columns.loadCost[c] = -1
      return -programme.optimise()
    })
    expect(Math.max(...most)).toBeCloseTo(0.45, 6)
    // And the first one again, with all limits in the programme.
    programme.columns.loadCost.fill(0)
    programme.columns.loadCost[0] = -1
    expect(-programme.optimise()).toBeCloseTo(most[0] ?? 0, 6)
  })
})
