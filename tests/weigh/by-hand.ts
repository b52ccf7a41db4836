import { between } from '../../src/space/random'
import { cross, dot, norm, reject, scale, sub, unit, type Vec3 } from '../../src/space/vec'
import type { Body, Contact } from '../../src/weigh/weigh'

/*
 * The definitions of the mechanics written down once more, plainly, in world vectors: what the fast code
 * has to agree with.
 */

/** The point of a friction cone (unit normal n) nearest to z. */
export function projectOnCone(z: Vec3, n: Vec3, friction: number): Vec3 {
  const along = dot(z, n)
  const side = reject(z, n)
  const sideways = norm(side)
  if (sideways <= friction * along) return z
  if (along + friction * sideways <= 0) return [0, 0, 0]
  const edge = unit([
    n[0] + (friction * side[0]) / sideways,
    n[1] + (friction * side[1]) / sideways,
    n[2] + (friction * side[2]) / sideways,
  ])
  return scale(edge, dot(z, edge))
}

/** Every vertex with its arm from the centre of mass over L, its contact and its stiffness. */
export function verticesOf(contacts: readonly Contact[], body: Body) {
  const stiffest = Math.max(...contacts.map(({ stiffness }) => stiffness))
  return contacts.flatMap((contact) =>
    contact.vertices.map((vertex) => ({
      contact,
      // Components below 1e-8 count as rounding.
      normal: unit(unit(contact.normal).map((x) => (Math.abs(x) < 1e-8 ? 0 : x)) as unknown as Vec3),
      arm: scale(sub(vertex, body.com), 1 / (0.25 * body.stature)),
      stiffness: Math.max(0.02, contact.stiffness / stiffest) / contact.vertices.length,
    })),
  )
}

/** The wrench the contacts must give, force over W and moment over W L. */
export function neededBy({ mass, gravity, stature, force, moment }: Body): number[] {
  const weight = mass * gravity
  const f = scale(force ?? [0, weight, 0], 1 / weight)
  const m = scale(moment ?? [0, 0, 0], 1 / (weight * 0.25 * stature))
  return [...f, ...m]
}

export const momentOf = (arm: Vec3, force: Vec3): Vec3 => cross(arm, force)

/** A rotation about the vertical, a shift, a change of scale: nothing that a weighing could notice. */
export function moved(
  { contacts, body }: Stance,
  next: () => number,
): Stance & { readonly turn: (v: Vec3) => Vec3 } {
  const angle = between(next, 0, 2 * Math.PI)
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  const turn = (v: Vec3): Vec3 => [c * v[0] + s * v[2], v[1], c * v[2] - s * v[0]]
  const shift: Vec3 = [between(next, -9, 9), between(next, -9, 9), between(next, -9, 9)]
  const place = (v: Vec3): Vec3 => {
    const [x, y, z] = turn(v)
    return [x + shift[0], y + shift[1], z + shift[2]]
  }
  return {
    turn,
    contacts: contacts.map((k) => ({ ...k, vertices: k.vertices.map(place), normal: turn(k.normal) })),
    body: {
      ...body,
      com: place(body.com),
      ...(body.force && { force: turn(body.force) }),
      ...(body.moment && { moment: turn(body.moment) }),
    },
  }
}

/** The mirror image in the plane x = 0; moments are axial vectors. */
export function mirrored({ contacts, body }: Stance): Stance {
  const flip = (v: Vec3): Vec3 => [-v[0], v[1], v[2]]
  return {
    contacts: contacts.map((k) => ({ ...k, vertices: k.vertices.map(flip), normal: flip(k.normal) })),
    body: {
      ...body,
      com: flip(body.com),
      ...(body.force && { force: flip(body.force) }),
      ...(body.moment && { moment: [body.moment[0], -body.moment[1], -body.moment[2]] }),
    },
  }
}

/** The same stance `size` times as large and `mass` times as heavy. */
export function scaled({ contacts, body }: Stance, size: number, mass: number): Stance {
  return {
    contacts: contacts.map((k) => ({ ...k, vertices: k.vertices.map((v) => scale(v, size)) })),
    body: {
      ...body,
      mass: body.mass * mass,
      stature: body.stature * size,
      com: scale(body.com, size),
      ...(body.force && { force: scale(body.force, mass) }),
      ...(body.moment && { moment: scale(body.moment, mass * size) }),
    },
  }
}

export interface Stance {
  readonly contacts: readonly Contact[]
  readonly body: Body
}
