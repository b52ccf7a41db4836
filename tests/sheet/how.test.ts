import { describe, expect, test } from 'vitest'
import { makeBody } from '../../src/body/model'
import type { ContactKind } from '../../src/document/contacts'
import type { Plan, Take } from '../../src/document/plan'
import { loadsAt, makeMotion } from '../../src/pose/between'
import { columnsOf } from '../../src/sheet/columns'
import { centimetres } from '../../src/sheet/format'
import type { How, HowFacts } from '../../src/sheet/how'
import { bodyHows, frictionHow, stiffnessHow } from '../../src/sheet/how-body'
import { columnHow, sharedId } from '../../src/sheet/how-columns'
import { loadHows } from '../../src/sheet/how-loads'
import { leastHow, motionHows } from '../../src/sheet/how-motion'
import { figureParts } from '../../src/sheet/how-parts'
import { roomHows } from '../../src/sheet/how-room'
import { trialHows } from '../../src/sheet/how-trial'
import { liftWords } from '../../src/sheet/lift-words'
import { sheetOf } from '../../src/sheet/sheet'
import { verdictWords } from '../../src/sheet/words'
import { leastFrames } from '../../src/shift/least-frames'
import type { BothVerdicts, DynamicFrame } from '../../src/weigh/dynamic'
import { moverPads, weighPose } from '../../src/weigh/pose'
import { weighMotionOf } from '../../src/worker/weigh-motion'
import { capstone } from '../support/capstone'
import { readFigure, workOut } from '../support/formula'
import { stancePlan } from '../support/plans'
import { slippingPlan } from '../support/slipping'
import { tried } from '../trial/poses'

const demo = capstone()
/** The mason far out over his right side: held by a push from nowhere. */
const leaning: Plan = {
  ...demo,
  takes: demo.takes.map((take) => ({
    ...take,
    channels: {
      ...take.channels,
      'pelvis.x': take.channels['pelvis.x'].map((key) => ({ ...key, value: key.value - 0.35 })),
      'chest.list': take.channels['chest.list'].map((key) => ({ ...key, value: 0.5 })),
    },
  })),
}
const soft: Plan = { ...demo, stiffness: { fist: 0.1, toes: 1 } }

function factsAt(plan: Plan, frame: number): HowFacts {
  const take = plan.takes[0] as Take
  const body = makeBody(plan.body)
  const pose = makeMotion(body, take).poseAt(frame)
  const weighed = weighPose(plan.ground, plan.gravity, body.stature, pose, plan)
  return {
    plan,
    take,
    body,
    pose,
    weighed,
    verdict: weighed.judge(take.mover),
    unit: centimetres(body.stature),
  }
}

const CASES: readonly (readonly [string, Plan, readonly number[]])[] = [
  ['the demo', demo, [0, 9, 17, 26, 31, 33, 45, 60]],
  ['a lean too far', leaning, [0, 17]],
  ['pads of other stiffness', soft, [0, 26]],
  ['a person kneeling', stancePlan(), [0]],
  ['a person standing', stancePlan('standing'), [0]],
]

/** Works it out from its own inputs, and reads what is shown. */
function check(how: How, rounds: 'nearest' | 'up' = 'nearest'): void {
  const worked = workOut(how)
  if (typeof how.result.value === 'string') {
    expect(worked, how.id).toBe(how.result.value)
    expect(how.result.text, how.id).toBe(how.result.value)
    return
  }
  expect(worked as number, `${how.id}: ${how.formula}`).toBeCloseTo(how.result.value, 9)
  shows(how, Math.abs(worked as number), rounds)
}

/** Signs are said in words: it is the size that is read. */
function shows({ id, result: { text } }: How, size: number, rounds: 'nearest' | 'up'): void {
  if (text.startsWith('under')) {
    expect(size, id).toBeLessThan(0.005)
    return
  }
  const read = readFigure(text)
  if (read === null) throw new Error(`${id}: “${text}” is no figure`)
  const off = Math.abs(read.value) - size
  expect(off, `${id} shows ${text}`).toBeLessThanOrEqual((rounds === 'up' ? 1 : 0.5) * read.step + 1e-6)
  expect(off, `${id} shows ${text}`).toBeGreaterThanOrEqual((rounds === 'up' ? 0 : -0.5) * read.step - 1e-6)
}

describe.each(CASES)('%s', (_, plan, frames) => {
  test.each(frames)('at frame %i, loads, leasts, verdict and push come of their own inputs', (frame) => {
    const hows = loadHows(factsAt(plan, frame))
    for (const how of hows) check(how)
    expect(hows.map(({ id }) => id)).toContain('verdict')
  })

  test.each(frames)('at frame %i, ways and room come of their own inputs', (frame) => {
    for (const how of roomHows(factsAt(plan, frame))) check(how, how.id === 'room' ? 'nearest' : 'up')
  })

  test.each(frames)('at frame %i, every figure of the sentences has its explanation', (frame) => {
    const facts = factsAt(plan, frame)
    const words = verdictWords({
      ...facts,
      weighing: facts.weighed.weighing,
      mover: facts.take.mover,
      gravity: plan.gravity,
    })
    const loads = loadHows(facts)
    const said = loads.filter(({ id }) => /mover$|^push$/.test(id))
    const hows = [...said, ...roomHows(facts).filter(({ id }) => id !== 'room')]
    for (const sentence of words.sentences) {
      const rest = figureParts(sentence, hows)
        .filter(({ how }) => how === null)
        .map(({ text }) => text)
      expect(rest.join('…'), sentence).not.toMatch(/\d/)
    }
    const verdict = loads.filter(({ id }) => id === 'verdict')
    expect(
      figureParts(words.headline, verdict).some(({ how }) => how !== null),
      words.headline,
    ).toBe(true)
  })

  test('every number of its timing sheet has an explanation that gives it', () => {
    const take = plan.takes[0] as Take
    const motion = makeMotion(makeBody(plan.body), take)
    const weighed = new Map(frames.map((frame) => [frame, factsAt(plan, frame)]))
    const sheet = sheetOf(plan, take, motion, (frame) => {
      const facts = weighed.get(frame)
      return facts && { weighing: facts.weighed.weighing, verdict: facts.verdict }
    })
    for (const angles of ['world', 'parent'] as const)
      for (const column of columnsOf(sheet, { angles }))
        for (const frame of frames) {
          const row = sheet.rows[frame]
          if (row === undefined || typeof column.of(row) !== 'number' || column.text(row) === '') continue
          const facts = weighed.get(frame) as HowFacts
          const how = columnHow(column, row, facts, { header: sheet.header, motion, angles })
          if (how === null) throw new Error(`${column.id} has none`)
          agrees(column.of(row) as number, how, column.unit)
        }
  })
})

/** A cell holds its value in the column's unit: per cent, degrees, the unit of length. */
function agrees(cell: number, how: How, unit: string): void {
  const worked = workOut(how) as number
  const scaled = how.id.startsWith('column.')
    ? unit === '°'
      ? degrees(worked)
      : worked
    : worked * (SCALE[unit] ?? 1)
  expect(scaled, `${how.id}: ${how.formula}`).toBeCloseTo(cell, 6)
}
const degrees = (angle: number) => (angle * 180) / Math.PI
const SCALE: Readonly<Record<string, number>> = { '%': 100, cm: 100 }

describe('a body in motion', () => {
  const plan = slippingPlan()
  const take = plan.takes[0] as Take
  const frames: DynamicFrame[] = []
  for (const piece of weighMotionOf({ plan, near: 0 }))
    if (piece !== undefined && 'frame' in piece) frames[piece.frame] = piece

  test('loads, push, room and verdict of every frame come of their own inputs', () => {
    for (const frame of frames) {
      const hows = motionHows(factsAt(plan, frame.frame), frame)
      for (const how of hows) check(how)
      expect(hows.map(({ id }) => id)).toContain('motion.verdict')
      expect(hows.some(({ id }) => id === 'motion.push')).toBe(frame.push.kilograms > 0)
    }
  })

  test('every cell of the sheet with loads in motion has one that gives it', () => {
    const motion = makeMotion(makeBody(plan.body), take)
    const sheet = sheetOf(plan, take, motion, (frame) => {
      const one = frames[frame] as DynamicFrame
      return { weighing: one.weighing, verdict: (one.verdict as BothVerdicts).moving, mass: one.body.mass }
    })
    for (const column of columnsOf(sheet, { angles: 'world' })) {
      const shared = sharedId(column.id)
      if (shared === null) continue
      for (const row of sheet.rows) {
        const value = column.of(row)
        if (typeof value !== 'number' || column.text(row) === '') continue
        const hows = motionHows(factsAt(plan, row.frame), frames[row.frame] as DynamicFrame)
        const how = hows.find(({ id }) => id === `motion.${shared}`)
        if (how === undefined) {
          // A push that there is not is nothing to work out.
          expect([column.id, value]).toEqual(['push', 0])
          continue
        }
        agrees(value, how, column.unit)
      }
    }
  })

  test('the least time of a span comes of the frames it was tried at', () => {
    const problem = {
      ...plan,
      body: makeBody(plan.body),
      take,
      motion: makeMotion(makeBody(plan.body), take),
    }
    const least = leastFrames({ ...problem, fps: 24 }, { from: 4, to: 10 })
    check(leastHow(least, 24) as How)
  })
})

describe('a lift trial', () => {
  const trialAt = (plan: Plan, frame: number) => {
    const facts = factsAt(plan, frame)
    const trial = tried({
      frozen: { body: facts.body, pose: facts.pose, loads: loadsAt(facts.take, frame) },
      contacts: facts.weighed.contacts,
      mover: moverPads(facts.pose.pads, facts.take.mover),
      gravity: plan.gravity,
      rate: plan.rate,
    })
    return { facts, trial, hows: trialHows(facts, frame, trial) }
  }

  test.each([0, 17, 31])(
    'at frame %i of the demo, its figures come of their own inputs and all are found',
    (frame) => {
      const { facts, trial, hows } = trialAt(demo, frame)
      for (const how of hows.filter(({ id }) => id !== 'trial.seconds')) check(how)
      const { sentences } = liftWords({ trial, pose: facts.pose, unit: facts.unit })
      const left = sentences
        .flatMap((sentence) => figureParts(sentence, hows))
        .filter(({ how }) => how === null)
      expect(left.map(({ text }) => text.replace('5°', '')).join(' ')).not.toMatch(/[\d½]/)
      expect(hows.length).toBeGreaterThan(0)
    },
  )

  test.each([0, 8])(
    'at frame %i, the pendulum it names takes as long, within a thirtieth and a step',
    (frame) => {
      const { hows } = trialAt(demo, frame)
      const how = hows.find(({ id }) => id === 'trial.seconds') as How
      const [I, m, a, b, g] = how.inputs.map(({ value }) => value) as [number, number, number, number, number]
      const r = Math.hypot(a, b)
      const pull = (m * g * r) / (I + m * r * r)
      let [angle, speed, time] = [Math.atan2(a, b), 0, 0]
      const end = angle + (5 * Math.PI) / 180
      // Leapfrog, with steps far below what is asked for.
      for (const step = 1e-5; angle < end; time += step) {
        speed += (step / 2) * pull * Math.sin(angle)
        angle += step * speed
        speed += (step / 2) * pull * Math.sin(angle)
      }
      const substep = Math.sqrt(demo.body.stature / 1.8) / 480
      expect(Math.abs((how.result.value as number) - time)).toBeLessThan(0.03 * time + substep)
      shows(how, how.result.value as number, 'nearest')
    },
  )
})

describe('body and ground', () => {
  test.each([demo, stancePlan()])('masses and hips come of their own inputs', (plan) => {
    const body = makeBody(plan.body)
    for (const carried of [[], [31, 4.5]])
      for (const how of bodyHows({ plan, body, carried, unit: centimetres(body.stature) })) check(how)
  })

  test('frictions are their ratio', () => {
    for (const grip of ['slippery', 'normal', 'rough'] as const) check(frictionHow(grip))
  })

  test('stiffnesses are the plan’s own where it has one, else the table’s', () => {
    const kinds: ContactKind[] = ['kneecap', 'sole', 'ball', 'palm', 'fist', 'toes', 'instep']
    for (const kind of kinds) {
      check(stiffnessHow(kind, demo))
      check(stiffnessHow(kind, soft))
    }
    expect(stiffnessHow('fist', soft).result.text).toBe('0.1')
    expect(stiffnessHow('fist', demo).result.text).toBe('0.5')
  })
})

test('of two equal figures the first is the first explanation’s, and no figure is the end of another', () => {
  const how = (id: string, text: string): How => ({
    id,
    title: '',
    formula: 'a = b',
    inputs: [],
    result: { value: 0, text },
    words: [],
    source: '',
  })
  const ids = (sentence: string, ...hows: How[]) =>
    figureParts(sentence, hows).map(({ text, how }) => (how ? `[${how.id}]` : text))
  expect(ids('30 % now, 30 % at least.', how('a', '30 %'), how('b', '30 %'))).toEqual([
    '[a]',
    ' now, ',
    '[b]',
    ' at least.',
  ])
  expect(ids('14 % and 4 %', how('a', '4 %'))).toEqual(['14 % and ', '[a]'])
})
