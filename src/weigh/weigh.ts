import type { Point2 } from '../contact/hull'
import type { Vec3 } from '../space/vec'
import { PUSH_NONE, ROUND_OFF } from './constants'
import { contactLoads, limbLoads } from './loads'
import { roomIn } from './polygon'
import type { Body, Contact, Push, Weighing } from './types'
import { prepare, ranges, regions, remember, system } from './workspace'

export type { Body, Contact, Weighing } from './types'

export interface WeighOptions {
  /** Least and most loads; without them both are the load. Default true. */
  readonly ranges?: boolean
  /** Region and room; without it the region is empty and the room −∞. Default true. */
  readonly region?: boolean
}

/**
 * Weighs a body on its contacts for one frame: what each carries, the least and most it could carry,
 * the push from nowhere, where the weight could be, and the room before it tips. Units, frames and signs
 * as in `types`. There is always an answer, also for contacts that can't hold the body and for none at all.
 * Throws a TypeError on numbers that aren't finite and on a mass, gravity or stature that isn't above 0:
 * files are checked before.
 */
export function weigh(contacts: readonly Contact[], body: Body, options: WeighOptions = {}): Weighing {
  const push = toPush(prepare(contacts, body))
  const asked = options.ranges === false ? null : ranges
  asked?.begin(system)
  const loads = contactLoads(contacts, system, asked)
  const floor = lowest(contacts)
  const plumb: Vec3 = [body.com[0], floor, body.com[2]]
  const region = options.region === false ? [] : regionOn(new Uint8Array(contacts.length).fill(1), body)
  return remember({
    push,
    ranged: asked !== null,
    contacts: loads,
    limbs: limbLoads(loads, system, asked),
    plumb,
    region,
    room: region.length > 0 ? agreeing(roomIn(region, [plumb[0], plumb[2]]), push) : Number.NEGATIVE_INFINITY,
    centreOfPressure: centreOfPressure(body, floor),
  })
}

/** The region of the contacts where `active` is 1, x and z in the world, m, for the split in hand. */
export function regionOn(active: Uint8Array, { com }: Body): Point2[] {
  return regions
    .find(system, active)
    .map(([x, z]): Point2 => [com[0] + x * system.length, com[2] + z * system.length])
}

function toPush(wrench: Float64Array): Push {
  const { weight, length } = system
  const [fx, fy, fz, mx, my, mz] = wrench as unknown as [number, number, number, number, number, number]
  const moment = weight * length
  return {
    force: [fx * weight, fy * weight, fz * weight],
    moment: [mx * moment, my * moment, mz * moment],
    size: Math.hypot(fx, fy, fz, mx, my, mz),
  }
}

/** Whether a body is outside is decided by the push: at the very edge the drawn room could say otherwise by its rounding. */
function agreeing(room: number, push: Push): number {
  return push.size < PUSH_NONE ? Math.max(room, 0) : Math.min(room, 0)
}

function lowest(contacts: readonly Contact[]): number {
  let floor = Number.POSITIVE_INFINITY
  for (const { vertices } of contacts) for (const vertex of vertices) floor = Math.min(floor, vertex[1])
  return contacts.length > 0 ? floor : 0
}

/**
 * The point of the plane y = floor about which the contacts' wrench (F, M about the centre of mass) has no
 * level moment: M − δ × F has none for δ = ((M_z + δ_y F_x) / F_y, δ_y, (δ_y F_z − M_x) / F_y).
 */
function centreOfPressure({ com }: Body, floor: number): Vec3 | null {
  const [fx, fy, fz, mx, , mz] = system.borne as unknown as [number, number, number, number, number, number]
  if (fy < ROUND_OFF) return null
  const down = floor - com[1]
  return [
    com[0] + (mz * system.length + down * fx) / fy,
    floor,
    com[2] + (down * fz - mx * system.length) / fy,
  ]
}
