import { expect, test } from 'vitest'
import { random } from '../../src/space/random'
import type { Vec3 } from '../../src/space/vec'
import { restingShares, secondOpinions } from '../../src/trial/rest'
import { type Contact, weigh } from '../../src/weigh/weigh'
import { anyLifts } from './poses'

test('two supports carry what the lever rule says, at one height or two', () => {
  for (const [left, right, rise] of [
    [-0.2, 0.2, 0],
    [-0.02, 0.08, 0],
    [-0.3, 0.02, 0.2],
    [-0.05, 0.2, -0.1],
  ] as const)
    for (const height of [-0.55, -0.1]) {
      const shares = restingShares([
        [left, height],
        [right, height + rise],
      ])
      expect(Math.abs(shares[0] - right / (right - left))).toBeLessThan(0.0003)
      expect(Math.abs(shares[1] - left / (left - right))).toBeLessThan(0.0003)
    }
})

test('a body past its supports doesn’t rest on both', () => {
  const shares = restingShares([
    [-0.3, -0.5],
    [-0.1, -0.5],
  ])
  expect(shares[0]).toBeLessThan(0.01)
})

/*
 * Scaffold of OpenStax, University Physics vol. 1, §12.2: 6 m long, 70 kg, supported at its ends, a person
 * of 50 kg at 1.5 m from one; g 9.80: 711 N near, 466 N far.
 */
test('the scaffold of a textbook', () => {
  const com: Vec3 = [(70 * 3 + 50 * 1.5) / 120, 0.5, 0]
  const body = { mass: 120, com, stature: 6, gravity: 9.8 }
  const contacts = [support('near', [0, 0, 0]), support('far', [6, 0, 0])]
  const [opinion] = secondOpinions(contacts, body, weigh(contacts, body))
  expect(opinion).toMatchObject({ view: 'front', places: [{ ids: ['near'] }, { ids: ['far'] }] })
  const newtons = opinion?.places.map(({ trial }) => trial * 120 * 9.8)
  expect(newtons?.[0]).toBeCloseTo(710.5, 0)
  expect(newtons?.[1]).toBeCloseTo(465.5, 0)
})

test.each([
  ['level', false, 7],
  ['uneven', true, 8],
])('on %s pads the split is within a thousandth of the weight of what rests', (_, uneven, seed) => {
  let found = 0
  for (const { problem } of anyLifts(random(seed), uneven, 250)) {
    const { contacts, body } = weighed(problem)
    for (const { difference, places } of secondOpinions(contacts, body, weigh(contacts, body))) {
      found++
      expect(difference).toBeLessThan(0.001)
      expect(places[0].split + places[1].split).toBeCloseTo(1, 3)
    }
  }
  expect(found).toBeGreaterThan(80)
})

test('loads that don’t balance are found out', () => {
  const { contacts, body } = weighed(anyLifts(random(9), false, 1)[0]?.problem as never)
  const weighing = weigh(contacts, body)
  const [first] = secondOpinions(contacts, body, weighing)
  if (!first) throw new Error('this pose shows two places')
  const wrong = new Set(first.places[0].ids)
  const spoilt = {
    ...weighing,
    contacts: weighing.contacts.map((load) =>
      wrong.has(load.id) ? { ...load, vertical: load.vertical + 0.02 } : load,
    ),
  }
  expect(secondOpinions(contacts, body, spoilt)[0]?.difference).toBeGreaterThan(0.01)
})

test('no opinion without a balance, in motion, on a slope, or on three places', () => {
  const contacts = [support('a', [0, 0, 0]), support('b', [1, 0, 0]), support('c', [0.5, 0, 0])]
  const two = contacts.slice(0, 2)
  const body = { mass: 80, com: [0.4, 1, 0] as Vec3, stature: 1.8, gravity: 9.81 }
  const opinions = (on: Contact[], of: typeof body & { force?: Vec3 }) =>
    secondOpinions(on, of, weigh(on, of)).length
  expect(opinions(two, body)).toBe(1)
  expect(opinions(contacts, body)).toBe(0)
  expect(opinions(two, { ...body, com: [1.4, 1, 0] })).toBe(0)
  expect(opinions(two, { ...body, force: [0, 800, 0] })).toBe(0)
  expect(
    opinions(
      two.map((contact) => ({ ...contact, normal: [0, 0.99, 0.141] as Vec3 })),
      body,
    ),
  ).toBe(0)
})

const support = (id: string, at: Vec3): Contact => ({
  id,
  limb: id,
  vertices: [-0.01, 0.01].map((z): Vec3 => [at[0], at[1], at[2] + z]),
  normal: [0, 1, 0],
  friction: 0.5,
  stiffness: 1,
  limit: 2,
})

const weighed = ({ contacts, frozen, gravity }: ReturnType<typeof anyLifts>[number]['problem']) => ({
  contacts,
  body: { mass: frozen.pose.mass, com: frozen.pose.com, stature: frozen.body.stature, gravity },
})
