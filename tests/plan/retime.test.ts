import { describe, expect, it } from 'vitest'
import type { Plan } from '../../src/document/plan'
import { setControls } from '../../src/plan/edit/keys'
import { fewestFrames, retimeSpan } from '../../src/plan/edit/retime'
import { arcs, phases } from '../../src/plan/edit/things'
import { keyPosesOf } from '../../src/plan/key-poses'
import { readPlan } from '../../src/plan/read'
import { writePlan } from '../../src/plan/write'
import { firstTake, flat, knee, kneeSpans, smallPlan } from './small'

const T = 'take-1'
/** 24 frames; key poses 0, 10, 14, 20; the knee down 0 … 9 and, next to it, 10 … 19; lean 8 … 12; an arc. */
let plan: Plan = smallPlan([knee({ from: 0, to: 9 }), knee({ from: 10, to: 19 })])
for (const [i, frame] of [10, 14, 20].entries()) plan = setControls(plan, T, frame, flat(i + 1))
plan = phases.add(plan, T, { name: 'lean', from: 8, to: 12 })
plan = arcs.add(plan, T, { limb: 'armR', height: 0.1, side: 0, from: 10, to: 20 })

const story = (p: Plan) => {
  const take = firstTake(p)
  return {
    length: take.length,
    keys: keyPosesOf(take),
    knee: kneeSpans(p).map(([, from, to]) => [from, to]),
    lean: take.phases.map(({ from, to }) => [from, to]),
    arcs: take.arcs.map(({ from, to }) => [from, to]),
  }
}

describe('a span given another number of frames', () => {
  it('stretches what is in it, leaves what comes before and shifts what comes after', () => {
    expect(story(retimeSpan(plan, T, { from: 10, to: 20 }, 25))).toEqual({
      length: 39,
      keys: [0, 10, 20, 35],
      knee: [
        [0, 9],
        [10, 33],
      ],
      lean: [[8, 15]],
      arcs: [[10, 35]],
    })
  })

  it('touches that follow one another still do', () => {
    expect(story(retimeSpan(plan, T, { from: 0, to: 20 }, 61)).knee).toEqual([
      [0, 30],
      [31, 58],
    ])
  })

  it('keys and touches keep their order however short it gets', () => {
    const take = firstTake(plan)
    const span = { from: 0, to: 20 }
    // 0, 9, 10, 14, 19 and 20 stay apart.
    expect(fewestFrames(take, span)).toBe(5)
    const short = retimeSpan(plan, T, span, 1)
    expect(story(short)).toMatchObject({
      length: 9,
      keys: [0, 2, 3, 5],
      knee: [
        [0, 1],
        [2, 4],
      ],
    })
    expect(readPlan(new TextEncoder().encode(writePlan(short)))).toMatchObject({ ok: true })
  })

  it('the same number of frames is the same plan; a span outside the take is refused', () => {
    expect(retimeSpan(plan, T, { from: 0, to: 20 }, 20)).toBe(plan)
    expect(() => retimeSpan(plan, T, { from: 5, to: 30 }, 20)).toThrow(RangeError)
  })
})
