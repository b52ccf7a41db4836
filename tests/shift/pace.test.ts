import { describe, expect, it } from 'vitest'
import { type Hold, holdOf, paceOf } from '../../src/shift/pace'
import { between, random } from '../../src/space/random'
import type { Vec3 } from '../../src/space/vec'
import type { Body, Contact } from '../../src/weigh/weigh'
import { weigh } from '../../src/weigh/weigh'
import { kneeling, pad } from '../weigh/stances'

const G = 9.81
const up: Vec3 = [0, 1, 0]
const square = (x: number, friction: number, limit: number): Contact => ({
  id: `at ${x}`,
  limb: `at ${x}`,
  vertices: pad([x, 0, 0], up, 4, 0.05, 0.05, Math.PI / 4),
  normal: up,
  friction,
  stiffness: 1,
  limit,
})

/** A body of 100 kg, 1.8 m, its weight 0.8 m over two pads; accelerated sideways and upwards, m/s². */
function pushed(level: number, upward: number, { friction = 1, limit = 2, x = 0 } = {}) {
  const mass = 100
  const contacts = [square(-0.2, friction, limit), square(0.2, friction, limit)]
  const body: Body = {
    mass,
    com: [x, 0.8, 0],
    stature: 1.8,
    gravity: G,
    force: [mass * level, mass * (G + upward), 0],
    moment: [0, 0, 0],
  }
  return { contacts, body }
}

const most = ({ contacts, body }: ReturnType<typeof pushed>, push = 0) => paceOf(contacts, body, push)?.most
const hold = ({ contacts, body }: ReturnType<typeof pushed>): Hold => holdOf(contacts, body)
/** Half the base: the squares' corners stick out 0.05 / √2. */
const EDGE = 0.2 + 0.05 * Math.SQRT1_2

describe('how fast a frame may go, by hand', () => {
  it('until its centre of pressure is at the edge: a = g · edge / height', () => {
    const one = pushed(2, 0)
    expect(most(one)).toBeCloseTo((G * EDGE) / 0.8 / 2, 6)
    expect(hold(one)).toBe('edge')
    // To the right likewise, from the other edge; beside the middle less is left.
    expect(most(pushed(-2, 0))).toBeCloseTo((G * EDGE) / 0.8 / 2, 6)
    expect(most(pushed(2, 0, { x: -0.1 }))).toBeCloseTo((G * (EDGE - 0.1)) / 0.8 / 2, 6)
  })

  it('until it slips: a = μ g', () => {
    const one = pushed(2, 0, { friction: 0.2 })
    expect(most(one)).toBeCloseTo((0.2 * G) / 2, 6)
    expect(hold(one)).toBe('grip')
  })

  it('until a contact is overloaded', () => {
    const one = pushed(0, 4, { limit: 0.6 })
    expect(most(one)).toBeCloseTo((0.2 * G) / 4, 6)
    expect(hold(one)).toBe('load limit')
    // All of them together carry three weights at the most.
    const both = pushed(0, 4, { limit: 5 })
    expect(most(both)).toBeCloseTo((2 * G) / 4, 6)
    expect(hold(both)).toBe('load limit')
  })

  it('until it leaves the ground: a = g downwards', () => {
    const one = pushed(0, -3)
    expect(most(one)).toBeCloseTo(G / 3, 6)
    expect(hold(one)).toBe('leaves the ground')
  })

  it('a bit further for each bit of push that is allowed', () => {
    const one = pushed(0, -3)
    expect(most(one, 0.02)).toBeCloseTo((1.02 * G) / 3, 6)
  })

  it('any pace where it is still, none where it falls', () => {
    expect(paceOf(pushed(0, 0).contacts, pushed(0, 0).body)).toEqual({
      least: 0,
      most: Number.POSITIVE_INFINITY,
    })
    const falling = pushed(0, 0, { x: 0.4 })
    expect(paceOf(falling.contacts, falling.body)).toBeNull()
    expect(holdOf(falling.contacts, falling.body)).toBe('edge')
    expect(paceOf([], pushed(0, 0).body)).toBeNull()
  })

  it('not slower than what keeps it from falling', () => {
    // 0.1 m beyond the edge, braked towards it: x − p = a / g · height, from either edge.
    const beyond = EDGE + 0.1
    const one = pushed(2, 0, { x: beyond })
    const pace = paceOf(one.contacts, one.body, 0)
    expect(pace?.least).toBeCloseTo((G * 0.1) / 0.8 / 2, 6)
    expect(pace?.most).toBeCloseTo((G * (2 * EDGE + 0.1)) / 0.8 / 2, 6)
  })
})

describe('against the weighing', () => {
  it('at the ends of the interval the smallest push is the one allowed, between them none is larger', () => {
    const next = random(21)
    let ends = 0
    for (let i = 0; i < 150; i++) {
      const { contacts: limited, body } = kneeling(next)
      // The weighing's push knows no limits.
      const contacts = limited.map((contact) => ({ ...contact, limit: 50 }))
      const [weight, length] = [body.mass * G, 0.25 * body.stature]
      const force = [0, 1, 2].map(() => between(next, -0.3, 0.3) * weight)
      const moment = [0, 1, 2].map(() => between(next, -0.2, 0.2) * weight * length)
      const at = (pace: number): Body => ({
        ...body,
        force: force.map((f, k) => pace * f + (k === 1 ? weight : 0)) as unknown as Vec3,
        moment: moment.map((m) => pace * m) as unknown as Vec3,
      })
      const pushAt = (pace: number) => weigh(contacts, at(pace), { ranges: false, region: false }).push.size
      const pace = paceOf(contacts, at(1), 0.02)
      if (pace === null) {
        for (let p = 0; p < 4; p += 0.05) expect(pushAt(p)).toBeGreaterThan(0.0199)
        continue
      }
      const overall = at(pace.most).force as Vec3
      // Where all loads together are at their limit, the weighing would go on.
      if (overall[1] > 2 * weight) continue
      ends++
      expect(Math.abs(pushAt(pace.most) - 0.02)).toBeLessThan(2e-4)
      if (pace.least > 0) expect(Math.abs(pushAt(pace.least) - 0.02)).toBeLessThan(2e-4)
      for (const part of [0.1, 0.4, 0.7, 0.95])
        expect(pushAt(pace.least + part * (pace.most - pace.least))).toBeLessThan(0.0201)
    }
    expect(ends).toBeGreaterThan(100)
  })
})
