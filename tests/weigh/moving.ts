import { BUILDS } from '../../src/body/builds'
import { type BodyModel, makeBody } from '../../src/body/model'
import { FLAT } from '../../src/contact/ground'
import type { Controls } from '../../src/document/channels'
import type { ContactSpan } from '../../src/document/contacts'
import type { CarriedLoad } from '../../src/document/plan'
import { changedPose } from '../../src/pose/changed'
import { reach } from '../../src/pose/reach'
import { makeStance, type StanceId } from '../../src/pose/stances'
import type { ReachedPose } from '../../src/pose/types'
import { apply, IDENTITY, type Mat3, multiply } from '../../src/space/rotation'
import { add, sub, type Vec3 } from '../../src/space/vec'
import type { MotionProblem } from '../../src/weigh/dynamic'

/** A grown person in a stance, and takes in which the whole pose is moved as one stiff body. */
export function stiff(stance: StanceId = 'tall-kneel'): Stiff {
  const body = makeBody((BUILDS[0] as (typeof BUILDS)[number]).spec)
  const { controls, contacts } = makeStance(stance, body, FLAT)
  return { body, controls, contacts, pose: reach(body, controls, contacts) }
}

export interface Stiff {
  readonly body: BodyModel
  readonly controls: Controls
  readonly contacts: readonly ContactSpan[]
  readonly pose: ReachedPose
}

/** Where a stiff body is at a frame: turned about its centre of mass, then shifted; and which pads bear where. */
export interface Stir {
  readonly rotation?: Mat3
  readonly shift?: Vec3
  /** Pads go along (true), stay where they were (false, the default), or are off (null). */
  readonly pads?: boolean | null
}

export function stirred(
  { body, contacts, pose }: Stiff,
  length: number,
  at: (frame: number) => Stir,
  take: Partial<MotionProblem['take']> = {},
  fps = 24,
): MotionProblem {
  const spans = contacts.map((span) => ({ ...span, from: 0, to: length - 1 }))
  return {
    body,
    ground: FLAT,
    gravity: 9.81,
    take: { length, contacts: spans, loads: [], ...take },
    motion: { poseAt: (frame) => stir(pose, at(frame)) },
    fps,
  }
}

export const held = (mass: number, from: number, to: number): CarriedLoad => ({
  id: 'load',
  name: 'Load',
  mass,
  on: 'back',
  offset: [0, 0, -0.2],
  from,
  to,
})

function stir(
  pose: ReachedPose,
  { rotation = IDENTITY, shift = [0, 0, 0], pads = false }: Stir,
): ReachedPose {
  const { com } = pose
  const move = (p: Vec3): Vec3 => add(add(com, apply(rotation, sub(p, com))), shift)
  const each = <T, U>(record: Readonly<Record<string, T>>, f: (value: T) => U) =>
    Object.fromEntries(Object.entries(record).map(([id, value]) => [id, f(value)]))
  const slid = (v: Vec3) => (pads ? add(v, shift) : v)
  return changedPose(pose, {
    com: move(com),
    joints: each(pose.joints, move) as unknown as ReachedPose['joints'],
    segments: each(pose.segments, (s) => ({
      rotation: multiply(rotation, s.rotation),
      origin: move(s.origin),
      com: move(s.com),
    })) as unknown as ReachedPose['segments'],
    pads:
      pads === null
        ? []
        : pose.pads.map((pad) => ({ ...pad, centre: slid(pad.centre), vertices: pad.vertices.map(slid) })),
  })
}
