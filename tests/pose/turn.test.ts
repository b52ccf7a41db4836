import { expect, test } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { makeBody, SEGMENTS } from '../../src/body/model'
import { changedPose } from '../../src/pose/changed'
import { reach } from '../../src/pose/reach'
import { makeStance } from '../../src/pose/stances'
import { turnPose } from '../../src/pose/turn'
import type { JointId } from '../../src/pose/types'
import { apply } from '../../src/space/rotation'
import { add, distance, sub, unit, type Vec3 } from '../../src/space/vec'

const body = makeBody((BUILDS[0] as (typeof BUILDS)[number]).spec)
const stance = makeStance('half-kneel-left', body, { grip: 'rough', boxes: [] })
const pose = reach(body, stance.controls, stance.contacts)
const point: Vec3 = [0.2, 0.1, -0.3]
const axis = unit([0.3, 0.2, -0.9])

test('a turned pose keeps its shape, and what lies on the axis stays', () => {
  const turned = turnPose(pose, point, axis, 0.4)
  const ids = Object.keys(pose.joints) as JointId[]
  for (const a of ids)
    for (const b of ids)
      expect(distance(turned.joints[a], turned.joints[b])).toBeCloseTo(
        distance(pose.joints[a], pose.joints[b]),
        12,
      )
  for (const id of SEGMENTS) {
    const { origin, rotation, com } = turned.segments[id]
    const far = sub(add(origin, apply(rotation, body.segments[id].com)), com)
    expect(Math.hypot(...far)).toBeLessThan(1e-12)
  }
  const still = turnPose(changedPose(pose, { com: add(point, axis) }), point, axis, 0.4)
  expect(distance(still.com, add(point, axis))).toBeLessThan(1e-12)
})

test('a turn is right-handed and leaves pads and controls alone', () => {
  const turned = turnPose(changedPose(pose, { com: [0, 1, 0] }), [0, 0, 0], [0, 0, -1], 0.1)
  // About −Z the top goes to +X, his left.
  expect(turned.com).toEqual([expect.closeTo(Math.sin(0.1), 12), expect.closeTo(Math.cos(0.1), 12), 0])
  expect(turned.pads).toBe(pose.pads)
  expect(turned.reached).toBe(pose.reached)
})

test('turned back it is the same pose', () => {
  const back = turnPose(turnPose(pose, point, axis, 0.7), point, axis, -0.7)
  for (const id of SEGMENTS) {
    expect(distance(back.segments[id].com, pose.segments[id].com)).toBeLessThan(1e-12)
    back.segments[id].rotation.forEach((value, i) => {
      expect(value).toBeCloseTo(pose.segments[id].rotation[i] as number, 12)
    })
  }
})
