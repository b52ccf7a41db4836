import loadHighs from 'highs'
import { beforeAll, describe, expect, it } from 'vitest'
import { between, random } from '../../src/space/random'
import { RegionFinder } from '../../src/weigh/region'
import { split } from '../../src/weigh/split'
import { ContactSystem } from '../../src/weigh/system'
import { weigh } from '../../src/weigh/weigh'
import { neededBy, type Stance } from '../weigh/by-hand'
import { anyStance, kneeling } from '../weigh/stances'
import { generators, limitRows, type Row, rangeRows } from './programmes'

/*
 * Ranges and regions against HiGHS, an outside solver of linear programmes (test only).
 */

type Highs = Awaited<ReturnType<typeof loadHighs>>
let highs: Highs
beforeAll(async () => {
  highs = await loadHighs()
})

/** The best of objective · x with rows, x ≥ 0 but for the last `free` ones; NaN where there is none. */
function solve(
  sense: 'Minimize' | 'Maximize',
  objective: readonly number[],
  rows: readonly Row[],
  free = 0,
): number {
  const sum = (terms: readonly number[]) =>
    terms
      .map((a, i) => (a === 0 ? '' : ` ${a < 0 ? '-' : '+'} ${Math.abs(a)} x${i}`))
      .filter(Boolean)
      // The format allows no longer lines than 560 characters.
      .join('\n') || ' 0 x0'
  const frees = Array.from({ length: free }, (_, i) => ` x${objective.length - 1 - i} free`).join('\n')
  const text = [
    `${sense}\n obj:${sum(objective)}`,
    'Subject To',
    ...rows.map(({ terms, sense, bound }, r) => ` r${r}:${sum(terms)} ${sense} ${bound}`),
    free > 0 ? `Bounds\n${frees}` : '',
    'End',
  ].join('\n')
  const tight = { primal_feasibility_tolerance: 1e-9, dual_feasibility_tolerance: 1e-10, output_flag: false }
  const solved = highs.solve(text, tight)
  return solved.Status === 'Optimal' ? solved.ObjectiveValue : Number.NaN
}

function* stances(seed: number, count: number): Generator<[Stance, string, () => number]> {
  const next = random(seed)
  for (let i = 0; i < count; i++) {
    const { contacts, body } = i % 4 === 3 ? kneeling(next) : anyStance(next)
    // A third of them with limits that bite.
    const limit = () => (i % 3 === 0 ? between(next, 0.2, 1) : 2)
    yield [{ contacts: contacts.map((c) => ({ ...c, limit: limit() })), body }, `stance ${i}`, next]
  }
}

describe('against HiGHS', () => {
  /**
   * @checks least and most load of limbs and contacts, 320 random stances
   * @against the same programmes, written out anew and solved elsewhere
   * @from highs; library
   * @within 1e-6 of the weight
   */
  it('ranges of 320 stances agree within 1e-6 of the weight', { timeout: 120_000 }, () => {
    const system = new ContactSystem()
    let bitten = 0
    for (const [stance, name, next] of stances(77, 320)) {
      const { contacts, body } = stance
      const weighing = weigh(contacts, body)
      const weight = body.mass * body.gravity
      system.load(contacts, body)
      const { push } = split(system)
      const columns = generators(stance, system)
      const rows = rangeRows(stance, system, push, columns)
      // One contact and one limb of each stance, either end in turn.
      const contact = Math.floor(next() * contacts.length)
      const limb = weighing.limbs[Math.floor(next() * weighing.limbs.length)]
      const load = (of: (c: number) => boolean) => columns.map(({ c }) => (of(c) ? 1 : 0))
      const one = weighing.contacts[contact]
      if (!one || !limb) throw new Error('no contact')
      const ofLimb = (c: number) => contacts[c]?.limb === limb.id
      expect(Math.abs(solve('Minimize', load(ofLimb), rows) - limb.least / weight), name).toBeLessThan(1e-6)
      expect(
        Math.abs(
          solve(
            'Maximize',
            load((c) => c === contact),
            rows,
          ) -
            one.most / weight,
        ),
        name,
      ).toBeLessThan(1e-6)
      if (one.most > one.load && Math.abs(one.most / weight - (contacts[contact]?.limit ?? 0)) < 1e-9)
        bitten++
    }
    expect(bitten).toBeGreaterThan(5)
  })

  /**
   * @checks how far the weight could go, 300 random stances
   * @against the same programmes, written out anew and solved elsewhere
   * @from highs; library
   * @within 1e-6 of a quarter stature; drawn up to 0.008 short
   */
  it('regions of 300 stances agree within 1e-6 of L', { timeout: 120_000 }, () => {
    const system = new ContactSystem()
    const finder = new RegionFinder()
    let empty = 0
    for (const [stance, name, next] of stances(78, 300)) {
      const { contacts, body } = stance
      system.load(contacts, body)
      split(system)
      system.sumUp()
      const columns = generators(stance, system)
      const needed = neededBy(body)
      const [fx, fy, fz] = needed as [number, number, number]
      // Two more columns move the centre of mass by δ along x and z: Σ r × f − δ × F = M.
      const shift = [
        [0, 0, 0, 0, fz, -fy],
        [0, 0, 0, fy, -fx, 0],
      ]
      const rows: Row[] = [
        ...needed.map(
          (bound, i): Row => ({
            terms: [...columns.map(({ wrench }) => wrench[i] as number), ...shift.map((s) => s[i] as number)],
            sense: '=',
            bound,
          }),
        ),
        ...limitRows(columns, system, 2),
      ]
      const angle = between(next, 0, 2 * Math.PI)
      const [x, z] = [Math.cos(angle), Math.sin(angle)]
      const far = solve('Maximize', [...columns.map(() => 0), x, z], rows, 2)
      const region = finder.find(system, new Uint8Array(contacts.length).fill(1))
      if (region.length === 0) {
        empty++
        expect(far, name).toBeNaN()
        continue
      }
      // The drawn polygon lies inside the true one, and nowhere short of it by more than its chord.
      const drawn = Math.max(...region.map(([px, pz]) => x * px + z * pz))
      expect(drawn, name).toBeLessThan(far + 1e-6)
      expect(drawn, name).toBeGreaterThan(far - 0.008)
      const isLevel = contacts.every((c) => c.normal[1] > 1 - 1e-9 && c.vertices.every((v) => v[1] === 0))
      if (isLevel && !body.force) continue
      const [px, pz] = finder.furthest(x, z)
      expect(Math.abs(x * px + z * pz - far), name).toBeLessThan(1e-6)
    }
    expect(empty).toBeGreaterThan(5)
    expect(empty).toBeLessThan(150)
  })
})
