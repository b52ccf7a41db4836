import { describe, expect, it } from 'vitest'
import { random } from '../../src/space/random'
import type { Vec3 } from '../../src/space/vec'
import { judge } from '../../src/weigh/verdict'
import { type Body, type Contact, weigh } from '../../src/weigh/weigh'
import { anyStance, kneeling } from './stances'

const up: Vec3 = [0, 1, 0]
const square = (x: number, z: number, half: number): Vec3[] => [
  [x - half, 0, z - half],
  [x - half, 0, z + half],
  [x + half, 0, z + half],
  [x + half, 0, z - half],
]
const on = (id: string, vertices: readonly Vec3[], more: Partial<Contact> = {}): Contact => ({
  id,
  limb: id,
  vertices,
  normal: up,
  friction: 0.5,
  stiffness: 1,
  limit: 2,
  ...more,
})
const body: Body = { mass: 100, com: [0, 1, 0], stature: 2, gravity: 10 }
const judged = (contacts: readonly Contact[], on: Body, ...mover: string[]) =>
  judge(contacts, on, weigh(contacts, on), new Set(mover))

describe('the verdict', { timeout: 60_000 }, () => {
  const left = on('left', square(0.5, 0, 0.1))
  const right = on('right', square(-0.5, 0, 0.1))

  it('measures how far the weight must go to the other knee', () => {
    const verdict = judged([left, right], body, 'left')
    expect(verdict.kind).toBe('pinned')
    expect(verdict.load).toBeCloseTo(500, 6)
    // The least: the right pad bears at its inner edge, 0.4 from the weight, the left at its outer, 0.6.
    expect(verdict.least).toBeCloseTo((1000 * 0.4) / (0.4 + 0.6), 4)
    expect(verdict.empty?.distance).toBeCloseTo(0.4, 9)
    expect(verdict.empty?.move[0]).toBeCloseTo(-0.4, 9)
    expect(verdict.empty?.move[1]).toBeCloseTo(0, 9)
    // 0.5 % of 2 m further.
    expect(verdict.safe?.distance).toBeCloseTo(0.41, 9)
    expect(verdict.never).toBeNull()
  })

  it('goes from pinned over on the edge to could let go, and empty', () => {
    const kinds = [-0.1, -0.385, -0.395, -0.41].map(
      (x) => judged([left, right], { ...body, com: [x, 1, 0] }, 'left').kind,
    )
    expect(kinds).toEqual(['pinned', 'on the edge', 'on the edge', 'could let go'])
    expect(judged([left, right], { ...body, com: [-0.6, 1, 0] }, 'left').kind).toBe('empty')
    expect(judged([left, right], body, 'tail').kind).toBe('off')
  })

  it('needs no move where it could let go', () => {
    const verdict = judged([left, right], { ...body, com: [-0.45, 1, 0] }, 'left')
    expect(verdict).toMatchObject({
      kind: 'could let go',
      empty: { move: [0, 0], distance: 0 },
      safe: { distance: 0 },
    })
    const near = judged([left, right], { ...body, com: [-0.405, 1, 0] }, 'left')
    expect(near.empty?.distance).toBe(0)
    expect(near.safe?.distance).toBeCloseTo(0.005, 9)
  })

  it('has no safe place on a line or a spot', () => {
    const points = [on('a', [[0, 0, 0.5]]), on('b', [[-0.5, 0, 0]]), on('c', [[0.5, 0, 0]])]
    const verdict = judged(points, { ...body, com: [0, 1, 0.2] }, 'a')
    expect(verdict.empty?.distance).toBeCloseTo(0.2, 6)
    expect(verdict.safe).toBeNull()
    const spot = judged(points.slice(0, 2), { ...body, com: [-0.3, 1, 0.2] }, 'a')
    expect(spot.empty?.distance).toBeCloseTo(Math.hypot(0.2, 0.2), 6)
    expect(spot.safe).toBeNull()
  })

  it('says why it can never be lifted from here', () => {
    expect(judged([left], body, 'left')).toMatchObject({
      never: 'no other contact',
      empty: null,
      safe: null,
      region: [],
    })
    const weak = on('right', square(-0.5, 0, 0.1), { limit: 0.6 })
    expect(judged([left, weak], body, 'left').never).toBe('load limit')
    const wall = on(
      'wall',
      [
        [-0.5, 1, 0],
        [-0.5, 1.2, 0],
        [-0.5, 1, 0.2],
      ],
      { normal: [1, 0, 0] },
    )
    expect(judged([left, wall], body, 'left').never).toBe('no grip')
    const pull: Body = { ...body, force: [0, -10, 0] }
    expect(judged([left, right], pull, 'left').never).toBe('nothing presses down')
  })

  it('takes any contacts together as the mover', () => {
    const stance = kneeling()
    const weighing = weigh(stance.contacts, stance.body)
    const of = (...ids: string[]) => judge(stance.contacts, stance.body, weighing, new Set(ids))
    const leg = weighing.limbs.find(({ id }) => id === 'legL')
    expect(of('kneeL', 'footL').least).toBe(leg?.least)
    expect(of('kneeL', 'footL').load).toBeCloseTo(leg?.load ?? 0, 9)
    expect(of('handL').least).toBe(weighing.contacts[4]?.least)
    // Both legs: more than either alone, and never without the ground.
    const both = of('kneeL', 'footL', 'kneeR', 'footR')
    expect(both.least).toBeGreaterThan(of('kneeL', 'footL').least)
    // The toes stay: easier than the whole leg.
    expect(of('kneeL').least).toBeLessThan(of('kneeL', 'footL').least)
  })

  it('doesn’t depend on what was weighed in between', () => {
    const one = kneeling(random(1))
    const two = anyStance(random(2))
    const weighing = weigh(one.contacts, one.body)
    const mover = new Set(['kneeL', 'footL'])
    const first = judge(one.contacts, one.body, weighing, mover)
    weigh(two.contacts, two.body)
    expect(judge(one.contacts, one.body, weighing, mover)).toEqual(first)
    const short = weigh(one.contacts, one.body, { ranges: false, region: false })
    expect(judge(one.contacts, one.body, short, mover).least).toBeCloseTo(first.least, 6)
  })

  it('is true: moved there, the others hold the body alone', () => {
    const next = random(31)
    let moves = 0
    for (let i = 0; i < 400; i++) {
      const { contacts, body: still } = i % 2 ? kneeling(next) : anyStance(next)
      const weighing = weigh(contacts, still)
      if (weighing.push.size > 1e-6) continue
      const mover = new Set(contacts.filter(({ limb }) => limb === contacts[0]?.limb).map(({ id }) => id))
      const verdict = judge(contacts, still, weighing, mover)
      const name = `stance ${i}: ${verdict.kind}`
      const weight = still.mass * still.gravity
      expect(verdict.kind === 'could let go', name).toBe(
        verdict.load >= 0.02 * weight && verdict.least < 1e-4 * weight,
      )
      if (verdict.kind === 'pinned' && verdict.empty) expect(verdict.empty.distance, name).toBeGreaterThan(0)
      const { safe } = verdict
      if (!safe) continue
      moves++
      const [x, y, z] = still.com
      const there: Body = { ...still, com: [x + safe.move[0], y, z + safe.move[1]] }
      const others = contacts.filter(({ id }) => !mover.has(id))
      expect(weigh(others, there).push.size, name).toBeLessThan(1e-4)
    }
    expect(moves).toBeGreaterThan(100)
  })
})
