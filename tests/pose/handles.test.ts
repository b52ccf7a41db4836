import { describe, expect, test } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { type BodyModel, makeBody, SIDES } from '../../src/body/model'
import { FLAT } from '../../src/contact/ground'
import { CHANNELS, type Controls } from '../../src/document/channels'
import type { ContactPart, ContactSpan } from '../../src/document/contacts'
import type { Ground } from '../../src/document/plan'
import { mirrorControls } from '../../src/plan/mirror'
import { type HandleId, handlePlace, handlesOf } from '../../src/pose/handles'
import { type FootWay, moveHandle } from '../../src/pose/move-handle'
import { reach } from '../../src/pose/reach'
import { makeStance, STANCES, type StanceId } from '../../src/pose/stances'
import type { ReachedPose } from '../../src/pose/types'
import { between, random } from '../../src/space/random'
import { add, distance, mirrorX, norm, reject, sub, type Vec3 } from '../../src/space/vec'

const bodies = BUILDS.map((build) => makeBody(build.spec))
const mason = makeBody((BUILDS.find(({ id }) => id === 'mason') as (typeof BUILDS)[number]).spec)
const DEPTHS: readonly (Vec3 | null)[] = [null, [0, 0, 1], [-1, 0, 0], [0, 1, 0]]

interface Scene {
  readonly body: BodyModel
  readonly ground: Ground
  readonly asked: Controls
  readonly contacts: readonly ContactSpan[]
  readonly start: ReachedPose
}

function scene(stance: StanceId, body = mason, free: readonly ContactPart[] = []): Scene {
  const made = makeStance(stance, body, FLAT)
  const contacts = made.contacts.filter(({ part }) => !free.includes(part))
  return { body, ground: FLAT, asked: made.controls, contacts, start: reach(body, made.controls, contacts) }
}

/** The same with a free left foot well off the ground, where nothing but the leg itself limits it. */
function lifted(s: Scene): Scene {
  const up = 0.12 * s.body.stature
  const asked = {
    ...s.asked,
    'legL.ankle.y': s.asked['legL.ankle.y'] + up,
    'legL.knee.y': s.asked['legL.knee.y'] + up,
    'legL.knee.z': s.asked['legL.knee.z'] + up,
  }
  return { ...s, asked, start: reach(s.body, asked, s.contacts) }
}

const scenes = (): Scene[] =>
  bodies.flatMap((body) => [
    ...STANCES.map(({ id }) => scene(id, body)),
    scene('tall-kneel', body, ['kneeL', 'footL']),
    scene('tall-kneel', body, ['footR']),
    scene('standing', body, ['footL', 'footR']),
    scene('hands-and-knees', body, ['handR']),
  ])

function drag(s: Scene, handle: HandleId, by: Vec3, free: Vec3 | null = null, foot: FootWay = 'along') {
  const from = handlePlace(s.body, s.start, handle)
  const target = add(from, by)
  const moved = moveHandle({ ...s, handle, target, free, foot })
  const pose = reach(s.body, moved.controls, moved.contacts)
  const at = handlePlace(s.body, pose, handle)
  const off = sub(target, at)
  return { ...moved, pose, at, from, miss: norm(free === null ? off : reject(off, free)) }
}

describe('a handle moved to where it is', () => {
  test('changes nothing: the very same controls and contacts come back', () => {
    for (const s of scenes())
      for (const { id, at } of handlesOf(s.body, s.start, s.contacts))
        for (const free of DEPTHS) {
          const moved = moveHandle({ ...s, handle: id, target: at, free })
          expect(moved.controls).toBe(s.asked)
          expect(moved.contacts).toBe(s.contacts)
        }
  })

  test('is a limit: a tiny way moves no joint far', { timeout: 60_000 }, () => {
    for (const s of scenes())
      for (const { id } of handlesOf(s.body, s.start, s.contacts))
        for (const free of DEPTHS) {
          const size = 1e-4 * s.body.stature
          const { pose } = drag(s, id, [size, -size, size], free)
          const settled = reach(s.body, s.start.reached, s.contacts)
          const jump = Math.max(
            ...Object.entries(pose.joints).map(([joint, place]) =>
              distance(place, s.start.joints[joint as keyof typeof s.start.joints]),
            ),
          )
          const own = Math.max(
            ...Object.entries(settled.joints).map(([joint, place]) =>
              distance(place, s.start.joints[joint as keyof typeof s.start.joints]),
            ),
          )
          expect(jump, `${id} ${free}`).toBeLessThan(0.01 * s.body.stature + own)
        }
  })
})

describe('the target is met', () => {
  const near = 3e-4 * mason.stature

  test.each<[HandleId, StanceId, ContactPart[], Vec3, Vec3 | null]>([
    ['pelvis', 'standing', ['footL', 'footR'], [0.1, -0.2, 0.15], null],
    ['hipL', 'half-kneel-left', [], [0, 0.06, 0], [0, 0, 1]],
    ['hipR', 'standing', [], [0, 0, -0.04], [1, 0, 0]],
    ['waist', 'standing', ['footL', 'footR'], [0, 0, 0.08], [0, 1, 0]],
    ['chest', 'tall-kneel', [], [0, -0.05, 0.3], [0, 1, 0]],
    ['chest', 'tall-kneel', [], [-0.2, 0, 0], [0, 1, 0]],
    ['shoulderR', 'tall-kneel', [], [0.04, 0, 0.15], [0, 1, 0]],
    ['head', 'tall-kneel', [], [0.1, 0, 0.1], [0, 1, 0]],
    ['brow', 'tall-kneel', [], [0.06, 0, 0], [0, 0, 1]],
    ['kneeL', 'tall-kneel', ['kneeL', 'footL'], [0.1, 0.1, 0], [0, 0, 1]],
    ['footL', 'tall-kneel', ['kneeL', 'footL'], [0.05, 0.1, 0.1], null],
    ['footR', 'tall-kneel', ['footR'], [0.05, 0.1, 0], [0, 0, 1]],
    ['toeL', 'standing', ['footL'], [0, 0.08, 0], [1, 0, 0]],
    ['toeL', 'standing', ['footL'], [0.08, 0, 0], [0, 1, 0]],
    ['toeL', 'tall-kneel', ['kneeL', 'footL'], [0, 0.04, 0], [1, 0, 0]],
    ['handL', 'tall-kneel', [], [-0.1, 0.2, 0.3], null],
    ['kneeR', 'tall-kneel', [], [0.1, 0, -0.05], null],
    ['footR', 'tall-kneel', [], [0.03, 0, 0.02], null],
    ['handR', 'hands-and-knees', [], [0.05, 0, 0.1], null],
  ])('by the %s in %s with %j free', (handle, stance, free, by, depth) => {
    const s = scene(stance, mason, free)
    const { miss } = drag(free.includes('footL') ? lifted(s) : s, handle, by, depth)
    expect(miss).toBeLessThan(near)
  })

  test('by an elbow, anywhere on its way round the arm', () => {
    const s = scene('tall-kneel')
    for (const swing of [-1.2, -0.4, 0.3, 1]) {
      const there = reach(s.body, { ...s.asked, 'armL.elbow': swing }, s.contacts).joints.elbowL
      const { miss, controls } = drag(s, 'elbowL', sub(there, s.start.joints.elbowL))
      expect(miss).toBeLessThan(near)
      expect(controls['armL.elbow']).toBeCloseTo(swing, 3)
    }
  })

  test('by the toes of a planted foot: it turns where it stands, about its ankle', () => {
    const s = scene('standing')
    const { ankleL, toeL } = s.start.joints
    const length = toeL[2] - ankleL[2]
    const by: Vec3 = [length * Math.sin(0.5), 0, length * (Math.cos(0.5) - 1)]
    const { pose, miss, contacts } = drag(s, 'toeL', by)
    expect(miss).toBeLessThan(near)
    expect(contacts.find(({ part }) => part === 'footL')?.heading).toBeCloseTo(0.5, 9)
    expect(distance(pose.joints.ankleL, ankleL)).toBeLessThan(1e-9)
  })

  test('going sideways over planted knees the pelvis follows the pointer but for what the thighs take', () => {
    const { miss, pose, from } = drag(scene('tall-kneel'), 'pelvis', [-0.12, 0, 0], [0, 0, 1])
    expect(miss).toBeLessThan(0.025)
    expect(pose.joints.midHip[0] - from[0]).toBeCloseTo(-0.115, 1)
    expect(pose.limits).toEqual([])
  })
})

describe('what is planted', () => {
  test('stays where it is when the trunk is moved', () => {
    const next = random(3)
    for (const s of scenes())
      for (const { id } of handlesOf(s.body, s.start, s.contacts).filter(({ limb }) => limb === 'trunk')) {
        const size = 0.1 * s.body.stature
        const by: Vec3 = [between(next, -size, size), between(next, -size, size), between(next, -size, size)]
        expect(drag(s, id, by).contacts).toBe(s.contacts)
      }
  })

  test('slides when its own handle is moved, and never leaves its surface', () => {
    const next = random(4)
    for (const s of scenes())
      for (const contact of s.contacts) {
        const size = 0.1 * s.body.stature
        const by: Vec3 = [between(next, -size, size), between(next, -size, size), between(next, -size, size)]
        const moved = drag(s, contact.part, by).contacts.find(({ id }) => id === contact.id) as ContactSpan
        expect(moved.position[1]).toBeCloseTo(contact.position[1], 12)
        expect(moved.normal).toEqual(contact.normal)
        expect(distance(moved.position, contact.position)).toBeGreaterThan(0)
      }
  })

  test('keeps to a block’s top and stays out of the block beside it', () => {
    const box = {
      id: 'course',
      name: 'Course',
      position: [0, 0, 0.6] as Vec3,
      size: [0.8, 0.3, 0.4] as Vec3,
      turn: 0.3,
      grip: 'normal' as const,
    }
    const ground: Ground = { grip: 'normal', boxes: [box] }
    const made = makeStance('hands-and-knees', mason, { grip: 'normal', boxes: [] })
    const contacts = made.contacts.map((c) =>
      c.part === 'handL' ? { ...c, on: 'course', position: [0.1, 0.3, 0.6] as Vec3 } : c,
    )
    const start = reach(mason, made.controls, contacts)
    const s = { body: mason, ground, asked: made.controls, contacts, start }
    const onTop = drag(s, 'handL', [3, 0, 0]).contacts.find(({ part }) => part === 'handL') as ContactSpan
    expect(onTop.position[1]).toBeCloseTo(0.3, 12)
    const [x, z] = [onTop.position[0], onTop.position[2] - 0.6]
    expect(x * Math.cos(0.3) - z * Math.sin(0.3)).toBeCloseTo(0.4, 9)
    const beside = drag(s, 'kneeL', [0, 0, 0.5]).contacts.find(({ part }) => part === 'kneeL') as ContactSpan
    const knee = contacts.find(({ part }) => part === 'kneeL') as ContactSpan
    const slid = beside.position[2] - knee.position[2]
    expect(slid).toBeGreaterThan(0.1)
    expect(slid).toBeLessThan(0.45)
  })

  test('a kneeling foot goes along with its knee, trails behind it or stays', () => {
    const s = scene('tall-kneel')
    const foot = (spans: readonly ContactSpan[]) =>
      spans.find(({ part }) => part === 'footL')?.position as Vec3
    const before = foot(s.contacts)
    const by: Vec3 = [0.12, 0, 0.05]
    expect(sub(foot(drag(s, 'kneeL', by, null, 'along').contacts), before)).toEqual([
      expect.closeTo(0.12, 9),
      0,
      expect.closeTo(0.05, 9),
    ])
    expect(foot(drag(s, 'kneeL', by, null, 'stays').contacts)).toEqual(before)
    const knee = (spans: readonly ContactSpan[]) =>
      spans.find(({ part }) => part === 'kneeL')?.position as Vec3
    const trailing = drag(s, 'kneeL', by, null, 'trails').contacts
    expect(distance(foot(trailing), knee(trailing))).toBeCloseTo(distance(before, knee(s.contacts)), 9)
    expect(distance(foot(trailing), before)).toBeLessThan(norm(by) * 0.6)
  })
})

describe('a rod drawn sideways', () => {
  test('leaves its end on the tractrix', () => {
    // A shin along z, its knee drawn along x: the end's place is the tractrix x = s − L tanh(s/L), z = L sech(s/L).
    const s = scene('tall-kneel', mason, ['footL'])
    const knee = s.start.joints.kneeL
    const level = {
      ...s.asked,
      'legL.ankle.x': knee[0],
      'legL.ankle.y': knee[1],
      'legL.ankle.z': knee[2] - 1,
    }
    const start = reach(mason, level, s.contacts)
    const { shank } = mason.lengths
    const way = 0.5 * shank
    const moved = drag({ ...s, asked: level, start }, 'kneeL', [way, 0, 0], null, 'trails')
    const end: Vec3 = [
      moved.controls['legL.ankle.x'] - knee[0],
      moved.controls['legL.ankle.y'] - knee[1],
      moved.controls['legL.ankle.z'] - knee[2],
    ]
    expect(end[0]).toBeCloseTo(way - shank * Math.tanh(way / shank), 2)
    expect(end[1]).toBeCloseTo(0, 9)
    expect(end[2]).toBeCloseTo(-shank / Math.cosh(way / shank), 2)
  })
})

describe('free limbs', () => {
  test('ride with the trunk: free hands keep their place in the chest, free legs in the pelvis', () => {
    const s = lifted(scene('tall-kneel', mason, ['kneeL', 'footL']))
    for (const [handle, by] of [
      ['pelvis', [-0.1, 0, 0.05]],
      ['waist', [0, 0, 0.1]],
      ['hipL', [0, 0, -0.05]],
      ['chest', [0.1, 0, 0.2]],
      ['shoulderL', [0, 0, 0.1]],
    ] as [HandleId, Vec3][]) {
      const { pose } = drag(s, handle, by)
      const gap = (p: ReachedPose, a: keyof ReachedPose['joints'], b: keyof ReachedPose['joints']) =>
        distance(p.joints[a], p.joints[b])
      for (const side of SIDES)
        for (const joint of ['neck', 'breastbone'] as const)
          expect(gap(pose, `knuckle${side}`, joint)).toBeCloseTo(gap(s.start, `knuckle${side}`, joint), 9)
      for (const joint of ['hipR', 'waist'] as const) {
        expect(gap(pose, 'ankleL', joint)).toBeCloseTo(gap(s.start, 'ankleL', joint), 9)
        expect(gap(pose, 'kneeL', joint)).toBeCloseTo(gap(s.start, 'kneeL', joint), 9)
      }
    }
  })

  test('a free knee takes its foot along, lets it trail or leaves it', () => {
    const s = lifted(scene('tall-kneel', mason, ['kneeL', 'footL']))
    const by: Vec3 = [0.08, 0.1, 0.1]
    const ankle = (way: FootWay) => drag(s, 'kneeL', by, null, way)
    const along = ankle('along')
    const kneeWent = sub(along.pose.joints.kneeL, s.start.joints.kneeL)
    expect(distance(sub(along.pose.joints.ankleL, s.start.joints.ankleL), kneeWent)).toBeLessThan(1e-6)
    expect(ankle('stays').pose.joints.ankleL).toEqual(s.start.joints.ankleL)
    const trails = ankle('trails').pose.joints.ankleL
    expect(trails[1]).toBeCloseTo(s.start.joints.ankleL[1], 6)
    expect(distance(trails, s.start.joints.ankleL)).toBeLessThan(norm(kneeWent))
  })
})

const swap = <T extends string>(id: T): T =>
  (/[LR]$/.test(id) ? `${id.slice(0, -1)}${id.endsWith('L') ? 'R' : 'L'}` : id) as T
const mirrored = (span: ContactSpan): ContactSpan => ({
  ...span,
  id: swap(span.id),
  part: swap(span.part),
  position: mirrorX(span.position),
  heading: -span.heading,
})

describe('properties', () => {
  test('the mirror image of a move is the move of the mirror image', { timeout: 60_000 }, () => {
    const next = random(5)
    for (const s of scenes()) {
      const image: Scene = {
        ...s,
        asked: mirrorControls(s.asked),
        contacts: s.contacts.map(mirrored),
      } as Scene
      const reflected = { ...image, start: reach(s.body, image.asked, image.contacts) }
      for (const { id } of handlesOf(s.body, s.start, s.contacts)) {
        const size = 0.08 * s.body.stature
        const by: Vec3 = [between(next, -size, size), between(next, -size, size), between(next, -size, size)]
        const free = DEPTHS[Math.floor(next() * DEPTHS.length)] as Vec3 | null
        const foot = (['along', 'trails', 'stays'] as const)[Math.floor(next() * 3)] as FootWay
        const a = drag(s, id, by, free, foot)
        const b = drag(reflected, swap(id), mirrorX(by), free && mirrorX(free), foot)
        for (const [joint, place] of Object.entries(a.pose.joints))
          expect(
            distance(mirrorX(place), b.pose.joints[swap(joint) as keyof typeof b.pose.joints]),
            `${id} ${joint}`,
          ).toBeLessThan(5e-4 * s.body.stature)
      }
    }
  })

  test('everything stays finite and every limb keeps its lengths, wherever a handle is asked to go', {
    timeout: 60_000,
  }, () => {
    const next = random(6)
    for (const s of scenes())
      for (const { id } of handlesOf(s.body, s.start, s.contacts))
        for (const size of [0.1, 2, 40]) {
          const far = size * s.body.stature
          const by: Vec3 = [between(next, -far, far), between(next, -far, far), between(next, -far, far)]
          const { controls, pose } = drag(s, id, by, DEPTHS[Math.floor(next() * 4)] as Vec3 | null)
          for (const channel of CHANNELS) expect(Number.isFinite(controls[channel]), channel).toBe(true)
          const { lengths } = s.body
          for (const side of SIDES) {
            const gap = (a: 'hip' | 'knee' | 'shoulder' | 'elbow', b: 'knee' | 'ankle' | 'elbow' | 'wrist') =>
              distance(pose.joints[`${a}${side}`], pose.joints[`${b}${side}`]) / s.body.stature
            expect(gap('hip', 'knee')).toBeCloseTo(lengths.thigh / s.body.stature, 6)
            expect(gap('knee', 'ankle')).toBeCloseTo(lengths.shank / s.body.stature, 6)
            expect(gap('shoulder', 'elbow')).toBeCloseTo(lengths.upperArm / s.body.stature, 6)
            expect(gap('elbow', 'wrist')).toBeCloseTo(lengths.forearm / s.body.stature, 6)
          }
        }
  })
})

test('handles say in words what they do, and change with what is planted', () => {
  const s = scene('tall-kneel', mason, ['kneeL', 'footL'])
  const handles = new Map(handlesOf(s.body, s.start, s.contacts).map((handle) => [handle.id, handle]))
  expect(handles.get('kneeL')?.name).toBe('left knee')
  expect(handles.get('kneeL')?.does).toBe('swings the thigh about the hip')
  expect(handles.get('kneeR')?.does).toBe('slides the kneecap over the ground')
  expect(handles.has('toeR')).toBe(false)
  expect(handles.get('toeL')?.channels).toEqual(['legL.pitch', 'legL.turn'])
})
