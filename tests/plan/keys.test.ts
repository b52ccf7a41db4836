import { describe, expect, it } from 'vitest'
import { LIMITS } from '../../src/document/limits'
import { copyKeys, deleteKeys, moveKeys, setControls, setEase } from '../../src/plan/edit/keys'
import { controlsAtKey, keyedFramesOf, keyPosesOf } from '../../src/plan/key-poses'
import { firstTake, flat, smallPlan } from './small'

const T = 'take-1'
const plan = setControls(setControls(smallPlan(), T, 10, flat(1)), T, 20, flat(2))
const headKeys = (p: typeof plan) =>
  firstTake(p).channels['head.tilt'].map(({ frame, value }) => [frame, value])

describe('key poses', () => {
  it('are the frames where every channel is keyed; a frame where some are is a breakdown', () => {
    const broken = setControls(plan, T, 15, { 'head.tilt': 0.3, 'pelvis.x': 1 })
    expect(keyPosesOf(firstTake(broken))).toEqual([0, 10, 20])
    expect(keyedFramesOf(firstTake(broken)).map(({ frame, mark }) => [frame, mark])).toEqual([
      [0, 'key'],
      [10, 'key'],
      [15, 'breakdown'],
      [20, 'key'],
    ])
    expect(keyedFramesOf(firstTake(broken))[2]?.channels).toEqual(['pelvis.x', 'head.tilt'])
  })

  it('give back the controls they were made from, breakdowns give none', () => {
    expect(controlsAtKey(firstTake(plan), 10)).toEqual(flat(1))
    const broken = setControls(plan, T, 15, { 'head.tilt': 0.3 })
    expect(controlsAtKey(firstTake(broken), 15)).toBeUndefined()
    expect(controlsAtKey(firstTake(broken), 16)).toBeUndefined()
  })
})

describe('setControls', () => {
  it('keys some channels and shares the others', () => {
    const after = setControls(plan, T, 5, { 'head.tilt': 0.3 })
    expect(headKeys(after)).toEqual([
      [0, 0],
      [5, 0.3],
      [10, 1],
      [20, 2],
    ])
    expect(firstTake(after).channels['head.turn']).toBe(firstTake(plan).channels['head.turn'])
    expect(after.ground).toBe(plan.ground)
  })

  it('keeps the ease of a key that is there', () => {
    const eased = setEase(plan, T, 10, { in: 1, out: 0.2 })
    const after = setControls(eased, T, 10, { 'head.tilt': 9 })
    expect(firstTake(after).channels['head.tilt'][1]).toEqual({ frame: 10, value: 9, in: 1, out: 0.2 })
  })

  it('brings frames into the take and values within their limits', () => {
    const after = setControls(plan, T, 99.4, { 'head.tilt': 1e9, 'pelvis.x': -1e9 })
    expect(firstTake(after).channels['head.tilt'].at(-1)).toMatchObject({ frame: 23, value: LIMITS.angle[1] })
    expect(firstTake(after).channels['pelvis.x'].at(-1)).toMatchObject({ frame: 23, value: LIMITS.place[0] })
  })

  it('throws on NaN, on an infinity and on a take that is not there', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => setControls(plan, T, 0, { 'head.tilt': value })).toThrow(RangeError)
    expect(() => setControls(plan, T, Number.NaN, { 'head.tilt': 0 })).toThrow(RangeError)
    expect(() => setControls(plan, 'take-9', 0, { 'head.tilt': 0 })).toThrow(/no "take-9" among take-1/)
  })

  it('gives back the very plan for the values that are there', () => {
    expect(setControls(plan, T, 10, flat(1))).toBe(plan)
    expect(setControls(plan, T, 10, {})).toBe(plan)
  })

  it('adds no key beyond the limit of a channel', () => {
    const keys = Array.from({ length: LIMITS.keysPerChannel }, (_, frame) => ({
      frame,
      value: 0,
      in: 0,
      out: 0,
    }))
    const take = firstTake(plan)
    const full = {
      ...plan,
      takes: [{ ...take, length: 6000, channels: { ...take.channels, 'head.tilt': keys } }],
    }
    expect(setControls(full, T, 5500, { 'head.tilt': 1 })).toBe(full)
  })
})

describe('moving, copying and deleting keys', () => {
  it('moves a key pose, past another too, and replaces one', () => {
    expect(headKeys(moveKeys(plan, T, 10, 12))).toEqual([
      [0, 0],
      [12, 1],
      [20, 2],
    ])
    expect(headKeys(moveKeys(plan, T, 0, 22))).toEqual([
      [10, 1],
      [20, 2],
      [22, 0],
    ])
    expect(headKeys(moveKeys(plan, T, 0, 20))).toEqual([
      [10, 1],
      [20, 0],
    ])
  })

  it('copies a key pose with its ease', () => {
    const after = copyKeys(setEase(plan, T, 10, { in: 0.1, out: 0.9 }), T, 10, 20)
    expect(firstTake(after).channels['head.tilt'][2]).toEqual({ frame: 20, value: 1, in: 0.1, out: 0.9 })
    expect(headKeys(after)).toEqual([
      [0, 0],
      [10, 1],
      [20, 1],
    ])
  })

  it('deletes some keys or all, but never the only one of a channel', () => {
    expect(keyPosesOf(firstTake(deleteKeys(plan, T, 10)))).toEqual([0, 20])
    expect(keyedFramesOf(firstTake(deleteKeys(plan, T, 10, ['head.tilt'])))[1]?.mark).toBe('breakdown')
    expect(deleteKeys(smallPlan(), T, 0)).toEqual(smallPlan())
  })

  it('gives back the very plan where there is no key, or nowhere to go', () => {
    expect(moveKeys(plan, T, 7, 12)).toBe(plan)
    expect(moveKeys(plan, T, 10, 10)).toBe(plan)
    expect(copyKeys(plan, T, 7, 12)).toBe(plan)
    expect(deleteKeys(plan, T, 7)).toBe(plan)
    expect(setEase(plan, T, 7, { in: 1 })).toBe(plan)
    expect(setEase(plan, T, 10, { in: 0.5 })).toBe(plan)
  })
})
