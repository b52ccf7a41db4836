import { describe, expect, it } from 'vitest'
import type { Plan } from '../../src/document/plan'
import { insertFrames, removeFrames, scaleTime, setLength } from '../../src/plan/edit/frames'
import { setControls } from '../../src/plan/edit/keys'
import { accents, arcs, notes, phases, setAside } from '../../src/plan/edit/things'
import { keyPosesOf } from '../../src/plan/key-poses'
import { firstTake, flat, knee, kneeSpans, smallPlan } from './small'

const T = 'take-1'
/**
 * 24 frames: key poses 0, 10, 20; knee down 0 … 9 and 10 … 19; lean 8 … 12; a note and an accent on 20,
 * one set aside on 9; arcs between the key poses.
 */
let plan: Plan = smallPlan([knee({ from: 0, to: 9 }), knee({ from: 10, to: 19 })])
plan = setControls(setControls(plan, T, 10, flat(1)), T, 20, flat(2))
plan = notes.add(phases.add(plan, T, { name: 'lean', from: 8, to: 12 }), T, { frame: 20, text: 'late' })
const arc = { limb: 'armR', height: 0.1, side: 0 } as const
plan = arcs.add(arcs.add(plan, T, { ...arc, from: 0, to: 10 }), T, { ...arc, from: 10, to: 20 })
plan = accents.add(plan, T, { frame: 20, name: 'blink' })
plan = setAside.add(plan, T, { rule: 'knee-slides', from: 9, reason: 'wet' })

const story = (p: Plan) => {
  const take = firstTake(p)
  return {
    length: take.length,
    keys: keyPosesOf(take),
    knee: kneeSpans(p).map(([, from, to]) => [from, to]),
    lean: take.phases.map(({ from, to }) => [from, to]),
    note: take.notes.map(({ frame }) => frame),
    arcs: take.arcs.map(({ from, to }) => [from, to]),
    accent: take.accents.map(({ frame }) => frame),
    aside: take.setAside.map(({ from }) => from),
  }
}

describe('another number of frames', () => {
  it('cuts what lies past the end; notes move to the last frame, accents and what is set aside go', () => {
    expect(story(setLength(plan, T, 11))).toEqual({
      length: 11,
      keys: [0, 10],
      knee: [
        [0, 9],
        [10, 10],
      ],
      lean: [[8, 10]],
      note: [10],
      arcs: [[0, 10]],
      accent: [],
      aside: [9],
    })
    expect(story(setLength(plan, T, 5))).toEqual({
      length: 5,
      keys: [0],
      knee: [[0, 4]],
      lean: [],
      note: [4],
      arcs: [[0, 4]],
      accent: [],
      aside: [],
    })
  })

  it('only adds room when it grows', () => {
    const longer = setLength(plan, T, 100)
    expect(story(longer)).toEqual({ ...story(plan), length: 100 })
    expect(firstTake(longer).channels).toBe(firstTake(plan).channels)
    expect(setLength(plan, T, 24)).toBe(plan)
  })

  it('keeps the value of a channel that is keyed only past the new end', () => {
    const take = firstTake(plan)
    const late = { ...take, channels: { ...take.channels, 'head.tilt': take.channels['head.tilt'].slice(2) } }
    const cut = setLength({ ...plan, takes: [late] }, T, 5)
    expect(firstTake(cut).channels['head.tilt']).toEqual([{ frame: 4, value: 2, in: 0.5, out: 0.5 }])
  })
})

describe('frames put in', () => {
  it('come before the frame: spans that end there end there, spans across it last longer', () => {
    expect(story(insertFrames(plan, T, 10, 4))).toEqual({
      length: 28,
      keys: [0, 14, 24],
      knee: [
        [0, 9],
        [14, 23],
      ],
      lean: [[8, 16]],
      note: [24],
      arcs: [
        [0, 14],
        [14, 24],
      ],
      accent: [24],
      aside: [9],
    })
  })

  it('and taken out again leave the plan as it was', () => {
    expect(removeFrames(insertFrames(plan, T, 10, 4), T, 10, 4)).toEqual(plan)
    expect(insertFrames(plan, T, 10, 0)).toBe(plan)
    expect(removeFrames(plan, T, 10, 0)).toBe(plan)
  })
})

it('frames taken out take their keys along', () => {
  expect(story(removeFrames(plan, T, 8, 6))).toEqual({
    length: 18,
    keys: [0, 14],
    knee: [
      [0, 7],
      [8, 13],
    ],
    lean: [],
    note: [14],
    arcs: [
      [0, 8],
      [8, 14],
    ],
    accent: [14],
    aside: [],
  })
  expect(story(removeFrames(plan, T, 0, 99))).toMatchObject({ length: 1, arcs: [] })
  expect(story(removeFrames(plan, T, 0, 10)).arcs).toEqual([[0, 10]])
})

describe('scaling the time', () => {
  it('carries everything to the nearest frame and keeps neighbours neighbours', () => {
    expect(story(scaleTime(plan, T, Math.SQRT2))).toEqual({
      length: 34,
      keys: [0, 14, 28],
      knee: [
        [0, 13],
        [14, 27],
      ],
      lean: [[11, 17]],
      note: [28],
      arcs: [
        [0, 14],
        [14, 28],
      ],
      accent: [28],
      aside: [13],
    })
    expect(scaleTime(plan, T, 1)).toBe(plan)
  })

  it('ends a touch where a key on its last frame goes, whatever the factor', () => {
    for (let k = 0.3; k < 3; k += 0.0731) {
      const made = scaleTime(smallPlan([knee({ from: 0, to: 9 })]), T, k)
      expect(kneeSpans(made).map(([, from, to]) => [from, to])).toEqual([[0, Math.round(9 * k)]])
      const whole = scaleTime(smallPlan([knee({ from: 0, to: 23 })]), T, k)
      expect(kneeSpans(whole)[0]?.[2]).toBe(firstTake(whole).length - 1)
    }
  })

  it('keeps the earlier of two keys that meet, and a phase of at least a frame', () => {
    const quick = scaleTime(setControls(plan, T, 11, flat(7)), T, 0.1)
    expect(story(quick)).toMatchObject({ length: 2, keys: [0, 1], lean: [[1, 1]], arcs: [[0, 1]] })
    expect(firstTake(quick).channels['head.tilt'][1]?.value).toBe(1)
  })
})
