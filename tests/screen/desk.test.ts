import { describe, expect, test } from 'vitest'
import { setControls } from '../../src/plan/edit/keys'
import { duplicateTake } from '../../src/plan/edit/takes'
import { Desk, type DeskTools } from '../../src/screen/desk.svelte'
import type { FrameWeighing, TakePiece } from '../../src/worker/protocol'
import { stancePlan } from '../support/plans'

const moved = (desk: Desk, x: number) => (plan: typeof desk.plan) =>
  setControls(plan, desk.takeId, 0, { 'pelvis.x': x })

describe('gestures', () => {
  test('a gesture of many changes is one step of undo, and undo is exact', () => {
    const plan = stancePlan()
    const desk = new Desk(plan)
    desk.begin('Move pelvis')
    for (const x of [0.01, 0.02, 0.03]) desk.change(moved(desk, x))
    expect(desk.busy).toBe(true)
    desk.commit()
    expect(desk.undoLabel).toBe('Move pelvis')
    const after = desk.plan
    desk.undo()
    expect(desk.plan).toBe(plan)
    desk.redo()
    expect(desk.plan).toBe(after)
  })

  test('a cancelled gesture leaves nothing', () => {
    const plan = stancePlan()
    const desk = new Desk(plan)
    desk.begin('Move pelvis')
    desk.change(moved(desk, 0.05))
    desk.cancel()
    expect(desk.plan).toBe(plan)
    expect(desk.undoLabel).toBeUndefined()
  })

  test('only settled states are told, each of them', () => {
    const told: number[] = []
    const desk = new Desk(stancePlan(), {
      settled: (plan) => told.push(plan.takes[0]?.channels['pelvis.x'][0]?.value ?? Number.NaN),
    })
    desk.begin('Move pelvis')
    desk.change(moved(desk, 0.01))
    desk.change(moved(desk, 0.02))
    desk.commit()
    desk.edit('Move pelvis', moved(desk, 0.03))
    desk.undo()
    expect(told).toEqual([0.02, 0.03, 0.02])
  })
})

describe('what follows from the plan', () => {
  test('the weight goes with the pelvis, and the weighing with the weight', () => {
    const desk = new Desk(stancePlan())
    const before = desk.weighed
    expect(desk.verdict.kind).toBe('pinned')
    desk.edit('Move pelvis', moved(desk, -0.05))
    expect(desk.pose.com[0]).toBeLessThan(-0.02)
    expect(desk.weighed).not.toBe(before)
    const share = (id: string) => desk.weighed.weighing.limbs.find((limb) => limb.id === id)?.share ?? 0
    expect(share('legR')).toBeGreaterThan(share('legL') + 0.1)
  })

  test('the body is made once while only the pose changes', () => {
    const desk = new Desk(stancePlan())
    const { body } = desk
    desk.edit('Move pelvis', moved(desk, -0.05))
    expect(desk.body).toBe(body)
  })

  test('the frame stays inside the take', () => {
    const desk = new Desk(stancePlan())
    desk.setFrame(1000)
    expect(desk.frame).toBe(47)
    desk.setFrame(-3)
    expect(desk.frame).toBe(0)
  })

  test('another take is open after it was chosen, and gone after undo takes it away', () => {
    const desk = new Desk(stancePlan())
    desk.edit('Duplicate take', (plan) => duplicateTake(plan, desk.takeId, 'Second'))
    desk.setTake('take-2')
    expect(desk.take.name).toBe('Second')
    desk.setView({ compareTakeId: 'take-1' })
    expect(desk.compared?.id).toBe('take-1')
    expect(desk.comparedPose?.com).toEqual(desk.pose.com)
    desk.undo()
    expect(desk.takeId).toBe('take-1')
    expect(desk.compared).toBeNull()
  })
})

test('view settings come back, the compared take does not', () => {
  let kept: string | null = null
  const preferences = {
    read: () => kept,
    write: (text: string) => {
      kept = text
    },
  }
  new Desk(stancePlan(), { preferences }).setView({ sideFrom: 'L', mirrored: true, compareTakeId: 'take-1' })
  expect(new Desk(stancePlan(), { preferences }).view).toMatchObject({
    sideFrom: 'L',
    mirrored: true,
    compareTakeId: null,
  })
  kept = '{"sideFrom":7,"hiddenColumns":"x"'
  expect(new Desk(stancePlan(), { preferences }).view.sideFrom).toBe('R')
})

describe('the weighed take', () => {
  /** A thread that answers when it is told to. */
  const slow = () => {
    const asked: ((pieces: TakePiece[], done: boolean) => void)[] = []
    const worker: NonNullable<DeskTools['worker']> = {
      request: (_job, _input, listener) =>
        void asked.push((pieces, done) => listener.pieces(pieces as never[], done)),
    }
    return { asked, worker }
  }
  const frame = (number: number) => ({ frame: number }) as FrameWeighing

  test('old frames stay, not fresh, until the new ones are all there', () => {
    const { asked, worker } = slow()
    const desk = new Desk(stancePlan(), { worker })
    asked[0]?.([frame(0), frame(1)], true)
    expect(desk.takeWeighings?.fresh).toBe(true)
    desk.edit('Move pelvis', moved(desk, 0.02))
    expect(desk.takeWeighings?.fresh).toBe(false)
    expect([...(desk.takeWeighings?.frames.keys() ?? [])]).toEqual([0, 1])
    const newer = frame(1)
    asked[1]?.([newer], false)
    expect(desk.takeWeighings?.frames.get(1)).toBe(newer)
    expect(desk.takeWeighings?.fresh).toBe(false)
  })

  test('going back to a take that is weighed shows it at once, whatever is still being weighed', () => {
    const { asked, worker } = slow()
    const desk = new Desk(stancePlan(), { worker })
    const first = frame(0)
    asked[0]?.([first], true)
    desk.edit('Duplicate take', (plan) => duplicateTake(plan, desk.takeId, 'Second'))
    desk.setTake('take-2')
    expect(desk.takeWeighings?.fresh).toBe(false)
    desk.setTake('take-1')
    expect(desk.takeWeighings).toMatchObject({ takeId: 'take-1', fresh: true })
    asked[1]?.([frame(0)], true)
    expect(desk.takeWeighings?.frames.get(0)).toBe(first)
    desk.setTake('take-2')
    expect(desk.takeWeighings).toMatchObject({ takeId: 'take-2', fresh: true })
    expect(asked.length).toBe(2)
  })

  test('nothing is asked during a gesture nor for a change of another take', () => {
    const { asked, worker } = slow()
    const desk = new Desk(stancePlan(), { worker })
    desk.begin('Move pelvis')
    desk.change(moved(desk, 0.01))
    expect(asked.length).toBe(1)
    desk.commit()
    expect(asked.length).toBe(2)
    desk.edit('Duplicate take', (plan) => duplicateTake(plan, desk.takeId, 'Second'))
    expect(asked.length).toBe(2)
  })
})
