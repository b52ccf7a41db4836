import { describe, expect, it } from 'vitest'
import { makeBody, SEGMENTS } from '../../src/body/model'
import { FLAT } from '../../src/contact/ground'
import type { ContactSpan } from '../../src/document/contacts'
import type { Take } from '../../src/document/plan'
import { makeMotion } from '../../src/pose/between'
import { changedPose } from '../../src/pose/changed'
import { STANCES, type StanceId } from '../../src/pose/stances'
import { aboutAxis } from '../../src/space/rotation'
import { norm, sub, type Vec3 } from '../../src/space/vec'
import { type DynamicFrame, type MotionProblem, slidOver, weighMotion } from '../../src/weigh/dynamic'
import { weighPose } from '../../src/weigh/pose'
import { takenUp, takeUpTime, touchesOf } from '../../src/weigh/take-up'
import { capstone } from '../support/capstone'
import { stancePlan } from '../support/plans'
import { held, type Stiff, stiff, stirred } from './moving'

const FPS = 24
const GRAVITY = 9.81

/** Every frame's last answer, in order. */
function weighed(problem: MotionProblem, options: Parameters<typeof weighMotion>[1] = {}): DynamicFrame[] {
  const frames: DynamicFrame[] = []
  for (const frame of weighMotion(problem, options)) frames[frame.frame] = frame
  return frames
}

const at = (frames: readonly DynamicFrame[], frame: number) => frames[frame] as DynamicFrame

describe('a still pose', () => {
  it.each(STANCES.map(({ id }) => id))('%s gives its static answer in every frame', (stance: StanceId) => {
    const plan = stancePlan(stance)
    const body = makeBody(plan.body)
    const take = { ...(plan.takes[0] as Take), length: 3 }
    const lasting = { ...take, contacts: take.contacts.map((span) => ({ ...span, to: 2 })) }
    const motion = makeMotion(body, lasting)
    const problem = { body, ground: plan.ground, gravity: GRAVITY, take: lasting, motion, fps: FPS }
    const still = weighPose(plan.ground, GRAVITY, body.stature, motion.poseAt(0)).weighing
    for (const { weighing, landing, drags } of weighed(problem)) {
      expect(landing).toBeNull()
      expect(drags).toEqual([])
      expect(Math.abs(weighing.room - still.room)).toBeLessThan(1e-6 * body.stature)
      expect(Math.abs(weighing.push.size - still.push.size)).toBeLessThan(1e-6)
      still.contacts.forEach((contact, c) => {
        const moving = weighing.contacts[c]
        for (const key of ['load', 'least', 'most'] as const)
          expect(Math.abs((moving?.[key] ?? 0) - contact[key])).toBeLessThan(1e-6 * body.mass * GRAVITY)
      })
    }
  })

  it('with a load on its back too, once that is taken up', () => {
    const plan = stancePlan('tall-kneel')
    const body = makeBody(plan.body)
    const one = plan.takes[0] as Take
    const contacts = one.contacts.map((span) => ({ ...span, to: 19 }))
    const take = { ...one, length: 20, contacts, loads: [held(20, 4, 19)] }
    const motion = makeMotion(body, take)
    const problem = { body, ground: plan.ground, gravity: GRAVITY, take, motion, fps: FPS }
    const frames = weighed(problem)
    const same = (frame: number, still: number) => {
      const { weighing } = weighPose(plan.ground, GRAVITY, body.stature, motion.poseAt(still))
      weighing.contacts.forEach(({ load }, c) => {
        const other = at(frames, frame).weighing.contacts[c]?.load ?? 0
        expect(Math.abs(other - load)).toBeLessThan(1e-6 * body.mass * GRAVITY)
      })
    }
    same(0, 0)
    same(3, 3)
    same(19, 19)
    // From the touch on it only presses down, more and more.
    const carried = frames.map((frame) => frame.body.force[1] / GRAVITY - body.mass)
    expect(carried[4]).toBeCloseTo(0, 9)
    for (const frame of [5, 6, 7, 8])
      expect(carried[frame] as number).toBeGreaterThan((carried[frame - 1] as number) + 0.1)
    expect(carried[8]).toBeCloseTo(20, 1)
    expect(carried[9]).toBeCloseTo(20, 9)
    for (const { body: whole } of frames) {
      expect(Math.abs(whole.force[0]) + Math.abs(whole.force[2])).toBeLessThan(1e-9)
      expect(norm(whole.moment)).toBeLessThan(1e-9)
    }
  })
})

describe('a stiff body', () => {
  const model = stiff()
  const weight = model.body.mass * GRAVITY

  it('in free fall asks for nothing', () => {
    const fall = (frame: number): Vec3 => [0.3 * (frame / FPS), -(GRAVITY / 2) * (frame / FPS) ** 2, 0.1]
    const frames = weighed(stirred(model, 9, (frame) => ({ shift: fall(frame), pads: null })))
    for (const frame of [1, 2, 3, 4, 5, 6, 7]) {
      const { body, weighing, push } = at(frames, frame)
      expect(norm(body.force) / weight).toBeLessThan(1e-9)
      expect(norm(body.moment) / weight).toBeLessThan(1e-9)
      expect(weighing.push.size).toBeLessThan(1e-9)
      expect(push.kilograms).toBe(0)
    }
  })

  it('drawn up at 2 m/s² presses with 1 + 2 / 9.81 of its weight', () => {
    const frames = weighed(stirred(model, 9, (frame) => ({ shift: [0, (frame / FPS) ** 2, 0] })))
    for (const frame of [1, 4, 7]) {
      const { weighing } = at(frames, frame)
      const total = weighing.contacts.reduce((sum, { force }) => sum + force[1], 0)
      expect(total / weight).toBeCloseTo(1 + 2 / GRAVITY, 9)
      expect(weighing.push.size).toBeLessThan(1e-9)
    }
  })

  it('with nothing to stand on is held by the push alone, said in kilograms', () => {
    const [frame] = weighed(stirred(model, 1, () => ({ pads: null })))
    expect(frame?.push.newtons).toBeCloseTo(weight, 6)
    expect(frame?.push.kilograms).toBeCloseTo(model.body.mass, 6)
    expect(frame?.push.at).toEqual(model.pose.com)
  })

  it('stands still outside the take: its first and its last frame start and stop it', () => {
    const speed = 0.4
    const drift = (frame: number): Vec3 => [(speed * frame) / FPS, 0, 0]
    const frames = weighed(stirred(model, 6, (frame) => ({ shift: drift(frame) })))
    const forces = frames.map(({ body }) => body.force[0] / model.body.mass)
    expect(forces[0]).toBeCloseTo(speed * FPS, 9)
    for (const frame of [1, 2, 3, 4]) expect(forces[frame]).toBeCloseTo(0, 9)
    expect(forces[5]).toBeCloseTo(-speed * FPS, 9)
  })
})

/**
 * Tedrake, Underactuated Robotics, humanoids chapter (read): with height z and x level,
 * (m z̈ + m g)(x_c − x) = (z_c − z) m ẍ − I θ̈, θ counted from z to x.
 */
describe('centre of pressure in the plane', () => {
  const model = stiff('hands-and-knees')
  const { mass } = model.body
  const { com } = model.pose
  const inertia = SEGMENTS.reduce((sum, id) => {
    const { com: at, rotation } = model.pose.segments[id]
    const segment = model.body.segments[id]
    const along = [rotation[6], rotation[7], rotation[8]] as const
    const own = along.reduce((part, r, i) => part + r * r * (segment.inertia[i] as number), 0)
    return sum + own + segment.mass * ((at[0] - com[0]) ** 2 + (at[1] - com[1]) ** 2)
  }, 0)

  it.each([
    [0.4, 0, 0],
    [0, 1.5, 0],
    [0, 0, 1.2],
    [-0.5, 2, 0.8],
    [0.6, -3, -1.5],
  ])('level %d, up %d m/s², turning %d rad/s²', (level, up, turning) => {
    const half = (frame: number) => ((frame - 3) / FPS) ** 2 / 2
    const problem = stirred(model, 7, (frame) => ({
      shift: [level * half(frame), up * half(frame), 0],
      rotation: aboutAxis([0, 0, 1], turning * half(frame)),
    }))
    const { weighing } = at(weighed(problem), 3)
    expect(weighing.push.size).toBeLessThan(1e-6)
    // Turning from x to y, as ours does, is Tedrake's θ backwards. At frame 3 the body is where it was.
    const expected = com[0] + ((0 - com[1]) * mass * level + inertia * turning) / (mass * (up + GRAVITY))
    expect(Math.abs((weighing.centreOfPressure?.[0] ?? 0) - expected)).toBeLessThan(1e-4)
  })
})

describe('a landing', () => {
  const model = stiff()
  const begun = (from: number) => model.contacts.map((span) => ({ ...span, from, to: 11 }))
  /** Falls at a constant velocity until frame 6, then stops dead. */
  const velocity: Vec3 = [0.2, -1.5, 0]
  const problem = stirred(
    model,
    12,
    (frame) => ({
      shift: velocity.map((v) => (v * Math.min(0, frame - 6)) / FPS) as unknown as Vec3,
      pads: frame >= 6 ? false : null,
    }),
    { contacts: begun(6) },
  )
  const frames = weighed(problem)

  it('is told by its speed and its impulse', () => {
    const { landing } = at(frames, 6)
    expect(landing?.parts.map(({ id }) => id).sort()).toEqual(model.contacts.map(({ id }) => id).sort())
    for (const part of landing?.parts ?? []) {
      expect(part.speed).toBeCloseTo(1.5, 6)
      expect(norm(sub(part.velocity, velocity))).toBeLessThan(1e-6)
    }
    const impulse = velocity.map((v) => -v * model.body.mass) as unknown as Vec3
    expect(norm(sub(landing?.impulse ?? [0, 0, 0], impulse)) / norm(impulse)).toBeLessThan(1e-6)
    expect(norm(landing?.spin ?? [1, 1, 1]) / norm(impulse)).toBeLessThan(1e-6)
    expect(frames.filter((frame) => frame.landing !== null)).toHaveLength(1)
  })

  it('is no part of the push', () => {
    expect(at(frames, 6).weighing.push.size).toBeLessThan(1e-6)
    expect(at(frames, 7).weighing.push.size).toBeLessThan(1e-6)
    // It flies at a constant velocity, so it hangs on the push.
    expect(at(frames, 5).weighing.push.size).toBeCloseTo(1, 6)
  })

  it('needs no jump where a part comes in at rest', () => {
    const soft = stirred(
      model,
      12,
      (frame) => ({
        shift: [0, 0.5 * (Math.min(0, frame - 6) / FPS) ** 2, 0],
        pads: frame >= 6 ? false : null,
      }),
      { contacts: begun(6) },
    )
    const { landing, weighing } = at(weighed(soft), 6)
    expect(norm(landing?.impulse ?? [1, 1, 1]) / model.body.mass).toBeLessThan(1e-6)
    expect(landing?.parts[0]?.speed).toBeLessThan(1e-6)
    expect(weighing.push.size).toBeLessThan(1e-6)
  })
})

describe('take-up', () => {
  const span = (part: 'kneeL' | 'footL', from: number, to: number): ContactSpan => ({
    id: `${part}${from}`,
    part,
    kind: part === 'kneeL' ? 'kneecap' : 'sole',
    position: [0, 0, 0],
    heading: 0,
    normal: [0, 1, 0],
    on: 'ground',
    from,
    to,
    state: 'planted',
  })

  it('joins contacts of a part without a gap, and lasts beyond the ends of the take', () => {
    const contacts = [span('footL', 10, 14), span('kneeL', 3, 20), span('footL', 15, 20), span('footL', 0, 8)]
    const touches = touchesOf({ contacts, length: 30 })
    expect(touches.get('footL0')).toEqual({ from: Number.NEGATIVE_INFINITY, to: 8 })
    expect(touches.get('footL10')).toEqual({ from: 10, to: 20 })
    expect(touches.get('footL15')).toEqual({ from: 10, to: 20 })
    expect(touches.get('kneeL3')).toEqual({ from: 3, to: 20 })
    expect(touchesOf({ contacts, length: 21 }).get('kneeL3')?.to).toBe(Number.POSITIVE_INFINITY)
  })

  it('takes 0.17 s at 1.8 m and goes with the root of the size', () => {
    expect(takeUpTime(1.8)).toBeCloseTo(0.17, 12)
    expect(takeUpTime(7.2)).toBeCloseTo(0.34, 12)
    const touch = { from: 10, to: 40 }
    expect(takenUp(touch, 10, FPS, 0.17)).toBe(0)
    expect(takenUp(touch, 10 + 0.085 * FPS, FPS, 0.17)).toBeCloseTo(0.5, 12)
    expect(takenUp(touch, 25, FPS, 0.17)).toBe(1)
    expect(takenUp(touch, 40 - 0.085 * FPS, FPS, 0.17)).toBeCloseTo(0.5, 12)
    expect(takenUp(touch, 40, FPS, 0.17)).toBe(0)
  })

  it('lets a planted limb take its load bit by bit', () => {
    const model = stiff('hands-and-knees')
    const contacts = model.contacts.map((one) => ({ ...one, from: one.part === 'handL' ? 4 : 0, to: 19 }))
    const problem = stirred(model, 20, () => ({}), { contacts })
    const poseAt = (frame: number) => {
      const pose = problem.motion.poseAt(frame)
      return frame < 4 ? changedPose(pose, { pads: pose.pads.filter(({ id }) => id !== 'handL') }) : pose
    }
    const left = weighed({ ...problem, motion: { poseAt } }).map(
      ({ weighing }) => weighing.limbs.find(({ id }) => id === 'armL')?.share ?? 0,
    )
    expect(left[3]).toBe(0)
    for (const frame of [4, 5, 6, 7]) expect(left[frame] as number).toBeGreaterThan(left[frame - 1] as number)
    expect(left[4] as number).toBeLessThan(0.2 * (left[15] as number))
    const full = weighPose(FLAT, GRAVITY, model.body.stature, model.pose).weighing
    expect(left[15]).toBeCloseTo(full.limbs.find(({ id }) => id === 'armL')?.share ?? 0, 9)
  })
})

describe('a sliding contact', () => {
  const model = stiff()
  const weight = model.body.mass * GRAVITY
  const marked = (state: ContactSpan['state']) =>
    model.contacts.map((one) => ({ ...one, from: 0, to: 11, state }))
  /** The whole body glides sideways with its pads, faster and faster, at `push` m/s². */
  const gliding = (pull: number, state: ContactSpan['state']) =>
    stirred(
      model,
      12,
      (frame) => ({ shift: [0.5 * (frame / FPS) + (pull / 2) * (frame / FPS) ** 2, 0, 0], pads: true }),
      { contacts: marked(state) },
    )

  it('drags with friction × its load, against its way', () => {
    // Braked by its own friction alone: μ g on slippery ground, so that it doesn't trip.
    const problem = { ...gliding(-0.1 * GRAVITY, 'sliding'), ground: { ...FLAT, grip: 'slippery' as const } }
    const { weighing, drags } = at(weighed(problem, { from: 1, to: 1 }), 1)
    expect(weighing.push.size).toBeLessThan(1e-6)
    expect(drags).toHaveLength(4)
    for (const { id, force, velocity } of drags) {
      const contact = weighing.contacts.find((one) => one.id === id)
      expect(force).toBeCloseTo(0.1 * (contact?.load ?? 0), 6)
      expect(contact?.force[0]).toBeCloseTo(-force, 6)
      expect(velocity[0]).toBeGreaterThan(0.05)
    }
    expect(weighing.contacts.reduce((sum, { load }) => sum + load, 0) / weight).toBeCloseTo(1, 6)
    for (const { frictionUsed, centre } of weighing.contacts) if (centre) expect(frictionUsed).toBe(1)
  })

  it('gives no more than that, so gliding on at a constant speed needs a push', () => {
    const { push } = at(weighed(gliding(0, 'sliding')), 5).weighing
    expect(push.force[0] / weight).toBeGreaterThan(0.1)
  })

  it('uses its friction up in proportion to its speed when slow', () => {
    const slow = stirred(model, 12, (frame) => ({ shift: [(0.02 * frame) / FPS, 0, 0], pads: true }), {
      contacts: marked('sliding'),
    })
    const { drags, weighing } = at(weighed(slow), 5)
    const all = 0.05 * Math.sqrt(model.body.stature / 1.8)
    for (const { id, force } of drags) {
      const load = weighing.contacts.find((one) => one.id === id)?.load ?? 0
      expect(force).toBeCloseTo((0.5 * load * 0.02) / all, 6)
    }
    expect(drags).toHaveLength(4)
  })

  it('need not be marked: a planted pad that moves faster slides, a slower one creeps and holds', () => {
    expect(at(weighed(gliding(0, 'planted')), 5).drags).toHaveLength(4)
    const creep = stirred(model, 12, (frame) => ({ shift: [(0.02 * frame) / FPS, 0, 0], pads: true }))
    expect(at(weighed(creep), 5).drags).toEqual([])
  })

  it('reports the way it has gone', () => {
    const frames = weighed(gliding(0, 'sliding'))
    const middle = frames.slice(1, 11)
    expect(slidOver(middle, 'kneeL')).toBeCloseTo((0.5 * 10) / FPS, 9)
  })

  it('counts by its normal load in sums of its limb, ranges included', () => {
    const contacts = marked('planted').map((one) =>
      one.part === 'footL' ? { ...one, state: 'sliding' as const } : one,
    )
    const problem = stirred(model, 12, () => ({}), { contacts })
    const poseAt = (frame: number) => {
      const pose = problem.motion.poseAt(frame)
      const by: Vec3 = [0, 0, (-0.3 * frame) / FPS]
      const pads = pose.pads.map((pad) =>
        pad.id === 'footL'
          ? {
              ...pad,
              vertices: pad.vertices.map((v): Vec3 => [v[0], v[1], v[2] + by[2]]),
              centre: [pad.centre[0], pad.centre[1], pad.centre[2] + by[2]] as Vec3,
            }
          : pad,
      )
      return changedPose(pose, { pads })
    }
    const { weighing } = at(weighed({ ...problem, motion: { poseAt } }), 5)
    const limb = weighing.limbs.find(({ id }) => id === 'legL')
    const own = weighing.contacts.filter((contact) => contact.limb === 'legL')
    expect(limb?.load).toBeCloseTo(
      own.reduce((sum, { load }) => sum + load, 0),
      9,
    )
    expect(limb?.least).toBeLessThanOrEqual(limb?.load as number)
    expect(limb?.most).toBeGreaterThanOrEqual(limb?.load as number)
    // Level ground: all normal loads are upright, so that the most of one leg is what the other's least leaves.
    const other = weighing.limbs.find(({ id }) => id === 'legR')
    expect(((limb?.most ?? 0) + (other?.least ?? 0)) / weight).toBeCloseTo(1, 6)
    expect(((limb?.least ?? 0) + (other?.most ?? 0)) / weight).toBeCloseTo(1, 6)
  })

  it('stands like any other where nothing moves', () => {
    const still = (state: ContactSpan['state']) =>
      at(weighed(stirred(model, 12, () => ({}), { contacts: marked(state) })), 5).weighing
    expect(still('sliding')).toEqual(still('planted'))
  })
})

describe('held still and in motion', () => {
  /** Thrown to its right: slowing down there, the weight bears on the right leg alone for a moment. */
  const thrown = (model: Stiff, pull: number) =>
    stirred(model, 9, (frame) => ({ shift: [(pull / 2) * ((frame - 4) / FPS) ** 2, 0, 0] }))

  it('a knee pinned if he held still is empty because he is being thrown across', () => {
    const model = stiff()
    const mover = { limb: 'legL', toesStay: false } as const
    const verdict = (pull: number) => at(weighed(thrown(model, pull), { mover }), 4).verdict
    expect(verdict(0)).toMatchObject({
      motion: 'nothing',
      still: { kind: 'pinned' },
      moving: { kind: 'pinned' },
    })
    const { moving, still, motion } = verdict(2.4) ?? {}
    expect(still?.kind).toBe('pinned')
    expect(moving?.kind).toMatch(/empty|could let go/)
    expect(motion).toBe('frees')
  })
})

describe('the whole take', () => {
  const plan = capstone()
  const body = makeBody(plan.body)
  const take = plan.takes[0] as Take
  const problem = () => ({
    body,
    ground: plan.ground,
    gravity: plan.gravity,
    take,
    motion: makeMotion(body, take),
    fps: FPS,
  })

  it('comes first with loads and push, nearest frames first, then with ranges, region and verdicts', () => {
    const frames = [...weighMotion(problem(), { near: 50, mover: take.mover })]
    expect(frames).toHaveLength(2 * take.length)
    const [first, second] = [frames.slice(0, take.length), frames.slice(take.length)]
    for (const half of [first, second]) {
      expect(half.slice(0, 5).map(({ frame }) => frame)).toEqual([50, 51, 49, 52, 48])
      expect(new Set(half.map(({ frame }) => frame)).size).toBe(take.length)
    }
    expect(first.every(({ weighing, verdict }) => !weighing.ranged && verdict === null)).toBe(true)
    expect(second.every(({ weighing, verdict }) => weighing.ranged && verdict !== null)).toBe(true)
    first.forEach((frame, i) => {
      const full = second[i] as DynamicFrame
      expect(full.weighing.push).toEqual(frame.weighing.push)
      expect(full.weighing.contacts.map(({ load }) => load)).toEqual(
        frame.weighing.contacts.map(({ load }) => load),
      )
    })
  })

  it('gives the same answers in any order and in any part', () => {
    const all = weighed(problem())
    const part = weighed(problem(), { from: 30, to: 40, near: 38 })
    for (let frame = 30; frame <= 40; frame++) expect(part[frame]).toEqual(all[frame])
  })

  it('is plain data, light enough to be posted', () => {
    const [frame] = weighMotion(problem(), { from: 33, to: 33, mover: take.mover })
    expect(structuredClone(frame)).toEqual(frame)
    expect(JSON.stringify(frame).length).toBeLessThan(20_000)
  })

  it('carries over each frame what the contacts give: forces and moments add up to the wrench but for the push', () => {
    for (const { weighing, body: whole } of weighed(problem())) {
      const force = weighing.contacts.reduce<Vec3>(
        (sum, one) => [sum[0] + one.force[0], sum[1] + one.force[1], sum[2] + one.force[2]],
        weighing.push.force,
      )
      expect(norm(sub(force, whole.force)) / (whole.mass * GRAVITY)).toBeLessThan(1e-9)
    }
  })
})
