import { describe, expect, it } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { makeBody } from '../../src/body/model'
import { FLAT } from '../../src/contact/ground'
import type { Controls } from '../../src/document/channels'
import type { Plan, Take } from '../../src/document/plan'
import { liftPart } from '../../src/plan/edit/contacts'
import { scaleTime } from '../../src/plan/edit/frames'
import { setControls } from '../../src/plan/edit/keys'
import { resizePlan } from '../../src/plan/edit/resize'
import { newPlan } from '../../src/plan/new'
import { makeMotion } from '../../src/pose/between'
import { makeStance } from '../../src/pose/stances'
import { bestLeast } from '../../src/shift/best-least'
import { beatFrames, referenceSpeed, shootingFps } from '../../src/shift/reads-acting'
import { loadLimitAt, type Reading, readsAs, retimeToRead, timeForSize } from '../../src/shift/reads-as'
import { gravitySpans, timedBest, timedSpan } from '../../src/shift/reads-spans'
import { between, random } from '../../src/space/random'
import { dynamicsOf } from '../../src/weigh/dynamics'
import { findLeans } from '../../src/weigh/lean'
import { weigh } from '../../src/weigh/weigh'

const PERSON = { stature: 1.75, mass: 75 }

describe('size laws', () => {
  it('time goes with √length at the same gravity (exact)', () => {
    for (const [times, time] of [
      [2, Math.SQRT2],
      [0.5, Math.SQRT1_2],
      [10, 3.162],
    ] as const)
      expect(timeForSize(times)).toBeCloseTo(time, 3)
  })

  // 1:4 read in The VES Handbook of Visual Effects, App. A, miniature photography; the others derived from its 24 √m.
  it.each([
    [4, 48],
    [16, 96],
    [8, 67.9],
    [24, 117.6],
  ])('a miniature 1:%i is shot at %f frames a second to be played at 24', (scale, fps) => {
    expect(shootingFps(24, scale)).toBeCloseTo(fps, 1)
    expect(referenceSpeed(scale) * shootingFps(24, scale)).toBeCloseTo(24, 9)
  })

  // Transactions of the SMPE, May 1924: apparent size goes with the square of the stretch of time.
  it('apparent size goes with the square of how much longer it takes', () => {
    const own = readsAs({ seconds: 1.3, least: 1 }, PERSON)
    const longer = readsAs({ seconds: 2 * 1.3, least: 1 }, PERSON)
    for (const end of [0, 1] as const) expect(longer.times[end] / own.times[end]).toBeCloseTo(4, 9)
  })

  // Haldane, On Being the Right Size (1928): ten times taller, a thousand times the weight on a hundred times the bone.
  it('ten times taller stands ten times the stress, so a limit in its own weights falls to a tenth', () => {
    expect(loadLimitAt(2, 10)).toBeCloseTo(0.2, 12)
    const { times, mass } = readsAs({ seconds: 2, least: 1 }, PERSON)
    expect(mass[0] / PERSON.mass).toBeCloseTo(times[0] ** 3, 9)
  })

  // Rows 2 and 6 of the table of least times: the same shift at twice the size takes √2 as long.
  it('the least time of a shift goes with √size, so its pace says the same of either', () => {
    const shift = (s: number) => {
      const least = bestLeast({
        from: 0,
        to: 0.1 * s,
        support: [-0.15 * s, 0.15 * s],
        leading: 0.15 * s,
        height: 0.6 * s,
        gravity: 9.81,
      })
      return least.ok ? least.seconds : Number.NaN
    }
    expect(shift(1)).toBeCloseTo(0.5307, 4)
    expect(shift(2)).toBeCloseTo(0.7505, 4)
    const seconds = 1.8 * shift(2)
    const asSmall = readsAs({ seconds, least: shift(1) }, { stature: 1, mass: 1 })
    const asLarge = readsAs({ seconds, least: shift(2) }, { stature: 2, mass: 8 })
    for (const end of [0, 1] as const) {
      expect(asSmall.stature[end]).toBeCloseTo(asLarge.stature[end], 9)
      expect(asSmall.mass[end]).toBeCloseTo(asLarge.mass[end], 9)
    }
  })
})

describe('a reading', () => {
  it('at the reference paces has its own size at an end of the range', () => {
    expect(readsAs({ seconds: 1.8, least: 1 }, PERSON).stature[0]).toBeCloseTo(1.75, 9)
    expect(readsAs({ seconds: 1.2, least: 1 }, PERSON).stature[1]).toBeCloseTo(1.75, 9)
  })

  it('below the least time is no body of this size, and well above it slow', () => {
    const kind = (pace: number) => readsAs({ seconds: pace, least: 1 }, PERSON).kind
    expect([0.99, 1.01, 3.9, 4.1].map(kind)).toEqual(['no body', 'sized', 'sized', 'slow'])
    expect(readsAs({ seconds: 1, least: 0 }, PERSON)).toMatchObject({
      kind: 'slow',
      pace: Number.POSITIVE_INFINITY,
    })
  })

  it('can’t be retimed from a pace that says nothing', () => {
    for (const pace of [0, -1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => retimeToRead(pace, 1)).toThrow(RangeError)
  })
})

describe('beats tapped on footage', () => {
  it('come √times later after the first, one frame at least after another', () => {
    const beats = [
      { name: 'starts', seconds: 0.4 },
      { name: 'leaves', seconds: 0.9 },
      { name: 'weight over', seconds: 0.89 },
      { name: 'touches', seconds: 1.4 },
    ] as const
    expect(beatFrames(beats, 4, 24, 10)).toEqual([
      { name: 'starts', frame: 10 },
      { name: 'weight over', frame: 34 },
      { name: 'leaves', frame: 35 },
      { name: 'touches', frame: 58 },
    ])
    expect(beatFrames([], 4, 24)).toEqual([])
  })
})

/** A few here; READS_PLANS=200 runs the long form, which found none outside its range. */
const PLANS = Number(process.env.READS_PLANS ?? 20)

it(`a plan retimed to read as s is read back as s within its range, on ${PLANS} random plans`, {
  timeout: 1_200_000,
}, () => {
  const next = random(7)
  let read = 0
  let drawn = 0
  while (read < PLANS) {
    expect(drawn++).toBeLessThan(2 * PLANS)
    const plan = randomPlan(next)
    const before = readingOf(plan)
    if (before === null || !Number.isFinite(before.pace)) continue
    const wanted = between(next, 0.5, 4)
    const after = readingOf(scaleTime(plan, 'take-1', retimeToRead(before.pace, wanted)))
    expect(after?.times[0]).toBeLessThan(wanted)
    expect(after?.times[1]).toBeGreaterThan(wanted)
    read++
  }
})

it('a pace from one look at a span is that of its least frames to 15 %', () => {
  const next = random(11)
  for (let i = 0; i < 6; i++) {
    const { problem, span, timed } = timedOf(randomPlan(next))
    const best = timedBest(problem, span)
    if (timed === null || best === null) continue
    expect(Math.abs(Math.log(timed.least / best.least))).toBeLessThan(0.15)
  }
})

const SPEC = (BUILDS[0] as (typeof BUILDS)[number]).spec
const RATES = [12, 15] as const

/** Kneeling tall, across onto the right knee, the left one up, forward or aside and down again, and back. */
function randomPlan(next: () => number): Plan {
  const body = makeBody(SPEC)
  const stance = makeStance('tall-kneel', body, FLAT)
  const [lean] = findLeans({
    body,
    ground: FLAT,
    gravity: 9.81,
    controls: stance.controls,
    contacts: stance.contacts,
    loads: [],
    mover: { limb: 'legL', toesStay: false },
  })
  const over = lean?.controls as Controls
  const num = RATES[Math.floor(next() * RATES.length)] ?? 12
  const stature = between(next, 0.6, 8)
  // From quick to easy for a body of this size, by trial.
  const slow = Math.sqrt(stature / SPEC.stature) * between(next, 0.8, 1.6)
  const frames = (low: number, high: number) => Math.round(between(next, low, high) * slow * num)
  const leaned = frames(1, 2)
  const leaves = leaned + frames(0.3, 0.6)
  const up = leaves + frames(0.7, 1.2)
  const touches = up + frames(0.7, 1.2)
  const last = touches + frames(1, 2)
  let plan = newPlan({
    title: 'Random',
    character: 'Body',
    body: SPEC,
    controls: stance.controls,
    contacts: stance.contacts.map(({ id: _, from: __, to: ___, ...contact }) => contact),
    rate: { num, den: 1 },
    length: last + 1,
  })
  const key = (frame: number, controls: Controls) => {
    plan = setControls(plan, 'take-1', frame, controls)
  }
  const lifted: Controls = {
    ...over,
    'legL.knee.y': over['legL.knee.y'] + between(next, 0.02, 0.08) * SPEC.stature,
    'legL.knee.x': over['legL.knee.x'] + between(next, -0.01, 0.03) * SPEC.stature,
    'legL.ankle.y': over['legL.ankle.y'] + between(next, 0.02, 0.05) * SPEC.stature,
  }
  key(leaned, over)
  key(up, lifted)
  key(touches, over)
  key(last, stance.controls)
  plan = liftPart(plan, 'take-1', 'kneeL', leaves + 1, touches - 1)
  plan = liftPart(plan, 'take-1', 'footL', leaves + 1, touches - 1)
  return resizePlan(plan, stature)
}

/** What the only move of a take reads as; null where no pace could be held. */
function readingOf(plan: Plan): Reading | null {
  const { timed } = timedOf(plan)
  return timed && readsAs(timed, plan.body)
}

function timedOf(plan: Plan) {
  const take = plan.takes[0] as Take
  const body = makeBody(plan.body)
  const fps = plan.rate.num / plan.rate.den
  const { ground, gravity } = plan
  const problem = { body, ground, gravity, take, motion: makeMotion(body, take), fps }
  const dynamics = dynamicsOf(problem)
  const [span, ...others] = gravitySpans(take, (limb, frame) => {
    const { contacts, body: borne } = dynamics.at(frame)
    const { limbs } = weigh(contacts, borne, { ranges: false, region: false })
    return limbs.find(({ id }) => id === limb)?.load ?? 0
  })
  expect(others).toEqual([])
  if (!span) throw new Error('the take has no move')
  expect(span).toMatchObject({ kind: 'move', limb: 'legL' })
  return { problem, span, timed: timedSpan(span, fps, (frame) => dynamics.at(frame)) }
}
