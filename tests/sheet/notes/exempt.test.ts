import { describe, expect, it } from 'vitest'
import type { ContactSpan } from '../../../src/document/contacts'
import { RULES } from '../../../src/sheet/notes/rules'
import { stancePlan } from '../../support/plans'
import { deg, type Env, eased, measured, ramp, type Scene, type Stir } from './scene'

/** What looks like a fault and isn't one. A body of 1.8 m at 24 frames a second, on ones: every scale is 1. */
const ENV: Env = { stature: 1.8, fps: 24, on: 1 }

const read = (rule: string, scene: Omit<Scene, 'env'>) =>
  RULES.find(({ id }) => id === rule)?.fires(measured({ env: ENV, ...scene })) ?? []

const toLeft =
  (way: number, from: number, to: number) =>
  (time: number): Stir => ({
    share: { legL: 0.6 },
    pads: { kneeL: [way * ramp(time, from, to), 0, 0] },
  })

const changed =
  (part: string, changes: Partial<ContactSpan>) =>
  (spans: readonly ContactSpan[]): ContactSpan[] =>
    spans.map((span) => (span.part === part ? { ...span, ...changes } : span))

describe('not a slide', () => {
  it('is a drag that is marked', () => {
    expect(read('slides', { seconds: 2, at: toLeft(0.2, 0.5, 1.5) })).toHaveLength(1)
    const contacts = changed('kneeL', { state: 'sliding' })
    expect(read('slides', { seconds: 2, at: toLeft(0.2, 0.5, 1.5), contacts })).toEqual([])
  })

  it('is flesh that spreads on an impact: up to 6 cm in the first quarter of a second', () => {
    const contacts = changed('kneeL', { from: 12 })
    const spread = (way: number, to: number) =>
      read('slides', { seconds: 2, at: toLeft(way, 0.5, to), contacts })
    expect(spread(0.055, 0.7)).toEqual([])
    expect(spread(0.065, 0.7)).toHaveLength(1)
    expect(spread(0.055, 1)).toHaveLength(1)
  })

  it('is less than 3 mm, however quick', () => {
    expect(read('slides', { seconds: 2, at: toLeft(0.0029, 0.5, 0.501) })).toEqual([])
  })
})

describe('not lifted too early', () => {
  const contacts = (spans: readonly ContactSpan[]) =>
    spans.map((span) => (span.part.endsWith('L') ? { ...span, to: 24 } : span))
  const push = (rise: number, up: number) =>
    read('lifts-early', {
      seconds: 2,
      contacts,
      at: (time) => ({ least: { legL: 0.3 + rise * Math.round((time - 1) * 24) }, up }),
    })

  it('is a leg that pushes off: its load just rises, and the ground gives more than the weight', () => {
    expect(push(0.06, 1.06)).toEqual([])
    expect(push(0.04, 1.06)).toHaveLength(1)
    expect(push(0.06, 1.04)).toHaveLength(1)
  })
})

describe('the head', () => {
  const turned = (time: number): Stir => ({ chest: { turn: deg(25) * ramp(time, 1, 1.25) } })

  it('may be kept by a gaze, and is then asked only for a little roll', () => {
    const [free] = read('head', { seconds: 2, at: turned })
    expect(free?.level).toBeUndefined()
    const [gazing] = read('head', { seconds: 2, at: turned, options: { gaze: [{ from: 0, to: 48 }] } })
    expect(gazing?.level).toBe('style')
    expect(gazing?.sentence).toMatch(/rolls a little/)
  })
})

describe('the hand', () => {
  it('is not asked to drag while both hands carry something', () => {
    const swings = (time: number): Stir => ({ forearmL: { tilt: deg(20) * ramp(time, 1, 1.25) } })
    expect(read('hand', { seconds: 2, at: swings })).toHaveLength(1)
    const load = { id: 'a', name: 'Stone', mass: 5, on: 'hands', offset: [0, 0, 0], from: 0, to: 48 } as const
    expect(read('hand', { seconds: 2, at: swings, take: { loads: [load] } })).toEqual([])
  })
})

describe('a hold', () => {
  const stop = (time: number): Stir => {
    const gone = eased(time, 0, 1.5)
    return { move: [0.3 * gone, 0, 0], chest: { list: deg(25) * gone }, head: { list: deg(50) * gone } }
  }

  it('that is meant is not a dead stop', () => {
    expect(read('dead', { seconds: 3, at: stop })).toHaveLength(1)
    expect(read('dead', { seconds: 3, at: stop, options: { holds: [{ from: 34, to: 72 }] } })).toEqual([])
  })
})

describe('a tremble', () => {
  it('of one drawing just after a stop hides it no more than a still one', () => {
    const stops = (tremble: number) => (time: number) => {
      const gone = ramp(time, 0, 1.5)
      const after = tremble * ramp(time, 1.5 + 1 / 24, 1.5 + 2 / 24)
      return { move: [0.3 * gone + after, 0, 0], chest: { list: deg(25) * gone } } as const
    }
    for (const tremble of [0, 0.001]) expect(read('dead', { seconds: 3, at: stops(tremble) })).toHaveLength(1)
  })
})

describe('a hand that ends a little before all others', () => {
  const at = (time: number): Stir => {
    const gone = ramp(time, 0, 1.5)
    return {
      move: [0.3 * gone, 0, 0],
      chest: { list: deg(25) * gone },
      joints: { knuckleL: [0.3 * (ramp(time, 0, 1.3) - gone), 0, 0] },
    }
  }
  const down = (spans: readonly ContactSpan[], last: number): ContactSpan[] => [
    ...spans,
    { ...(spans[0] as ContactSpan), id: 'palm', part: 'handL', kind: 'palm', from: 31, to: last },
  ]

  it('trails in the air, and then it is no dead stop; one that came down has landed', () => {
    expect(read('dead', { seconds: 3, at })).toEqual([])
    expect(read('dead', { seconds: 3, at, contacts: down })).toHaveLength(1)
  })
})

describe('reach', () => {
  const percent = (beyond: number): Stir => {
    const { lengths } = measured({ env: ENV, seconds: 0.1, at: () => ({}) }).body
    const by = (beyond / 100) * (lengths.upperArm + lengths.forearm + lengths.hand)
    return { limits: [{ code: 'arm-straight', limb: 'armL', by, text: '' }] }
  }

  it.each([
    ['grounded', 2],
    ['pushed', 8],
    ['graphic', 25],
  ] as const)('%s allows %i %%', (style, most) => {
    const at = (beyond: number) =>
      read('reach', { seconds: 1, at: () => percent(beyond), options: { style } })
    expect(at(most - 0.1)).toEqual([])
    expect(at(most + 0.1)).toHaveLength(1)
  })
})

describe('the weight of a body that is caught', () => {
  it('may be outside as long as its motion holds it', () => {
    const out: Stir = { weight: [0.5, 0, 0], room: -0.1 }
    expect(read('balance', { seconds: 2, at: () => out })).toHaveLength(1)
    expect(read('balance', { seconds: 2, at: () => ({ ...out, room: 0.01 }) })).toEqual([])
  })
})

describe('accents', () => {
  const accents = [
    { id: 'a', frame: 12, name: 'Blink' },
    { id: 'b', frame: 13, name: 'Fist closes' },
  ]
  const on = (frames: 1 | 2) =>
    read('accents', { seconds: 1, at: () => ({}), take: { accents }, options: { on: frames } })

  it('fall together where they come on one drawing', () => {
    expect(on(1)).toEqual([])
    const [found] = on(2)
    expect(found?.sentence).toBe('Blink and Fist closes start together at 1013.')
    const plan = stancePlan()
    const marked = { ...plan, takes: plan.takes.map((take) => ({ ...take, accents })) }
    const [apart] = found?.remedy.fix?.(marked, marked.takes[0]?.id ?? '').takes ?? []
    expect(apart?.accents.map(({ frame }) => frame)).toEqual([12, 18])
  })
})

describe('a size clause of the push', () => {
  const blow =
    (sizes: readonly number[]) =>
    (time: number): Stir => ({
      push: [sizes[Math.round(time * 60) - 30] ?? 0, 0, 0],
    })
  const at = (sizes: readonly number[]) =>
    RULES.find(({ id }) => id === 'push')?.fires(
      measured({ env: { stature: 6, fps: 60, on: 1 }, seconds: 2, at: blow(sizes) }),
    )

  it('takes 30 % of the weight on two drawings, one after the other', () => {
    // Together they give less than 0.15 m/s · √s.
    expect(at([0.32, 0.32])).toHaveLength(1)
    expect(at([0.28, 0.28])).toEqual([])
    expect(at([0.32, 0, 0.32])).toEqual([])
  })
})

it('knows its rules by ids of their own', () => {
  expect(new Set(RULES.map(({ id }) => id)).size).toBe(RULES.length)
})
