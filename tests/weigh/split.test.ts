import { describe, expect, it } from 'vitest'
import { random } from '../../src/space/random'
import { add, norm, scale, sub, type Vec3 } from '../../src/space/vec'
import { type Split, split } from '../../src/weigh/split'
import { ContactSystem } from '../../src/weigh/system'
import { momentOf, neededBy, projectOnCone, type Stance, verticesOf } from './by-hand'
import { anyStance, pad } from './stances'

const system = new ContactSystem()

/** A stance's split, and what the definitions say about it. */
function check({ contacts, body }: Stance) {
  system.load(contacts, body)
  const result: Split = split(system)
  const { push, dual, anchor, epsilon } = result
  const y = [...dual]
  const wanted = neededBy(body)
  const given = [0, 0, 0, 0, 0, 0]
  const report = {
    outside: 0,
    wrongForce: 0,
    cost: 0,
    dualCost: 0,
    push: [...push],
    size: Math.hypot(...push),
  }
  verticesOf(contacts, body).forEach(({ contact, normal, arm, stiffness }, j) => {
    const force = worldForce(j, contacts)
    const moment = momentOf(arm, force)
    for (let i = 0; i < 3; i++) {
      given[i] = (given[i] as number) + (force[i] as number)
      given[3 + i] = (given[3 + i] as number) + (moment[i] as number)
    }
    const strain = add(y.slice(0, 3) as unknown as Vec3, momentOf(y.slice(3) as unknown as Vec3, arm))
    const projected = projectOnCone(strain, normal, contact.friction)
    const within = projectOnCone(force, normal, contact.friction)
    report.outside = Math.max(report.outside, norm(sub(force, within)))
    report.wrongForce = Math.max(report.wrongForce, norm(sub(force, scale(projected, stiffness))))
    report.cost += norm(force) ** 2 / (2 * stiffness)
    report.dualCost -= (stiffness * norm(projected) ** 2) / 2
  })
  const dot = (a: number[], b: number[]) => a.reduce((sum, x, i) => sum + x * (b[i] as number), 0)
  const fromAnchor = y.map((x, i) => x - (anchor[i] as number))
  const left = wanted.map((w, i) => w - (given[i] as number))
  return {
    ...report,
    /** What the push that is named doesn't explain. */
    unnamed: Math.hypot(...left.map((x, i) => x - (push[i] as number))),
    /** The gradient of the dual, which is 0 at the optimum. */
    residual: Math.hypot(...left.map((x, i) => x - epsilon * (fromAnchor[i] as number))),
    /** Of the programme that is solved last: least Σ |f|²/2k + |s|²/2ε + anchor · s with Σ G f + s = w. */
    primal: report.cost + dot(left, left) / (2 * epsilon) + dot([...anchor], left),
    dual: report.dualCost + dot(wanted, y) - (epsilon / 2) * dot(fromAnchor, fromAnchor),
    /** Of the programme that is meant: least Σ |f|²/2k with Σ G f = w. */
    trueGap: report.cost - report.dualCost - dot(wanted, y),
  }
}

function worldForce(j: number, contacts: Stance['contacts']): Vec3 {
  let c = 0
  while ((system.first[c + 1] as number) <= j) c++
  expect(c).toBeLessThan(contacts.length)
  const along = (i: number) =>
    [0, 1, 2].reduce(
      (sum, a) => sum + (system.force[3 * j + a] as number) * (system.axes[9 * c + 3 * a + i] as number),
      0,
    )
  return [along(0), along(1), along(2)]
}

describe('the split', { timeout: 60_000 }, () => {
  it('solves ten thousand random problems, hopeless ones included', () => {
    const next = random(20_240_607)
    const worst = { unnamed: 0, residual: 0, outside: 0, wrongForce: 0, gap: 0, trueGap: 0 }
    let hopeless = 0
    let exact = 0
    for (let i = 0; i < 10_000; i++) {
      const found = check(anyStance(next))
      const costs = 1 + Math.abs(found.primal) + Math.abs(found.dual)
      const gap = Math.abs(found.primal - found.dual) / costs
      const isExact = found.size < 1e-11
      const trueGap = isExact ? Math.abs(found.trueGap) / (1 + found.cost) : 0
      const figures = { ...found, gap, trueGap }
      // A comparison with NaN is false, so this also keeps one.
      for (const key of Object.keys(worst) as (keyof typeof worst)[])
        if (!(figures[key] <= worst[key])) worst[key] = figures[key]
      if (found.size > 1e-4) hopeless++
      if (isExact) exact++
    }
    for (const [name, value] of Object.entries(worst)) expect(value, name).toBeLessThan(1e-8)
    expect(hopeless).toBeGreaterThan(4_000)
    expect(exact).toBeGreaterThan(1_500)
  })

  it('leaves no push that the contacts could take', () => {
    const next = random(5)
    for (let i = 0; i < 2_000; i++) {
      const { contacts, body } = anyStance(next)
      const { push, size } = check({ contacts, body })
      if (size < 1e-4) continue
      // The projection on the cone of all wrenches: what is left has no part along any of them.
      for (const { contact, normal, arm, stiffness } of verticesOf(contacts, body)) {
        const pull = add(push.slice(0, 3) as unknown as Vec3, momentOf(push.slice(3) as unknown as Vec3, arm))
        const could = norm(projectOnCone(pull, normal, contact.friction))
        // A contact of stiffness k bends by |f| / k, and ε times that of the push is left to it.
        expect(could, `problem ${i}`).toBeLessThan(1e-4 + (1e-6 * 20) / stiffness)
      }
    }
  })

  const up: Vec3 = [0, 1, 0]
  const man = { mass: 80, com: [0, 1, 0] as Vec3, stature: 1.8, gravity: 9.81 }
  const on = (id: string, vertices: readonly Vec3[], more = {}) => ({
    id,
    limb: id,
    vertices,
    normal: up,
    friction: 0.5,
    stiffness: 1,
    limit: 2,
    ...more,
  })
  const hopeless: [string, Stance['contacts']][] = [
    ['no contact', []],
    ['one point, not under the weight', [on('a', [[0.3, 0, 0]])]],
    ['one point, under the weight', [on('a', [[0, 0, 0]])]],
    [
      'points on a line beside the weight',
      [on('a', [[0.2, 0, -1]]), on('b', [[0.2, 0, 0]]), on('c', [[0.2, 0, 1]])],
    ],
    [
      'two contacts on one spot',
      [on('a', pad([0, 0, 0], up, 4, 0.1, 0.1)), on('b', pad([0, 0, 0], up, 4, 0.1, 0.1))],
    ],
    ['a contact 200 m away', [on('a', pad([200, 0, 0], up, 8, 0.1, 0.1))]],
    ['a ceiling', [on('a', pad([0, 2, 0], [0, -1, 0], 4, 0.1, 0.1), { normal: [0, -1, 0] })]],
    [
      'smooth walls',
      [-1, 1].map((x) =>
        on(`w${x}`, pad([x, 1, 0], [-x, 0, 0], 4, 0.1, 0.1), { normal: [-x, 0, 0], friction: 0 }),
      ),
    ],
    ['no stiffness at all', [on('a', pad([0, 0, 0], up, 4, 0.1, 0.1), { stiffness: 0 })]],
    [
      'a hair of friction',
      [on('a', pad([0, 0, 0], [0.6, 0.8, 0], 4, 0.1, 0.1), { normal: [0.6, 0.8, 0], friction: 1e-9 })],
    ],
  ]
  it.each(hopeless)('has an answer for %s', (_, contacts) => {
    const found = check({ contacts, body: man })
    expect(found.unnamed).toBeLessThan(1e-8)
    expect(found.residual).toBeLessThan(1e-8)
    expect(found.outside).toBeLessThan(1e-9)
  })

  it('names the whole weight as the push where nothing touches', () => {
    system.load([], man)
    expect([...split(system).push]).toEqual([0, 1, 0, 0, 0, 0])
  })

  it('gives a contact by its stiffness, with a floor', () => {
    const feet = (stiffness: number): Stance => ({
      contacts: [on('a', [[0, 0, 0]]), on('b', [[0, 0, 0]], { stiffness })],
      body: man,
    })
    const shareOfB = (stiffness: number) => {
      check(feet(stiffness))
      return system.force[3] as number
    }
    expect(shareOfB(1)).toBeCloseTo(1 / 2, 9)
    expect(shareOfB(0.25)).toBeCloseTo(1 / 5, 9)
    expect(shareOfB(0)).toBeCloseTo(0.02 / 1.02, 9)
    expect(shareOfB(3)).toBeCloseTo(3 / 4, 9)
  })
})
