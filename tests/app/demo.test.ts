import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { makeBody } from '../../src/body/model'
import type { Plan, Take } from '../../src/document/plan'
import { keyPosesOf } from '../../src/plan/key-poses'
import { readPlan } from '../../src/plan/read'
import { writePlan } from '../../src/plan/write'
import { makeMotion } from '../../src/pose/between'
import { weighPose } from '../../src/weigh/pose'
import { capstone } from '../support/capstone'

const text = readFileSync('static/capstone.json', 'utf8')
const read = readPlan(text)
const plan = (read.ok ? read.plan : null) as Plan
const body = makeBody(plan.body)
const take = plan.takes[0] as Take
const motion = makeMotion(body, take)
const weighed = (frame: number) => weighPose(plan.ground, plan.gravity, body.stature, motion.poseAt(frame))

describe('the demo plan', () => {
  test('is a plan, and what its script writes', () => {
    expect(read.ok).toBe(true)
    expect(writePlan(capstone())).toBe(text)
  })

  test('has at least five key poses', () => {
    expect(keyPosesOf(take).length).toBeGreaterThanOrEqual(5)
  })

  test('can be done: every frame is held without a push and inside its supports, and nothing planted is missed', () => {
    for (let frame = 0; frame < take.length; frame++) {
      const pose = motion.poseAt(frame)
      const { weighing } = weighed(frame)
      expect(weighing.push.size).toBeLessThan(1e-4)
      expect(weighing.room).toBeGreaterThan(0.005 * body.stature)
      expect(pose.pads).toHaveLength(take.contacts.filter((c) => c.from <= frame && frame <= c.to).length)
    }
  })

  test('starts with the left leg pinned, and lets it go before it lifts', () => {
    const first = weighed(0).judge(take.mover)
    expect(first.kind).toBe('pinned')
    expect(first.empty?.move[0]).toBeLessThan(-0.03)
    const lift = take.contacts.find((c) => c.part === 'kneeL')?.to as number
    expect(['empty', 'could let go']).toContain(weighed(lift).judge(take.mover).kind)
    expect(weighed(lift + 1).judge(take.mover).kind).toBe('off')
  })
})
