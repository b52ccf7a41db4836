import { expect, it } from 'vitest'
import type { ChannelId } from '../../src/document/channels'
import { setControls } from '../../src/plan/edit/keys'
import { movingHold } from '../../src/plan/edit/moving-hold'
import { firstTake, flat, smallPlan } from './small'

const T = 'take-1'
/** Key poses at 0, 8 (1 on every channel), held to 16, and at 20 (3). */
const plan = [
  [8, 1],
  [16, 1],
  [20, 3],
].reduce((made, [frame, value]) => setControls(made, T, frame as number, flat(value as number)), smallPlan())
const at = (of: typeof plan, id: ChannelId, frame: number) =>
  firstTake(of).channels[id].find((key) => key.frame === frame)

it('goes on a little by the way that led into it, legs apart', () => {
  const moved = movingHold(plan, T, { from: 8, to: 16 })
  for (const id of ['pelvis.x', 'chest.list', 'head.turn', 'armL.hand.z'] as const) {
    expect(at(moved, id, 16)?.value).toBeCloseTo(1.04, 12)
    expect(at(moved, id, 8)).toMatchObject({ value: 1, out: 0 })
  }
  expect(at(moved, 'legL.knee.x', 16)?.value).toBe(1)
})

it('from nowhere it creeps ahead of what follows', () => {
  const first = setControls(plan, T, 4, flat(0))
  expect(at(movingHold(first, T, { from: 0, to: 4 }), 'pelvis.x', 4)?.value).toBeCloseTo(0.04, 12)
})

it('leaves a plan alone where there is no key, or nothing before and after', () => {
  expect(movingHold(plan, T, { from: 8, to: 15 })).toBe(plan)
  const still = setControls(smallPlan(), T, 8, flat(0))
  expect(movingHold(still, T, { from: 0, to: 8 })).toBe(still)
})
