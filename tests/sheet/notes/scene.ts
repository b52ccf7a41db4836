import { BUILDS, resized } from '../../../src/body/builds'
import { makeBody, type Side } from '../../../src/body/model'
import { FLAT } from '../../../src/contact/ground'
import type { ContactPart, ContactSpan, LimbId } from '../../../src/document/contacts'
import type { Plan, Take } from '../../../src/document/plan'
import { newPlan } from '../../../src/plan/new'
import { reach } from '../../../src/pose/reach'
import { makeStance } from '../../../src/pose/stances'
import type { JointId, Limit, ReachedPose } from '../../../src/pose/types'
import { measure, type NotesOptions } from '../../../src/sheet/notes/measure'
import type { Measured } from '../../../src/sheet/notes/types'
import { type Angles, fromAngles, multiply } from '../../../src/space/rotation'
import { add, type Vec3 } from '../../../src/space/vec'
import type { DynamicFrame } from '../../../src/weigh/dynamic'

/** A size, a rate and an exposure that every rule must read alike. */
export interface Env {
  readonly stature: number
  readonly fps: number
  readonly on: 1 | 2
}

export const ENVS: readonly Env[] = [0.9, 6].flatMap((stature) =>
  [24, 60].flatMap((fps) => ([1, 2] as const).map((on) => ({ stature, fps, on }))),
)

export const envName = ({ stature, fps, on }: Env): string =>
  `${stature} m, ${fps} fps, on ${on === 1 ? 'ones' : 'twos'}`

/** √(H / 1.8 m) and H / 1.8 m, as mechanics has them. */
export const root = ({ stature }: Env): number => Math.sqrt(stature / 1.8)
export const size = ({ stature }: Env): number => stature / 1.8

/** What a body kneeling tall does at a time: made up part by part, with no reach and no weighing behind it. */
export interface Stir {
  /** Travel of trunk, head, arms and centre of mass, m. */
  readonly move?: Vec3
  /** Of the centre of mass alone, m. */
  readonly weight?: Vec3
  /** To the world, rad. */
  readonly pelvis?: Partial<Angles>
  readonly chest?: Partial<Angles>
  readonly head?: Partial<Angles>
  readonly forearmL?: Partial<Angles>
  /** Against the forearm. */
  readonly handL?: Partial<Angles>
  readonly shankL?: Partial<Angles>
  /** Travel of joints, m. */
  readonly joints?: Partial<Record<JointId, Vec3>>
  /** Travel of pads, m. */
  readonly pads?: Partial<Record<ContactPart, Vec3>>
  readonly limits?: readonly Limit[]
  /** Share of the weight on each limb, and the least it could carry. */
  readonly share?: Partial<Record<LimbId, number>>
  readonly least?: Partial<Record<LimbId, number>>
  /** m */
  readonly room?: number
  /** Push from nowhere, W. */
  readonly push?: Vec3
  /** Upward force of the ground, W. */
  readonly up?: number
}

export interface Scene {
  readonly env: Env
  readonly seconds: number
  readonly at: (time: number) => Stir
  /** Contacts in place of the stance's, all of them from the first frame to the last. */
  readonly contacts?: (spans: readonly ContactSpan[], last: number) => readonly ContactSpan[]
  readonly take?: Partial<Take>
  readonly options?: NotesOptions
}

/** The scene as the rules get it. */
export function measured({ env, seconds, at, contacts, take: extra, options }: Scene): Measured {
  const plan = kneeling(env, Math.ceil(seconds * env.fps) + 1)
  const whole = plan.takes[0] as Take
  const spans = contacts?.(whole.contacts, whole.length - 1) ?? whole.contacts
  const take = { ...whole, ...extra, contacts: spans, exposure: env.on }
  const body = makeBody(plan.body)
  const { controls, contacts: stance } = makeStance('tall-kneel', body, FLAT)
  const base = reach(body, controls, stance)
  const poseAt = (frame: number): ReachedPose => stirred(base, take.contacts, frame, at(frame / env.fps))
  return measure(
    {
      plan,
      take,
      motion: { poseAt },
      weighed: (frame) => weighed(plan, poseAt(frame), frame, at(frame / env.fps)),
    },
    { stepped: false, ...options },
  )
}

function kneeling(env: Env, length: number): Plan {
  const spec = resized((BUILDS[0] as (typeof BUILDS)[number]).spec, env.stature)
  const { controls, contacts } = makeStance('tall-kneel', makeBody(spec), FLAT)
  const made = contacts.map(({ id: _, from: __, to: ___, ...contact }) => contact)
  return newPlan({
    title: 'Scene',
    character: 'Body',
    body: spec,
    controls,
    contacts: made,
    length,
    rate: { num: env.fps, den: 1 },
  })
}

const angles = (some: Partial<Angles> = {}) => fromAngles({ turn: 0, list: 0, tilt: 0, ...some })

function stirred(base: ReachedPose, spans: readonly ContactSpan[], frame: number, stir: Stir): ReachedPose {
  const { segments } = base
  const move: Vec3 = stir.move ?? [0, 0, 0]
  const turned = (id: keyof typeof segments, some?: Partial<Angles>) => ({
    ...segments[id],
    rotation: multiply(angles(some), segments[id].rotation),
  })
  const forearm = turned('forearmL', stir.forearmL)
  const joints = Object.fromEntries(
    (Object.keys(base.joints) as JointId[]).map((id) => {
      const rides = !/^(knee|ankle|heel|ball|toe)/.test(id)
      const own = stir.joints?.[id] ?? [0, 0, 0]
      return [id, add(add(base.joints[id], rides ? move : [0, 0, 0]), own)]
    }),
  ) as Record<JointId, Vec3>
  return {
    ...base,
    joints,
    com: add(add(base.com, move), stir.weight ?? [0, 0, 0]),
    limits: stir.limits ?? [],
    segments: {
      ...segments,
      lowerTrunk: turned('lowerTrunk', stir.pelvis),
      upperTrunk: turned('upperTrunk', stir.chest),
      head: turned('head', stir.head),
      forearmL: forearm,
      handL: {
        ...segments.handL,
        rotation: multiply(angles(stir.forearmL), multiply(angles(stir.handL), segments.handL.rotation)),
      },
      shankL: turned('shankL', stir.shankL),
    },
    pads: spans
      .filter(({ from, to }) => from <= frame && frame <= to)
      .map((span) => {
        const like = base.pads.find(({ part }) => part === span.part) ?? base.pads[0]
        const off = stir.pads?.[span.part] ?? [0, 0, 0]
        return {
          id: span.id,
          part: span.part,
          limb: limbOf(span.part),
          kind: span.kind,
          on: span.on,
          normal: span.normal,
          centre: add(span.position, off),
          vertices: (like?.vertices ?? []).map((vertex) => add(vertex, off)),
        }
      }),
  }
}

const limbOf = (part: ContactPart): LimbId =>
  `${part.startsWith('hand') ? 'arm' : 'leg'}${part.slice(-1) as Side}`

function weighed(plan: Plan, pose: ReachedPose, frame: number, stir: Stir): DynamicFrame {
  const { mass } = pose
  const weight = mass * plan.gravity
  const push: Vec3 = stir.push ?? [0, 0, 0]
  const force: Vec3 = [push[0] * weight, push[1] * weight, push[2] * weight]
  const limbs = [...new Set(pose.pads.map(({ limb }) => limb))]
  const share = (limb: LimbId) => stir.share?.[limb] ?? 1 / limbs.length
  const bearing = (id: string, limb: LimbId, parts: number) => ({
    id,
    limb,
    load: (share(limb) * weight) / parts,
    share: share(limb) / parts,
    vertical: share(limb) / parts,
    least: ((stir.least?.[limb] ?? 0) * weight) / parts,
    most: weight,
  })
  const size = Math.hypot(...push)
  return {
    frame,
    contacts: [],
    body: {
      mass,
      com: pose.com,
      stature: plan.body.stature,
      gravity: plan.gravity,
      force: [0, (stir.up ?? 1) * weight, 0],
      moment: [0, 0, 0],
    },
    velocity: [0, 0, 0],
    weighing: {
      push: { force, moment: [0, 0, 0], size },
      ranged: true,
      contacts: pose.pads.map(({ id, limb }) => ({
        ...bearing(id, limb, pose.pads.filter((pad) => pad.limb === limb).length),
        force: [0, 0, 0],
        frictionUsed: 0,
        centre: null,
      })),
      limbs: limbs.map((limb) => bearing(limb, limb, 1)),
      plumb: [pose.com[0], 0, pose.com[2]],
      region: [],
      room: stir.room ?? 0.1,
      centreOfPressure: null,
    },
    push: { newtons: size * weight, kilograms: size * mass, at: pose.com },
    drags: [],
    landing: null,
    verdict: null,
  }
}

/** 0 before `start`, 1 after `end`, straight between. */
export const ramp = (time: number, start: number, end: number): number =>
  Math.max(0, Math.min(1, (time - start) / (end - start)))

/** The same, slow in and slow out. */
export function eased(time: number, start: number, end: number): number {
  const x = ramp(time, start, end)
  return x * x * x * (10 - 15 * x + 6 * x * x)
}

export const deg = (angle: number): number => (angle * Math.PI) / 180
