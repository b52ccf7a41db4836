import { describe, expect, it } from 'vitest'
import { CHANNELS, type ChannelId, type Controls } from '../../src/document/channels'
import type { Plan } from '../../src/document/plan'
import { deleteKeys, setControls } from '../../src/plan/edit/keys'
import { controlsAtKey } from '../../src/plan/key-poses'
import { mirrorControls, mirrorPlan, mirrorTakeAt, otherSide } from '../../src/plan/mirror'
import { faultsOf } from '../../src/plan/read'
import { random } from '../../src/space/random'
import { fromAngles, mirrorRotation } from '../../src/space/rotation'
import { randomControls, randomPlan } from './random-plan'
import { firstTake, flat, smallPlan } from './small'

/** Equal to the last bit, 0 and −0 apart. */
const expectSameBits = (a: unknown, b: unknown, why: string) => {
  expect(a, why).toStrictEqual(b)
}

const numbered = Object.fromEntries(CHANNELS.map((channel, i) => [channel, i + 1])) as Record<
  ChannelId,
  number
>

describe('the mirror image of a pose', () => {
  it('swaps the sides and turns sideways places, turns and lists round', () => {
    const image = mirrorControls(numbered)
    expect(image['pelvis.x']).toBe(-numbered['pelvis.x'])
    expect(image['pelvis.tilt']).toBe(numbered['pelvis.tilt'])
    expect(image['legL.knee.x']).toBe(-numbered['legR.knee.x'])
    expect(image['legL.ankle.y']).toBe(numbered['legR.ankle.y'])
    expect(image['legR.turn']).toBe(-numbered['legL.turn'])
    expect(image['legR.pitch']).toBe(numbered['legL.pitch'])
    expect(image['armL.elbow']).toBe(numbered['armR.elbow'])
    expect(image['armR.wrist']).toBe(numbered['armL.wrist'])
  })

  it('is the mirror image of every rotation, as the rotation matrices have it', () => {
    const next = random(11)
    for (let i = 0; i < 100; i++) {
      const controls = randomControls(next)
      const image = mirrorControls(controls)
      for (const part of ['pelvis', 'chest', 'head'] as const) {
        const angles = (c: Controls) => ({
          turn: c[`${part}.turn`],
          list: c[`${part}.list`],
          tilt: c[`${part}.tilt`],
        })
        const mirrored = mirrorRotation(fromAngles(angles(controls)))
        fromAngles(angles(image)).forEach((entry, k) => {
          expect(entry).toBeCloseTo(mirrored[k] as number, 14)
        })
      }
    }
  })

  it('makes no −0, and twice it is the pose', () => {
    for (const value of Object.values(mirrorControls(flat(0)))) expect(Object.is(value, 0)).toBe(true)
    expectSameBits(mirrorControls(mirrorControls(numbered)), numbered, 'twice')
  })
})

describe('the mirror image of a plan', () => {
  it('twice is the plan, to the last bit', () => {
    for (let seed = 0; seed < 200; seed++) {
      const plan = randomPlan(random(seed))
      const image = mirrorPlan(plan)
      expect(faultsOf(image), `seed ${seed}`).toEqual([])
      expectSameBits(mirrorPlan(image), plan, `seed ${seed}`)
      expect(JSON.stringify(mirrorPlan(image)), `seed ${seed}`).toBe(JSON.stringify(plan))
    }
  })

  it('swaps contacts, arcs, lags, boxes, loads, camera and the mover, and leaves the rig', () => {
    const plan = randomPlan(random(3))
    const image = mirrorPlan(plan)
    const [take, mirrored] = [firstTake(plan), firstTake(image)]
    take.contacts.forEach((span, i) => {
      const other = mirrored.contacts[i]
      expect(other?.part).toBe(`${span.part.slice(0, -1)}${span.part.endsWith('L') ? 'R' : 'L'}`)
      expect(other?.position).toEqual([-span.position[0], span.position[1], span.position[2]])
      expect(other?.heading).toBe(-span.heading)
      expect(other).toMatchObject({ kind: span.kind, on: span.on, from: span.from, to: span.to, id: span.id })
    })
    expect(mirrored.loads[0]).toMatchObject({ on: 'handR', offset: [-0.1, 0, -0.2] })
    expect(image.ground.boxes[0]?.turn).toBe(-(plan.ground.boxes[0]?.turn as number))
    expect(image.scene).toBe(plan.scene)
    take.arcs.forEach((arc, i) => {
      const limb = `${arc.limb.slice(0, -1)}${arc.limb.endsWith('L') ? 'R' : 'L'}`
      expect(mirrored.arcs[i]).toEqual({ ...arc, limb, side: -arc.side })
    })
    expect(take.arcs.length).toBeGreaterThan(0)
    expect(mirrored.lags).toEqual({ ...take.lags, armL: take.lags.armR, armR: 1.5, legL: -0.5, legR: 0 })
    expect(mirrored.setAside).toBe(take.setAside)
    expect(mirrored.accents).toBe(take.accents)
    expect(image.camera?.position).toEqual([
      -(plan.camera?.position[0] as number),
      ...(plan.camera?.position.slice(1) ?? []),
    ])
    expect(image.camera?.lens).toBe(35)
    expect(image.stiffness).toBe(plan.stiffness)
    expect(image.body).toBe(plan.body)
  })

  it('turns the heading of a hand on a wall as the wall turns', () => {
    // The fingers' direction is the normal's turn of +Z by the heading: cos h · z + sin h · n × z.
    const direction = ([x, y]: readonly number[], h: number) => [
      Math.sin(h) * (y as number),
      -Math.sin(h) * (x as number),
      Math.cos(h),
    ]
    const wall = { normal: [1, 0, 0] as const, heading: 0.7 }
    const plan = randomPlan(random(3))
    const take = firstTake(plan)
    const contacts = take.contacts.map((span) => ({ ...span, ...wall }))
    const image = firstTake(mirrorPlan({ ...plan, takes: [{ ...take, contacts }] })).contacts[0]
    const [x, y, z] = direction(wall.normal, wall.heading)
    expect(direction(image?.normal ?? [], image?.heading ?? 0)).toEqual([-(x as number), y, z])
  })
})

describe('the mirror image of one pose of a take', () => {
  const T = 'take-1'
  const plan: Plan = setControls(setControls(smallPlan(), T, 10, numbered), T, 20, flat(2))

  it('mirrors a key pose and no other frame', () => {
    const image = mirrorTakeAt(plan, T, 10)
    expect(controlsAtKey(firstTake(image), 10)).toEqual(mirrorControls(numbered))
    expect(controlsAtKey(firstTake(image), 20)).toEqual(flat(2))
    expect(mirrorTakeAt(image, T, 10)).toEqual(plan)
  })

  it('brings the keys of a breakdown over to the other side', () => {
    const broken = deleteKeys(plan, T, 10, ['armR.elbow', 'legR.knee.x'])
    const image = firstTake(mirrorTakeAt(broken, T, 10))
    expect(image.channels['armR.elbow'].map(({ frame, value }) => [frame, value])).toEqual([
      [0, 0],
      [10, numbered['armL.elbow']],
      [20, 2],
    ])
    expect(image.channels['armL.elbow'].map(({ frame }) => frame)).toEqual([0, 20])
    expect(mirrorTakeAt(mirrorTakeAt(broken, T, 10), T, 10)).toEqual(broken)
  })

  it('twice is the plan, to the last bit, wherever there are keys', () => {
    for (let seed = 0; seed < 200; seed++) {
      const random1 = randomPlan(random(seed))
      const take = firstTake(random1)
      const frames = new Set(CHANNELS.flatMap((channel) => take.channels[channel].map(({ frame }) => frame)))
      for (const frame of frames)
        expectSameBits(
          mirrorTakeAt(mirrorTakeAt(random1, take.id, frame), take.id, frame),
          random1,
          `seed ${seed}, frame ${frame}`,
        )
    }
  })

  it('gives back the very plan where nothing is keyed', () => {
    expect(mirrorTakeAt(plan, T, 13)).toBe(plan)
  })
})

it('every channel has one on the other side', () => {
  for (const channel of CHANNELS) {
    expect(CHANNELS).toContain(otherSide(channel))
    expect(otherSide(otherSide(channel))).toBe(channel)
  }
})
