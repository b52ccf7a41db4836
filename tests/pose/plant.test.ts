import { describe, expect, test } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { makeBody } from '../../src/body/model'
import { FLAT } from '../../src/contact/ground'
import type { ContactSpan } from '../../src/document/contacts'
import type { Ground } from '../../src/document/plan'
import { plantPart } from '../../src/pose/plant'
import { reach } from '../../src/pose/reach'
import { makeStance, STANCES } from '../../src/pose/stances'
import { distance, type Vec3 } from '../../src/space/vec'

const body = makeBody((BUILDS[0] as (typeof BUILDS)[number]).spec)
const whole = { id: 'new', from: 0, to: 0, state: 'planted' } as const

describe('a part planted where it is', () => {
  test('gives the contact that holds it already, for every stance and body', () => {
    for (const build of BUILDS)
      for (const { id } of STANCES) {
        const made = makeBody(build.spec)
        const stance = makeStance(id, made, FLAT)
        const pose = reach(made, stance.controls, stance.contacts)
        for (const contact of stance.contacts) {
          const planted = plantPart(made, FLAT, pose, contact.part, contact.kind)
          expect(
            distance(planted.position, contact.position),
            `${build.id} ${id} ${contact.part}`,
          ).toBeLessThan(0.02 * made.stature)
          expect(Math.abs(Math.sin(planted.heading - contact.heading))).toBeLessThan(0.05)
          expect(planted.on).toBe('ground')
        }
      }
  })

  test('lands below: a lifted hand on the top under it, then the pose bears there', () => {
    const course = box('course', [0.25, 0, 0.5], [0.6, 0.4, 0.4])
    const ground: Ground = { grip: 'normal', boxes: [course] }
    const stance = makeStance('tall-kneel', body, FLAT)
    const asked = { ...stance.controls, 'armL.hand.x': 0.2, 'armL.hand.y': 0.55, 'armL.hand.z': 0.45 }
    const planted = plantPart(body, ground, reach(body, asked, stance.contacts), 'handL', 'fist')
    expect(planted).toMatchObject({ part: 'handL', kind: 'fist', on: 'course', normal: [0, 1, 0] })
    expect(planted.position[1]).toBeCloseTo(0.4, 9)
    const pose = reach(body, asked, [...stance.contacts, { ...planted, ...whole }])
    expect(pose.pads.map(({ part }) => part)).toContain('handL')
  })

  test('a palm takes the side of a block that is nearer than what lies below', () => {
    const wall = box('wall', [0, 0, 0.75], [2, 2, 0.5])
    const ground: Ground = { grip: 'normal', boxes: [wall] }
    const stance = makeStance('standing', body, FLAT)
    const asked = { ...stance.controls, 'armL.hand.x': 0.2, 'armL.hand.y': 1.2, 'armL.hand.z': 0.42 }
    const pose = reach(body, asked, stance.contacts)
    const palm = plantPart(body, ground, pose, 'handL', 'palm')
    expect(palm.on).toBe('wall')
    expect(palm.normal).toEqual([expect.closeTo(0, 12), 0, expect.closeTo(-1, 12)])
    expect(palm.position[2]).toBeCloseTo(0.5, 9)
    expect(plantPart(body, ground, pose, 'handL', 'fist').on).toBe('ground')
  })

  test('rolling from the sole to the ball moves the pad forward, not the foot', () => {
    const stance = makeStance('standing', body, FLAT)
    const pose = reach(body, stance.controls, stance.contacts)
    const ball = plantPart(body, FLAT, pose, 'footL', 'ball')
    const sole = stance.contacts.find(({ part }) => part === 'footL') as ContactSpan
    expect(ball.position[2]).toBeGreaterThan(sole.position[2])
    const rolled = stance.contacts.map((span) => (span === sole ? { ...span, ...ball } : span))
    expect(distance(reach(body, stance.controls, rolled).joints.ankleL, pose.joints.ankleL)).toBeLessThan(
      0.005,
    )
  })
})

const box = (id: string, position: Vec3, size: Vec3) => ({
  id,
  name: id,
  position,
  size,
  turn: 0,
  grip: 'normal' as const,
})
