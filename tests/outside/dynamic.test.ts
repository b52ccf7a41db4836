import loadMujoco from 'mujoco-js'
import { beforeAll, describe, expect, it } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { makeBody } from '../../src/body/model'
import { FLAT } from '../../src/contact/ground'
import type { CarriedLoad, Take } from '../../src/document/plan'
import { makeMotion } from '../../src/pose/between'
import type { ReachedPose } from '../../src/pose/types'
import { random } from '../../src/space/random'
import { norm, sub, type Vec3 } from '../../src/space/vec'
import { weighFrame } from '../../src/weigh/dynamic'
import { dynamicsOf } from '../../src/weigh/dynamics'
import { capstone } from '../support/capstone'
import { flailing, type Mujoco, MujocoBody } from './dynamic-mujoco'
import { MujocoReplay } from './replay-mujoco'

let mujoco: Mujoco
beforeAll(async () => {
  mujoco = await loadMujoco()
})

const FPS = 24
const GRAVITY = 9.81

/** Gauss–Legendre with five points on −1 … 1 (Abramowitz & Stegun 25.4.30; from memory, checked on x⁸). */
const GAUSS = [
  [0, 128 / 225],
  ...[1, -1].flatMap((sign) => {
    const near = Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3
    const far = Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3
    const weight = (s: number) => (322 + s * 13 * Math.sqrt(70)) / 900
    return [
      [sign * near, weight(1)],
      [sign * far, weight(-1)],
    ]
  }),
] as [number, number][]

it('Gauss’ points integrate x⁸ exactly', () => {
  expect(GAUSS.reduce((sum, [x, w]) => sum + w * x ** 8, 0)).toBeCloseTo(2 / 9, 14)
})

/**
 * @checks force and moment that a moving body needs, 24 random motions
 * @against inverse dynamics of the same sixteen segments
 * @from mujoco-js; library
 * @within 1 % of the weight, and of it times a quarter stature
 */
describe('whole-body motions against MuJoCo’s inverse dynamics', () => {
  const kinds = [
    { name: 'slow', hertz: 0.7, spin: 0 },
    { name: 'brisk', hertz: 2, spin: 1 },
    { name: 'fast, tumbling', hertz: 3.5, spin: 5 },
  ]
  it.each(Array.from({ length: 24 }, (_, i) => ({ seed: i, ...(kinds[i % 3] as (typeof kinds)[number]) })))(
    'motion $seed, $name: force within 1 % W, moment within 1 % W L',
    ({ seed, hertz, spin }) => {
      const next = random(300 + seed)
      const body = makeBody((BUILDS[seed % BUILDS.length] as (typeof BUILDS)[number]).spec)
      const load: CarriedLoad | null =
        seed % 2 === 0
          ? null
          : {
              id: 'jar',
              name: 'Jar',
              mass: 0.2 * body.mass,
              on: 'head',
              offset: [0.03 * body.stature, 0.1 * body.stature, -0.05 * body.stature],
              from: 0,
              to: 9,
            }
      const motion = flailing(next, body.stature, hertz, spin)
      const tree = new MujocoBody(mujoco, body, load, GRAVITY)
      const poseAt = (frame: number): ReachedPose => {
        tree.set(motion, frame / FPS)
        return tree.pose()
      }
      const take = { length: 10, contacts: [], loads: load ? [load] : [] }
      const dynamics = dynamicsOf({
        body,
        ground: FLAT,
        gravity: GRAVITY,
        take,
        motion: { poseAt },
        fps: FPS,
      })
      const weight = (body.mass + (load?.mass ?? 0)) * GRAVITY
      let moved = 0
      for (let frame = 1; frame < 9; frame++) {
        const { force, moment } = dynamics.at(frame).body
        const mean = { force: [0, 0, 0], moment: [0, 0, 0] }
        for (const [x, w] of GAUSS) {
          tree.set(motion, (frame + x / 2) / FPS)
          const instant = tree.wrench()
          for (let i = 0; i < 3; i++) {
            mean.force[i] = (mean.force[i] as number) + (w / 2) * (instant.force[i] as number)
            mean.moment[i] = (mean.moment[i] as number) + (w / 2) * (instant.moment[i] as number)
          }
        }
        const missF = norm(sub(force, mean.force as unknown as Vec3)) / weight
        const missM = norm(sub(moment, mean.moment as unknown as Vec3)) / (weight * 0.25 * body.stature)
        expect(missF).toBeLessThan(0.01)
        expect(missM).toBeLessThan(0.01)
        moved = Math.max(moved, norm(sub(force, [0, weight, 0])) / weight)
      }
      expect(moved).toBeGreaterThan(0.02)
      tree.free()
    },
  )
})

/**
 * @checks a body let go while it flails needs no force and no moment
 * @against forward dynamics of the same segments
 * @from mujoco-js; library
 * @within 1e-3, as above; push below 1.5e-3
 */
describe('free flight in MuJoCo’s forward dynamics', () => {
  it.each([0, 1, 2, 3])(
    'flight %d: a body let go while it flails asks for no force and no moment',
    (seed) => {
      const next = random(700 + seed)
      const body = makeBody((BUILDS[seed] as (typeof BUILDS)[number]).spec)
      // Ten steps from one pose to the next that momentum may ask for, 1/960 s apart.
      const tree = new MujocoBody(
        mujoco,
        body,
        null,
        GRAVITY,
        'timestep="0.00010416666666666667" integrator="RK4"',
      )
      tree.set(flailing(next, body.stature, 1.5, 2), 0)
      const poses: ReachedPose[] = []
      for (let i = 0; i <= 5 * 40; i++) {
        mujoco.mj_forward(tree.model, tree.data)
        poses.push(tree.read())
        for (let k = 0; k < 10; k++) mujoco.mj_step(tree.model, tree.data)
      }
      const poseAt = (frame: number) => poses[Math.round(40 * frame)] as ReachedPose
      const take = { length: 6, contacts: [], loads: [] }
      const problem = { body, ground: FLAT, gravity: GRAVITY, take, motion: { poseAt }, fps: FPS }
      const weight = body.mass * GRAVITY
      for (const frame of [1, 2, 3, 4]) {
        const dynamics = dynamicsOf(problem).at(frame)
        expect(norm(dynamics.body.force) / weight).toBeLessThan(1e-3)
        expect(norm(dynamics.body.moment) / (weight * 0.25 * body.stature)).toBeLessThan(1e-3)
        const { push, contacts } = weighFrame(problem, dynamics, { mover: null }).weighing
        expect(contacts).toEqual([])
        expect(push.size).toBeLessThan(1.5e-3)
      }
      tree.free()
    },
  )
})

/**
 * @checks force and moment of the demo’s own motion
 * @against sixteen free bodies that replay it
 * @from mujoco-js; library
 * @within 1 %, as above
 */
it('the demo’s own motion, replayed in MuJoCo as sixteen free bodies: within 1 % W and 1 % W L', () => {
  const plan = capstone()
  const body = makeBody(plan.body)
  const take = { ...(plan.takes[0] as Take), loads: [] }
  const motion = makeMotion(body, take)
  const dynamics = dynamicsOf({ body, ground: plan.ground, gravity: GRAVITY, take, motion, fps: FPS })
  const replay = new MujocoReplay(mujoco, body, GRAVITY)
  const weight = body.mass * GRAVITY
  const seconds = 1 / 4000
  const parts = 8
  for (let frame = 1; frame < take.length - 1; frame++) {
    const mean = { force: [0, 0, 0], moment: [0, 0, 0] }
    for (let part = 0; part < parts; part++) {
      // Never at the frame itself, where a contact may begin or end.
      const t = frame - 0.5 + (part + 0.5) / parts
      const step = seconds * FPS
      const instant = replay.wrench(
        motion.poseAt(t - step),
        motion.poseAt(t),
        motion.poseAt(t + step),
        seconds,
      )
      for (let i = 0; i < 3; i++) {
        mean.force[i] = (mean.force[i] as number) + (instant.force[i] as number) / parts
        mean.moment[i] = (mean.moment[i] as number) + (instant.moment[i] as number) / parts
      }
    }
    const { force, moment } = dynamics.at(frame).body
    const missF = norm(sub(force, mean.force as unknown as Vec3)) / weight
    const missM = norm(sub(moment, mean.moment as unknown as Vec3)) / (weight * 0.25 * body.stature)
    expect(missF, `force at frame ${frame}`).toBeLessThan(0.01)
    expect(missM, `moment at frame ${frame}`).toBeLessThan(0.01)
  }
  replay.free()
})
