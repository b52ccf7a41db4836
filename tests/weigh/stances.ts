import { between } from '../../src/space/random'
import { add, scale, unit, type Vec3 } from '../../src/space/vec'
import type { Body, Contact } from '../../src/weigh/weigh'

/** A convex pad of `count` vertices around `centre`, square to `normal`, radii in m. */
export function pad(
  centre: Vec3,
  normal: Vec3,
  count: number,
  along: number,
  across: number,
  turn = 0,
): Vec3[] {
  const n = unit(normal)
  const u = unit(
    Math.abs(n[2]) < 0.9
      ? [-n[2] * n[0], -n[2] * n[1], 1 - n[2] * n[2]]
      : [-n[1] * n[0], 1 - n[1] * n[1], -n[1] * n[2]],
  )
  const v: Vec3 = [n[1] * u[2] - n[2] * u[1], n[2] * u[0] - n[0] * u[2], n[0] * u[1] - n[1] * u[0]]
  if (count === 1) return [centre]
  return Array.from({ length: count }, (_, i) => {
    const angle = turn + (2 * Math.PI * i) / count
    return add(centre, add(scale(u, along * Math.cos(angle)), scale(v, across * Math.sin(angle))))
  })
}

/**
 * Any problem at all: 2–6 pads of 1–12 vertices, level to steeply tilted, slippery to rough, heights
 * up to half the body's own, the centre of mass often far outside; some with a force that isn't gravity.
 */
export function anyStance(next: () => number): { contacts: Contact[]; body: Body } {
  const stature = 10 ** between(next, -0.5, 1.3)
  const count = 2 + Math.floor(5 * next())
  const tilted = next() < 0.7
  const contacts = Array.from({ length: count }, (_, i): Contact => {
    const tilt = tilted ? between(next, 0, 1) ** 2 * 1.5 : 0
    const azimuth = between(next, 0, 2 * Math.PI)
    const normal: Vec3 = [
      Math.sin(tilt) * Math.cos(azimuth),
      Math.cos(tilt),
      Math.sin(tilt) * Math.sin(azimuth),
    ]
    const centre: Vec3 = [
      between(next, -0.4, 0.4) * stature,
      tilted || next() < 0.3 ? between(next, 0, 0.5) * stature : 0,
      between(next, -0.4, 0.4) * stature,
    ]
    const size = between(next, 0.005, 0.07) * stature
    return {
      id: `c${i}`,
      limb: `l${i >> 1}`,
      vertices: pad(centre, normal, 1 + Math.floor(12 * next()), size, size * between(next, 0.3, 1), next()),
      normal,
      friction: next() < 0.1 ? 0 : between(next, 0.05, 1.2),
      stiffness: [1, 1, 0.5, 0.25, 0.001][Math.floor(5 * next())] as number,
      limit: 2,
    }
  })
  const mass = between(next, 1, 500)
  const spread = next() < 0.3 ? 0.6 : 0.25
  const body: Body = {
    mass,
    com: [
      between(next, -spread, spread) * stature,
      between(next, 0.2, 0.6) * stature,
      between(next, -spread, spread) * stature,
    ],
    stature,
    gravity: 9.81,
  }
  if (next() < 0.7) return { contacts, body }
  const weight = mass * 9.81
  return {
    contacts,
    body: {
      ...body,
      force: [
        between(next, -0.5, 0.5) * weight,
        between(next, 0.2, 2) * weight,
        between(next, -0.5, 0.5) * weight,
      ],
      moment: [0, 1, 2].map(() => between(next, -0.1, 0.1) * weight * stature) as unknown as Vec3,
    },
  }
}

/**
 * A kneeling body 2.6 m tall: knees, tucked toes and the left fist, eight vertices each, the fist on a
 * course 0.45 m high in front of the midline. Ours, for timing and for checks that need a plain stance.
 */
export function kneeling(next?: () => number): { contacts: Contact[]; body: Body } {
  const jitter = (by: number) => (next ? between(next, -by, by) : 0)
  const up: Vec3 = [0, 1, 0]
  const one = (
    id: string,
    limb: string,
    centre: Vec3,
    along: number,
    across: number,
    stiffness: number,
  ): Contact => ({
    id,
    limb,
    vertices: pad(
      [centre[0] + jitter(0.05), centre[1], centre[2] + jitter(0.05)],
      up,
      8,
      along,
      across,
      Math.PI / 8,
    ),
    normal: up,
    friction: 0.6,
    stiffness,
    limit: 2,
  })
  return {
    contacts: [
      one('kneeL', 'legL', [0.25, 0, 0], 0.06, 0.05, 1),
      one('footL', 'legL', [0.27, 0, -0.62], 0.03, 0.06, 0.25),
      one('kneeR', 'legR', [-0.25, 0, 0], 0.06, 0.05, 1),
      one('footR', 'legR', [-0.27, 0, -0.62], 0.03, 0.06, 0.25),
      one('handL', 'armL', [0.2, 0.45, 0.55], 0.05, 0.04, 0.5),
    ],
    body: { mass: 420, com: [0.02 + jitter(0.1), 0.8, -0.03 + jitter(0.1)], stature: 2.6, gravity: 9.81 },
  }
}
