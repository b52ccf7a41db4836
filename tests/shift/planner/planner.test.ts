import { describe, expect, test } from 'vitest'
import { BUILDS, resized } from '../../../src/body/builds'
import { makeBody } from '../../../src/body/model'
import type { BodySpec } from '../../../src/body/spec'
import { FLAT } from '../../../src/contact/ground'
import type { CarriedLoad, Ground, Take } from '../../../src/document/plan'
import { newPlan } from '../../../src/plan/new'
import { contactsAt, makeMotion } from '../../../src/pose/between'
import { makeStance, type StanceId } from '../../../src/pose/stances'
import { planShift } from '../../../src/shift/planner/plan'
import type { ShiftAsk, ShiftOption } from '../../../src/shift/planner/types'
import type { Vec3 } from '../../../src/space/vec'
import { weighMotion } from '../../../src/weigh/dynamic'
import { capstone } from '../../support/capstone'
import { answerTo } from './cases'

const person = BUILDS[0]?.spec as BodySpec

function askFrom(
  stance: StanceId,
  set: Partial<ShiftAsk> & Pick<ShiftAsk, 'goal' | 'mover'>,
  spec = person,
  ground: Ground = FLAT,
): ShiftAsk {
  const body = makeBody(spec)
  const { controls, contacts } = makeStance(stance, body, ground)
  const plan = newPlan({
    title: 'A test',
    character: 'Somebody',
    body: spec,
    ground,
    controls,
    contacts: contacts.map(({ id: _, from: _f, to: _t, state: _s, ...contact }) => contact),
  })
  return { body, ground, gravity: 9.81, fps: 24, take: plan.takes[0] as Take, frame: 0, ...set }
}

const block = (position: Vec3, size: Vec3): Ground => ({
  grip: 'normal',
  boxes: [{ id: 'block', name: 'Block', position, size, turn: 0, grip: 'normal' }],
})

const HALF_KNEEL = askFrom('tall-kneel', { mover: 'legL', goal: { kind: 'half-kneel' } })

function optionsOf(ask: ShiftAsk): readonly ShiftOption[] {
  const answer = answerTo(ask)
  return answer.found ? answer.options : []
}

/** Measures a take again, with nothing of the planner's but the take. */
function measured(ask: ShiftAsk, take: Take) {
  const motion = makeMotion(ask.body, take)
  const frames = [
    ...weighMotion({ body: ask.body, ground: ask.ground, gravity: ask.gravity, take, motion, fps: ask.fps }),
  ]
    .slice(-take.length)
    .sort((a, b) => a.frame - b.frame)
  const weight = (at: (typeof frames)[number]) => at.body.mass * ask.gravity
  return {
    motion,
    push: Math.max(...frames.map(({ weighing }) => weighing.push.size)),
    room: Math.min(...frames.map(({ weighing }) => weighing.room)),
    mover: frames.map((at) => (at.weighing.limbs.find(({ id }) => id === ask.mover)?.load ?? 0) / weight(at)),
    /** Contacts that end before the take does, with what they carry there and the least they could, W. */
    ending: take.contacts
      .filter(({ to }) => to < take.length - 1)
      .map(({ id, kind, to }) => {
        const at = frames[to] as (typeof frames)[number]
        const contact = at.weighing.contacts.find((one) => one.id === id)
        return { kind, share: contact?.share ?? 0, least: (contact?.least ?? 0) / weight(at) }
      }),
  }
}

const QUESTIONS: readonly (readonly [string, ShiftAsk])[] = [
  ['left leg forward to half kneel', HALF_KNEEL],
  ['left knee inward', askFrom('tall-kneel', { mover: 'legL', goal: { kind: 'shuffle', by: -0.05 } })],
  ['onto the foot', askFrom('half-kneel-left', { mover: 'legR', goal: { kind: 'onto-foot' } })],
  [
    'a hand reaches',
    askFrom('hands-and-knees', { mover: 'armR', goal: { kind: 'reach', to: [-0.15, 0.4, 0.95] } }),
  ],
  [
    'a fist struck down before the knees',
    askFrom('tall-kneel', { mover: 'armR', goal: { kind: 'strike', to: [-0.25, 0, 0.5] } }),
  ],
  [
    'something set down on a block',
    askFrom(
      'tall-kneel',
      { mover: 'armL', goal: { kind: 'set-down', to: [0.2, 0.45, 0.5] } },
      person,
      block([0.2, 0, 0.55], [0.5, 0.4, 0.4]),
    ),
  ],
  [
    'a hand to the wall',
    askFrom(
      'tall-kneel',
      { mover: 'armR', goal: { kind: 'hand-to-wall' } },
      person,
      block([0, 0, 0.8], [2, 1.6, 0.4]),
    ),
  ],
  ['a step aside', askFrom('standing', { mover: 'legL', goal: { kind: 'shuffle', by: 0.1 } })],
  [
    'the demo with its fist down',
    (() => {
      const plan = capstone()
      return {
        body: makeBody(plan.body),
        ground: plan.ground,
        gravity: plan.gravity,
        fps: 24,
        take: plan.takes[0] as Take,
        frame: 0,
        mover: 'legL',
        goal: { kind: 'half-kneel' },
      } satisfies ShiftAsk
    })(),
  ],
]

describe.each(QUESTIONS)('%s', (_, ask) => {
  const options = optionsOf(ask)

  test('has an option, and every option passes the gate measured again', () => {
    expect(options.length).toBeGreaterThan(0)
    expect(options.length).toBeLessThanOrEqual(4)
    for (const { take } of options) {
      const { push, room, ending, motion } = measured(ask, take)
      expect(push).toBeLessThanOrEqual(0.02 + 1e-9)
      expect(room).toBeGreaterThanOrEqual(-0.005 * ask.body.stature)
      for (const { kind, share, least } of ending) {
        expect(share).toBeLessThanOrEqual(0.06 + 1e-9)
        // A main pad carries next to nothing, or nothing has to press on it.
        if (kind !== 'toes' && kind !== 'instep')
          expect(Math.min(share / 0.02, least / 1e-4)).toBeLessThanOrEqual(1 + 1e-6)
      }
      for (let frame = 0; frame < take.length; frame++) {
        const pose = motion.poseAt(frame)
        expect(pose.pads.length).toBe(contactsAt(take, frame).length)
        const [l, r] = [pose.joints.hipL, pose.joints.hipR]
        expect(Math.atan2(Math.abs(l[1] - r[1]), Math.hypot(l[0] - r[0], l[2] - r[2]))).toBeLessThanOrEqual(
          (20 * Math.PI) / 180,
        )
      }
    }
  })

  test('phases are whole spans inside the take, in their order', () => {
    for (const { take } of options) {
      expect(take.phases.length).toBeGreaterThan(3)
      for (const { from, to } of take.phases) {
        expect(Number.isInteger(from) && Number.isInteger(to)).toBe(true)
        expect(from).toBeLessThanOrEqual(to)
        expect(to).toBeLessThan(take.length)
      }
      expect(take.phases.at(-1)?.name).toBe('settle')
    }
  })
})

describe('a half kneel', () => {
  const [first] = optionsOf(HALF_KNEEL)
  if (!first) throw new Error('there is no option')

  test('presses first, while the weight already starts away', () => {
    const { mover, motion } = measured(HALF_KNEEL, first.take)
    const pressed = mover.indexOf(Math.max(...mover.slice(0, first.leaves)))
    expect(first.press).toBeGreaterThan(0.05)
    expect(first.press).toBeLessThanOrEqual(0.16)
    expect(pressed).toBeLessThan(first.leaves / 2 + 3)
    expect(motion.poseAt(pressed).com[0]).toBeLessThan(motion.poseAt(0).com[0] - 1e-4)
  })

  test('the pelvis leads and is named first', () => {
    expect(first.id).toBe('pelvis')
  })

  test('the same question has the same answer, bit for bit', () => {
    expect(JSON.stringify(answerTo(HALF_KNEEL))).toBe(JSON.stringify(answerTo(HALF_KNEEL)))
  })

  test('the mirrored question has the mirrored answer', () => {
    const right = optionsOf({ ...HALF_KNEEL, mover: 'legR' })[0]
    if (!right) throw new Error('there is no option')
    expect(right.frames).toBe(first.frames)
    const [a, b] = [first, right].map(({ take }) => makeMotion(HALF_KNEEL.body, take)) as [
      ReturnType<typeof makeMotion>,
      ReturnType<typeof makeMotion>,
    ]
    for (let frame = 0; frame <= first.frames; frame += 6) {
      const [p, q] = [a.poseAt(frame).com, b.poseAt(frame).com]
      expect(q[0]).toBeCloseTo(-p[0], 2)
      expect(q[1]).toBeCloseTo(p[1], 2)
      expect(q[2]).toBeCloseTo(p[2], 2)
    }
  })

  test('twice the size takes √2 the frames', () => {
    const twice = optionsOf(
      askFrom(
        'tall-kneel',
        { mover: 'legL', goal: { kind: 'half-kneel' } },
        resized(person, 2 * person.stature),
      ),
    )[0]
    expect((twice?.frames ?? 0) / first.frames).toBeGreaterThan(Math.SQRT2 * 0.92)
    expect((twice?.frames ?? 0) / first.frames).toBeLessThan(Math.SQRT2 * 1.08)
  })

  test('waits until it may leave', () => {
    const late = optionsOf({ ...HALF_KNEEL, notBefore: first.leaves + 20 })[0]
    expect(late?.leaves).toBeGreaterThanOrEqual(first.leaves + 20)
  })

  test('too few frames are named, and more are the remedy', () => {
    const answer = answerTo({ ...HALF_KNEEL, downBy: 20 })
    if (answer.found) throw new Error('nobody is that quick')
    expect(answer.limit.code).toBe('frames')
    expect(answer.remedies.map(({ id }) => id)).toContain('frames')
  })

  test('where a careful move is too late and a thrown one is not, that is the first remedy', () => {
    const careful = optionsOf(HALF_KNEEL).map(({ touches }) => touches)
    const thrown = optionsOf({ ...HALF_KNEEL, pace: 1 }).map(({ touches }) => touches)
    const downBy = Math.min(...thrown) + 1
    expect(downBy).toBeLessThan(Math.min(...careful))
    const answer = answerTo({ ...HALF_KNEEL, downBy })
    if (answer.found) throw new Error('a careful move should be too late')
    expect(answer.remedies[0]?.id).toBe('thrown')
    expect(answer.remedies[0]?.option.touches).toBeLessThanOrEqual(downBy)
    expect(answer.remedies[0]?.option.take.pace).toBe(1)
  })
})

/**
 * People who start to walk load the limb that will lift to 55–70 % of their weight first: checks beside gait
 * initiation studies, from memory and indicative only, so that it bounds the middle of the sweep alone.
 */
test('from careful to thrown a person who stands presses more, mid-sweep as people do, and leaves sooner', () => {
  const step = askFrom('standing', { mover: 'legL', goal: { kind: 'shuffle', by: 0.1 } })
  const [careful, middle, thrown] = [0, 0.5, 1].map(
    (pace) => optionsOf({ ...step, pace })[0],
  ) as ShiftOption[]
  if (!careful || !middle || !thrown) throw new Error('there is no option')
  const { mover } = measured(step, middle.take)
  const peak = Math.max(...mover.slice(0, middle.leaves + 1))
  expect(peak).toBeGreaterThanOrEqual(0.55)
  expect(peak).toBeLessThanOrEqual(0.7)
  expect(careful.press).toBeGreaterThan(0.05)
  expect(thrown.press).toBeGreaterThan(careful.press)
  expect(thrown.leaves).toBeLessThan(careful.leaves)
})

test('a strike: the fist stays up, comes down fast, and then the pelvis drops by 2 to 5 % of his height', () => {
  const ask = askFrom('tall-kneel', { mover: 'armR', goal: { kind: 'strike', to: [-0.25, 0, 0.5] } })
  const options = optionsOf(ask)
  expect(options.length).toBeGreaterThan(0)
  for (const { take, touches, frames } of options) {
    const motion = makeMotion(ask.body, take)
    const at = (frame: number) => motion.poseAt(frame).joints
    const drop = (at(touches).midHip[1] - at(frames).midHip[1]) / ask.body.stature
    expect(drop).toBeGreaterThanOrEqual(0.02)
    expect(drop).toBeLessThanOrEqual(0.05)
    const fall = (frame: number) => at(frame - 1).knuckleR[1] - at(frame).knuckleR[1]
    const falls = Array.from({ length: touches }, (_, i) => fall(i + 1))
    // Fastest in the second half of the way, as a blow is, and not while the body leans.
    expect(falls.indexOf(Math.max(...falls))).toBeGreaterThan(touches / 2)
  }
})

test('a way that bends far is named after one that does not', () => {
  const longarms = BUILDS.find(({ id }) => id === 'longarms')?.spec
  const ask = askFrom(
    'tall-kneel',
    { mover: 'legL', goal: { kind: 'shuffle', by: 0.13 }, pace: 0.3 },
    longarms,
  )
  const leans = optionsOf(ask).map(({ lean }) => (180 / Math.PI) * lean)
  expect(Math.max(...leans)).toBeGreaterThan(45)
  expect(leans[0]).toBeLessThan(45)
  expect(leans.at(-1)).toBeGreaterThan(45)
})

test('what a hand carries is set down with it', () => {
  const ask = askFrom(
    'tall-kneel',
    { mover: 'armL', goal: { kind: 'set-down', to: [0.2, 0.45, 0.5] } },
    person,
    block([0.2, 0, 0.55], [0.5, 0.4, 0.4]),
  )
  const stone: CarriedLoad = {
    id: 'stone',
    name: 'Stone',
    mass: 10,
    on: 'handL',
    offset: [0, 0, 0],
    from: 0,
    to: ask.take.length - 1,
  }
  const pack: CarriedLoad = { ...stone, id: 'pack', name: 'Pack', on: 'back' }
  const options = optionsOf({ ...ask, take: { ...ask.take, loads: [stone, pack] } })
  expect(options.length).toBeGreaterThan(0)
  for (const { take, touches, frames } of options)
    expect(take.loads.map(({ id, to }) => [id, to])).toEqual([
      ['stone', touches],
      ['pack', frames],
    ])
})

test('a hand that reaches picks up what the take carries in it later, and the body is weighed with it', () => {
  const to = [0.1, 0.45, 0.5] as const
  const ask = askFrom('tall-kneel', { mover: 'armL', goal: { kind: 'reach', to } })
  const stone = {
    id: 'stone',
    name: 'Stone',
    mass: 10,
    on: 'handL',
    offset: [0, 0, 0],
    from: 10,
    to: 20,
  } as const
  const loads: CarriedLoad[] = [stone, { ...stone, id: 'pack', name: 'Pack', on: 'back' }]
  const plain = optionsOf(ask)[0]
  const picked = optionsOf({ ...ask, take: { ...ask.take, loads } })[0]
  if (!plain || !picked) throw new Error('there is no option')
  expect(picked.take.loads).toEqual([{ ...stone, from: picked.touches, to: picked.frames }])
  const hips = ({ take, frames }: ShiftOption) => makeMotion(ask.body, take).poseAt(frames).joints.midHip[2]
  expect(hips(picked)).toBeLessThan(hips(plain))
})

test('a chain of moves in a row: each goes on from the last frame of the one before', () => {
  const first = optionsOf(HALF_KNEEL)[0]
  if (!first) throw new Error('there is no option')
  const next: ShiftAsk = {
    ...HALF_KNEEL,
    take: first.take,
    frame: first.take.length - 1,
    mover: 'legR',
    goal: { kind: 'onto-foot' },
  }
  const second = optionsOf(next)[0]
  if (!second) throw new Error('there is no second option')
  expect(second.take.length).toBeGreaterThan(first.take.length)
  const { push, room } = measured(next, second.take)
  expect(push).toBeLessThanOrEqual(0.02 + 1e-9)
  expect(room).toBeGreaterThanOrEqual(-0.005 * next.body.stature)
})

test('never blocks for long between steps: many small ones', () => {
  let steps = 0
  const planning = planShift(HALF_KNEEL)
  for (let step = planning.next(); !step.done; step = planning.next()) {
    steps++
    expect(step.value.done).toBeGreaterThanOrEqual(0)
    expect(step.value.done).toBeLessThanOrEqual(1)
  }
  expect(steps).toBeGreaterThan(200)
})

test('a frame that the take does not have is refused', () => {
  expect(() => planShift({ ...HALF_KNEEL, frame: 900 }).next()).toThrow(RangeError)
})
