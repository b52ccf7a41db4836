import { describe, expect, it } from 'vitest'
import type { ContactSpan } from '../../../src/document/contacts'
import { RULES } from '../../../src/sheet/notes/rules'
import type { Finding } from '../../../src/sheet/notes/types'
import { UP } from '../../../src/space/vec'
import {
  deg,
  ENVS,
  type Env,
  eased,
  envName,
  measured,
  ramp,
  root,
  type Scene,
  type Stir,
  size,
} from './scene'

/*
 * Every rule on a motion that just fires it and one that just doesn't, for a child and a giant, at 24 and 60
 * frames a second, on ones and on twos. The thresholds are written here as mechanics states them, for a
 * stature of 1.8 m; they go with H / 1.8 m and √(H / 1.8 m).
 */

interface Case {
  readonly rule: string
  readonly what: string
  /** A scene with the measure at `x`, in the threshold's own unit. */
  readonly scene: (x: number, env: Env) => Omit<Scene, 'env'>
  /** Silent and firing values on both sides of the threshold. */
  readonly only?: (env: Env) => boolean
  readonly silent: number
  readonly fires: number
}

/** Frames of a time, s, as a whole drawing. */
const drawing = (time: number, { fps, on }: Env) => Math.round((time * fps) / on) * on

/** A limb's contacts end at a time. */
const leaves = (parts: readonly string[], time: number, env: Env) => (spans: readonly ContactSpan[]) =>
  spans.map((span) => (parts.includes(span.part) ? { ...span, to: drawing(time, env) } : span))

const LEFT_LEG = ['kneeL', 'footL']

/** The weight goes a share of the way it needs, from between the knees to where the right leg alone holds it. */
function shift(env: Env, share: number, stir: (time: number) => Stir): Omit<Scene, 'env'> {
  const r = root(env)
  const probe = measured({ env, seconds: 2 * r, at: () => ({}), contacts: leaves(LEFT_LEG, 1.2 * r, env) })
  const needed = probe.lifts[0]?.needed ?? Number.NaN
  return {
    seconds: 2 * r,
    contacts: leaves(LEFT_LEG, 1.2 * r, env),
    at: (time) => {
      const own = stir(time)
      const gone = -share * needed * eased(time, 0.2 * r, 1 * r)
      return { least: { legL: 0.3 }, ...own, weight: [gone - (own.move?.[0] ?? 0), 0, 0] }
    },
  }
}

/** The travel that the shift of the pelvis needs, m. */
function neededBy(env: Env): number {
  const r = root(env)
  return (
    measured({ env, seconds: 2 * r, at: () => ({}), contacts: leaves(LEFT_LEG, 1.2 * r, env) }).lifts[0]
      ?.needed ?? Number.NaN
  )
}

/** A foot's sole that comes down beside the body at a time. */
const lands =
  (time: number, env: Env) =>
  (spans: readonly ContactSpan[], last: number): ContactSpan[] => [
    ...spans.filter(({ part }) => !LEFT_LEG.includes(part)),
    {
      id: 'step',
      part: 'footL',
      kind: 'sole',
      position: [0.2 * env.stature, 0, 0.1 * env.stature],
      heading: 0,
      normal: UP,
      on: 'ground',
      from: drawing(time, env),
      to: last,
      state: 'planted',
    },
  ]

/** All parts move, each over its own time. */
function everything(env: Env, at: (part: number) => (time: number) => number): (time: number) => Stir {
  const far = 0.2 * env.stature
  return (time) => ({
    move: [far * at(0)(time), 0, 0],
    chest: { list: deg(25) * at(1)(time) },
    head: { list: deg(25) * (at(1)(time) + at(2)(time)) },
    joints: {
      knuckleL: [far * (at(3)(time) - at(0)(time)), 0, 0],
      knuckleR: [far * (at(4)(time) - at(0)(time)), 0, 0],
    },
  })
}

const CASES: readonly Case[] = [
  {
    rule: 'slides',
    what: 'way over the planted span, cm · H / 1.8',
    silent: 1.8,
    fires: 2.2,
    scene: (x, env) => ({
      seconds: 2 * root(env),
      at: (time) => ({
        share: { legL: 0.6 },
        pads: { kneeL: [(x / 100) * size(env) * ramp(time, 0.5 * root(env), 1.5 * root(env)), 0, 0] },
      }),
    }),
  },
  {
    rule: 'slides',
    what: 'speed, m/s · √s',
    silent: 0.2,
    fires: 0.28,
    // Over one drawing; where even that goes further than the way that counts by itself, there is no such case.
    // Nor where it is so little that it never counts.
    only: (env) => {
      const way = 0.28 * root(env) * (env.on / env.fps)
      return way < 0.019 * size(env) && way > 0.0035 * size(env)
    },
    scene: (x, env) => {
      const start = drawing(0.5 * root(env), env) / env.fps
      const took = env.on / env.fps
      const way = x * root(env) * took
      return {
        seconds: root(env),
        at: (t) => ({ share: { legL: 0.6 }, pads: { kneeL: [way * ramp(t, start, start + took), 0, 0] } }),
      }
    },
  },
  {
    rule: 'slides',
    what: 'load of the contact, W',
    silent: 0.09,
    fires: 0.11,
    // The leg's load is shared by its two pads.
    scene: (x, env) => ({
      seconds: 2 * root(env),
      at: (time) => ({
        share: { legL: 2 * x },
        pads: { kneeL: [0.05 * size(env) * ramp(time, 0.5 * root(env), 1.5 * root(env)), 0, 0] },
      }),
    }),
  },
  {
    rule: 'lifts-early',
    what: 'least load, W',
    silent: 0.14,
    fires: 0.16,
    scene: (x, env) => ({
      seconds: 2 * root(env),
      contacts: leaves(LEFT_LEG, root(env), env),
      at: () => ({ least: { legL: x } }),
    }),
  },
  {
    rule: 'balance',
    what: 'room outside, % of H',
    silent: 0.6,
    fires: 1.4,
    scene: (x, env) => {
      const edge = edgeOf(env)
      const out = (x / 100) * env.stature
      return { seconds: root(env), at: () => ({ room: -out, weight: [edge + out, 0, 0] }) }
    },
  },
  {
    rule: 'balance',
    what: 'time outside, s · √s',
    silent: 0.15,
    fires: 0.42,
    scene: (x, env) => {
      const edge = edgeOf(env)
      const out = 0.05 * env.stature
      return {
        seconds: 2 * root(env),
        at: (time) =>
          Math.abs(time - root(env)) < (x * root(env)) / 2
            ? { room: -out, weight: [edge + out, 0, 0] }
            : { room: 0.1 * env.stature },
      }
    },
  },
  {
    rule: 'reach',
    what: 'beyond the arm, % of its length',
    silent: 1.9,
    fires: 2.1,
    scene: (x, env) => ({ seconds: root(env), at: () => beyond(env, x) }),
  },
  {
    rule: 'turns',
    what: 'share of the needed way, %',
    silent: 55,
    fires: 45,
    scene: (x, env) => shift(env, x / 100, () => ({})),
  },
  {
    rule: 'waist',
    what: 'lean of the chest, degrees',
    silent: 9,
    fires: 11,
    scene: (x, env) =>
      shift(env, 0.8, (time) => ({ chest: { list: deg(x) * eased(time, 0.2 * root(env), root(env)) } })),
  },
  {
    rule: 'waist',
    what: 'travel of the pelvis, % of the needed',
    silent: 36,
    fires: 24,
    scene: (x, env) => {
      const way = (x / 100) * neededBy(env)
      return shift(env, 0.8, (time) => {
        const gone = eased(time, 0.2 * root(env), root(env))
        return { move: [-way * gone, 0, 0], chest: { list: deg(15) * gone } }
      })
    },
  },
  {
    rule: 'push',
    what: 'velocity that nothing explains, m/s · √s',
    silent: 0.12,
    fires: 0.18,
    scene: (x, env) => {
      const frames = Math.max(1, Math.round((0.25 * root(env) * env.fps) / env.on)) * env.on
      const first = drawing(0.5 * root(env), env)
      const share = (x * root(env)) / ((frames / env.fps) * 9.81)
      return {
        seconds: 2 * root(env),
        at: (time) => {
          const frame = Math.round(time * env.fps)
          return { push: [0, frame >= first && frame < first + frames ? -share : 0, 0] }
        },
      }
    },
  },
  {
    rule: 'hips-step',
    what: 'travel of the pelvis, % of H',
    silent: 3.4,
    fires: 2.6,
    scene: (x, env) => ({
      seconds: 3 * root(env),
      contacts: lands(root(env), env),
      at: (time) => ({
        share: { legL: 0.3 },
        move: [(x / 100) * env.stature * eased(time, 0.8 * root(env), 1.2 * root(env)), 0, 0],
      }),
    }),
  },
  {
    rule: 'hips-step',
    what: 'list and turn of the pelvis, degrees',
    silent: 4.5,
    fires: 3.5,
    scene: (x, env) => ({
      seconds: 3 * root(env),
      contacts: lands(root(env), env),
      at: (time) => ({
        share: { legL: 0.3 },
        pelvis: { list: deg(x) * eased(time, 0.8 * root(env), 1.2 * root(env)) },
      }),
    }),
  },
  {
    rule: 'hips-step',
    what: 'weight that the foot takes, W',
    silent: 0.18,
    fires: 0.22,
    scene: (x, env) => ({
      seconds: 3 * root(env),
      contacts: lands(root(env), env),
      at: () => ({ share: { legL: x } }),
    }),
  },
  {
    rule: 'hip-drop',
    what: 'hip line, degrees',
    silent: 2.2,
    fires: 1.8,
    scene: (x, env) => ({
      seconds: root(env),
      at: () => ({ share: { legR: 0.85 }, pelvis: { list: -deg(x) } }),
    }),
  },
  {
    rule: 'hip-drop',
    what: 'weight on one leg, W',
    silent: 0.78,
    fires: 0.82,
    scene: (x, env) => ({ seconds: root(env), at: () => ({ share: { legR: x } }) }),
  },
  {
    rule: 'give',
    what: 'going on of the hips, % of H',
    silent: 1.2,
    fires: 0.8,
    scene: (x, env) => landing(env, 0.6, x / 100),
  },
  {
    rule: 'give',
    what: 'speed of the landing, m/s · √s',
    silent: 0.3,
    fires: 0.4,
    scene: (x, env) => landing(env, x, 0),
  },
  {
    rule: 'together',
    what: 'parts that start at once',
    silent: 3,
    fires: 5,
    scene: (x, env) => ({
      seconds: 4 * root(env),
      at: everything(env, (part) => {
        const later = part < x ? 0 : (part + 1) * 0.3 * root(env)
        return (time) => eased(time, 0.5 * root(env) + later, 1.7 * root(env) + later)
      }),
    }),
  },
  {
    rule: 'dead',
    what: 'stillness after everything ended, s · √s',
    silent: 0.2,
    fires: 0.6,
    scene: (x, env) => ({
      seconds: (1.5 + x) * root(env),
      at: everything(env, () => (time) => eased(time, 0, 1.5 * root(env))),
    }),
  },
  {
    rule: 'dead',
    what: 'drawings between the ends of the parts',
    silent: 6,
    fires: 0,
    scene: (x, env) => ({
      seconds: 4 * root(env) + (30 * env.on) / env.fps,
      at: everything(env, (part) => {
        const later = (part * x * env.on) / env.fps
        return (time) => ramp(time, 0.3 * root(env) + later, 1.5 * root(env) + later)
      }),
    }),
  },
  {
    rule: 'even',
    what: 'peak over mean speed',
    silent: 1.37,
    fires: 1.23,
    scene: (x, env) => {
      // Speed 1 + a sin πu has a peak of (1 + a) / (1 + 2a / π) times its mean.
      const a = (x - 1) / (1 - (2 * x) / Math.PI)
      const whole = 1 + (2 * a) / Math.PI
      return {
        seconds: 4 * root(env),
        at: (time) => {
          const u = ramp(time, 0.5 * root(env), 3.5 * root(env))
          return {
            move: [(0.3 * env.stature * (u + (a / Math.PI) * (1 - Math.cos(Math.PI * u)))) / whole, 0, 0],
          }
        },
      }
    },
  },
  {
    rule: 'head',
    what: 'turn of the chest under a head that stays, degrees',
    silent: 14,
    fires: 16,
    scene: (x, env) => ({
      seconds: 2 * root(env),
      at: (time) => ({ chest: { turn: deg(x) * quick(time, env) } }),
    }),
  },
  {
    rule: 'head',
    what: 'the head in the world, degrees',
    silent: 2.2,
    fires: 1.8,
    scene: (x, env) => ({
      seconds: 2 * root(env),
      at: (time) => ({
        chest: { turn: deg(25) * quick(time, env) },
        head: { turn: deg(x) * quick(time, env) },
      }),
    }),
  },
  {
    rule: 'head',
    what: 'the head against the chest, degrees',
    silent: 1.2,
    fires: 0.8,
    scene: (x, env) => ({
      seconds: 2 * root(env),
      at: (time) => ({
        chest: { turn: deg(25) * quick(time, env) },
        head: { turn: deg(25 - x) * quick(time, env) },
      }),
    }),
  },
  {
    rule: 'hand',
    what: 'swing of the forearm, degrees',
    silent: 11,
    fires: 13,
    scene: (x, env) => ({
      seconds: 2 * root(env),
      at: (time) => ({ forearmL: { tilt: deg(x) * quick(time, env) } }),
    }),
  },
  {
    rule: 'hand',
    what: 'the hand against it, degrees',
    silent: 3.4,
    fires: 2.6,
    scene: (x, env) => ({
      seconds: 2 * root(env),
      at: (time) => ({
        forearmL: { tilt: deg(25) * quick(time, env) },
        handL: { tilt: -deg(x) * quick(time, env) },
      }),
    }),
  },
  {
    rule: 'overlap',
    what: 'depth past what flesh gives, m',
    silent: 0,
    fires: 0.01,
    scene: (x, env) => ({
      seconds: root(env),
      at: () => ({
        limits:
          x > 0
            ? [{ code: 'flesh', limb: 'armL', by: x, text: 'His left forearm runs into the thigh by 1 cm.' }]
            : [],
      }),
    }),
  },
  {
    rule: 'pops',
    what: 'bend that is left of the knee, degrees',
    silent: 14,
    fires: 10,
    scene: (x, env) => {
      const start = drawing(root(env), env) / env.fps
      // Kneeling, the knee is bent by `knee` already.
      const knee = kneeBend(env)
      return {
        seconds: 2 * root(env),
        at: (time) => ({
          shankL: { tilt: knee + deg(time <= start ? 40 : x) },
        }),
      }
    },
  },
]

describe.each(ENVS.map((env) => [envName(env), env] as const))('%s', (_, env) => {
  it.each(CASES.filter(({ only }) => only?.(env) ?? true).map((one) => [one.rule, one.what, one] as const))(
    '%s: %s',
    (id, __, one) => {
      expect(read(id, { env, ...one.scene(one.silent, env) })).toEqual([])
      const found = read(id, { env, ...one.scene(one.fires, env) })
      expect(found.length).toBeGreaterThan(0)
      for (const { from, to, number, sentence, remedy } of found) {
        expect(from).toBeGreaterThanOrEqual(0)
        expect(to).toBeGreaterThanOrEqual(from)
        expect(Number.isFinite(number)).toBe(true)
        expect(`${sentence} ${remedy.text}`).not.toMatch(/NaN|undefined|Infinity/)
        expect(sentence).toMatch(/^[A-Z].*\.$/)
      }
    },
  )
})

function read(rule: string, scene: Scene): readonly Finding[] {
  const found = RULES.find(({ id }) => id === rule)
  if (!found) throw new Error(`there is no rule ${rule}`)
  return found.fires(measured(scene))
}

/** From 0 to 1 well within a third of a second · √s, in whole drawings. */
const quick = (time: number, env: Env): number => {
  const start = drawing(root(env), env) / env.fps
  const took = Math.max(1, Math.floor((0.25 * root(env) * env.fps) / env.on)) * (env.on / env.fps)
  return ramp(time, start, start + took)
}

/** The left edge of what the body stands on, from its centre of mass, m. */
function edgeOf(env: Env): number {
  const pose = measured({ env, seconds: 0.1, at: () => ({}) }).poses[0]
  const most = Math.max(...(pose?.pads.flatMap(({ vertices }) => vertices.map(([x]) => x)) ?? []))
  return most - (pose?.com[0] ?? 0)
}

/** The angle that straightens the kneeling left knee, rad. */
function kneeBend(env: Env): number {
  const segments = measured({ env, seconds: 0.1, at: () => ({}) }).poses[0]?.segments
  if (!segments) return Number.NaN
  // Thigh upright, shank level behind: axes by their y columns.
  const [a, b] = [segments.thighL.rotation, segments.shankL.rotation]
  const along = (r: typeof a) => Math.atan2(r[7], r[4])
  return along(a) - along(b)
}

function beyond(env: Env, percent: number): Stir {
  const { lengths } = measured({ env, seconds: 0.1, at: () => ({}) }).body
  const arm = lengths.upperArm + lengths.forearm + lengths.hand
  return { limits: [{ code: 'arm-straight', limb: 'armL', by: (percent / 100) * arm, text: '' }] }
}

/** A hand comes down at a speed, m/s · √s, and the hips go on, over H. */
function landing(env: Env, speed: number, give: number): Omit<Scene, 'env'> {
  const r = root(env)
  const touch = drawing(r, env)
  const at = touch / env.fps
  return {
    seconds: 2.5 * r,
    contacts: (spans, last) => [
      ...spans,
      {
        id: 'palm',
        part: 'handL',
        kind: 'palm',
        position: [0.1 * env.stature, 0, 0.3 * env.stature],
        heading: 0,
        normal: UP,
        on: 'ground',
        from: touch,
        to: last,
        state: 'planted',
      },
    ],
    at: (time) => ({
      joints: { wristL: [0, speed * r * Math.max(0, at - time), 0] },
      move: [0, -give * env.stature * ramp(time, at, at + 0.15 * r), 0],
    }),
  }
}
