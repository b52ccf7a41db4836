import type { Vec3 } from '../space/vec'
import { LENGTH_PER_STATURE, SQUARE, STIFFNESS_FLOOR, TOTAL_LIMIT } from './constants'
import type { Body, Contact } from './types'

/**
 * Contacts and body as flat arrays in the solvers' units: forces over the weight W, lengths over
 * L = 0.25 H, moments over W L about the centre of mass. Every contact has a right-handed frame of its
 * normal n and two tangents u, v; numbers "along n, u, v" come in that order. One system is reused from
 * problem to problem and grows when a problem is larger than any before it.
 */
export class ContactSystem {
  contacts = 0
  vertices = 0
  /** W, N. */
  weight = 1
  /** L, m. */
  length = 1
  /** The wrench the contacts must give: force, then moment. */
  readonly wrench = new Float64Array(6)
  /** First vertex of each contact; one entry more than there are contacts. */
  first = new Int32Array(9)
  friction = new Float64Array(8)
  limit = new Float64Array(8)
  /** Stiffness of each of the contact's vertices; the stiffest contact as a whole has 1. */
  stiffness = new Float64Array(8)
  /** n, u, v of each contact. */
  axes = new Float64Array(72)
  /** Place of each vertex from the centre of mass. */
  place = new Float64Array(144)
  /** The same along n, u, v. */
  local = new Float64Array(144)
  /** Force at each vertex along n, u, v. Filled by the split. */
  force = new Float64Array(144)
  /** Normal load of each contact in the split. Filled, like the rest below, by `sumUp`. */
  loads = new Float64Array(8)
  /** Greatest load of each contact: its limit, or what the split gives it where that is more. */
  caps = new Float64Array(8)
  /** Greatest sum of all loads, likewise. */
  totalCap = TOTAL_LIMIT
  /** The wrench that the split's forces make together. */
  readonly borne = new Float64Array(6)

  /**
   * Takes over a problem. Throws a TypeError where a number isn't finite, a contact has no vertex, or mass,
   * gravity or stature isn't above 0.
   */
  load(contacts: readonly Contact[], body: Body): void {
    let vertices = 0
    for (const contact of contacts) vertices += contact.vertices.length
    this.reserve(contacts.length, vertices)
    this.contacts = contacts.length
    this.vertices = vertices
    this.length = LENGTH_PER_STATURE * body.stature
    this.weight = body.mass * body.gravity
    this.loadWrench(body)
    let stiffest = 0
    for (const contact of contacts) stiffest = Math.max(stiffest, contact.stiffness)
    let vertex = 0
    contacts.forEach((contact, c) => {
      const count = contact.vertices.length
      if (count === 0) throw new TypeError(`contact ${contact.id} has no vertex`)
      this.first[c] = vertex
      this.friction[c] = contact.friction
      this.limit[c] = contact.limit
      const whole = stiffest > 0 ? contact.stiffness / stiffest : 1
      this.stiffness[c] = Math.max(whole, STIFFNESS_FLOOR) / count
      this.loadAxes(c, contact.normal)
      for (const place of contact.vertices) this.loadVertex(vertex++, c, place, body.com)
    })
    this.first[contacts.length] = vertex
    this.assertFinite()
  }

  /** Adds up the forces of a split: loads, caps and the wrench borne. */
  sumUp(): void {
    const { contacts, first, force, loads, caps, borne, place } = this
    borne.fill(0)
    let total = 0
    for (let c = 0; c < contacts; c++) {
      let load = 0
      for (let j = first[c] as number; j < (first[c + 1] as number); j++) {
        load += force[3 * j] as number
        const fx = this.world(c, j, 0)
        const fy = this.world(c, j, 1)
        const fz = this.world(c, j, 2)
        const x = place[3 * j] as number
        const y = place[3 * j + 1] as number
        const z = place[3 * j + 2] as number
        borne[0] = (borne[0] as number) + fx
        borne[1] = (borne[1] as number) + fy
        borne[2] = (borne[2] as number) + fz
        borne[3] = (borne[3] as number) + y * fz - z * fy
        borne[4] = (borne[4] as number) + z * fx - x * fz
        borne[5] = (borne[5] as number) + x * fy - y * fx
      }
      loads[c] = load
      caps[c] = Math.max(load, this.limit[c] as number)
      total += load
    }
    this.totalCap = Math.max(total, TOTAL_LIMIT)
  }

  /** The split's normal loads of the contacts where `group` is 1, added up. */
  loadOf(group: Uint8Array): number {
    let sum = 0
    for (let c = 0; c < this.contacts; c++) if (group[c] === 1) sum += this.loads[c] as number
    return sum
  }

  /** World component i of the force at vertex j of contact c. */
  private world(c: number, j: number, i: number): number {
    const { axes, force } = this
    const at = 9 * c + i
    return (
      (force[3 * j] as number) * (axes[at] as number) +
      (force[3 * j + 1] as number) * (axes[at + 3] as number) +
      (force[3 * j + 2] as number) * (axes[at + 6] as number)
    )
  }

  private loadWrench({ mass, gravity, force, moment }: Body): void {
    const { wrench, weight, length } = this
    const needed = force ?? [0, mass * gravity, 0]
    for (let i = 0; i < 3; i++) {
      wrench[i] = (needed[i] as number) / weight
      wrench[3 + i] = moment ? (moment[i] as number) / (weight * length) : 0
    }
  }

  /**
   * The tangents of a problem mirrored in the plane x = 0 are mirrored too (v also changes sign), so that
   * its friction pyramids are mirror images.
   */
  private loadAxes(contact: number, normal: Vec3): void {
    const size = Math.hypot(normal[0], normal[1], normal[2])
    const nx = squared(normal[0] / size)
    const ny = squared(normal[1] / size)
    const nz = squared(normal[2] / size)
    const alongZ = Math.abs(nz) < 0.9
    const part = alongZ ? nz : ny
    let ux = -part * nx
    let uy = (alongZ ? 0 : 1) - part * ny
    let uz = (alongZ ? 1 : 0) - part * nz
    const scale = 1 / Math.hypot(ux, uy, uz)
    ux *= scale
    uy *= scale
    uz *= scale
    const { axes } = this
    const at = 9 * contact
    axes[at] = nx
    axes[at + 1] = ny
    axes[at + 2] = nz
    axes[at + 3] = ux
    axes[at + 4] = uy
    axes[at + 5] = uz
    axes[at + 6] = ny * uz - nz * uy
    axes[at + 7] = nz * ux - nx * uz
    axes[at + 8] = nx * uy - ny * ux
  }

  private loadVertex(vertex: number, contact: number, place: Vec3, com: Vec3): void {
    const { axes, length } = this
    const x = (place[0] - com[0]) / length
    const y = (place[1] - com[1]) / length
    const z = (place[2] - com[2]) / length
    this.place[3 * vertex] = x
    this.place[3 * vertex + 1] = y
    this.place[3 * vertex + 2] = z
    for (let axis = 0; axis < 3; axis++) {
      const at = 9 * contact + 3 * axis
      this.local[3 * vertex + axis] =
        x * (axes[at] as number) + y * (axes[at + 1] as number) + z * (axes[at + 2] as number)
    }
  }

  private reserve(contacts: number, vertices: number): void {
    if (contacts + 1 > this.first.length) {
      const room = 2 * contacts
      this.first = new Int32Array(room + 1)
      this.friction = new Float64Array(room)
      this.limit = new Float64Array(room)
      this.stiffness = new Float64Array(room)
      this.loads = new Float64Array(room)
      this.caps = new Float64Array(room)
      this.axes = new Float64Array(9 * room)
    }
    if (3 * vertices > this.place.length) {
      this.place = new Float64Array(6 * vertices)
      this.local = new Float64Array(6 * vertices)
      this.force = new Float64Array(6 * vertices)
    }
  }

  private assertFinite(): void {
    let sum = this.weight + this.length
    for (const x of this.wrench) sum += x
    for (let i = 0; i < 3 * this.vertices; i++) sum += this.local[i] as number
    for (let c = 0; c < this.contacts; c++)
      sum += (this.friction[c] as number) + (this.stiffness[c] as number) + (this.limit[c] as number)
    if (!Number.isFinite(sum) || !(this.weight > 0) || !(this.length > 0))
      throw new TypeError('weighing needs finite numbers, and mass, gravity and stature above 0')
  }
}

/**
 * A component of a unit vector without what is only rounding: a level pad tilted by 1e-9 could otherwise
 * do with its tilt what no pad can, push aside without friction.
 */
const squared = (x: number): number => (Math.abs(x) < SQUARE ? 0 : x)
