import { hull, type Point2 } from '../contact/hull'
import { CHORD, FLAT, LEVEL, NEAR_CORNERS, ROUND_OFF } from './constants'
import { edgeNearest, nearestIn, tidy } from './polygon'
import { ContactProgramme } from './programme'
import type { ContactSystem } from './system'

/**
 * Where the centre of mass could be, seen from above, for contacts to give this frame's force and moment.
 * Moving it sideways by δ under a force F changes the moment they have to give by δ × F, whose part along F
 * is nought: so force and moment about F's own line are to be balanced, and the other moments say where the
 * centre then is.
 */
export class RegionFinder {
  private readonly programme = new ContactProgramme()
  private system!: ContactSystem
  /** F over its upward part. */
  private readonly axis = new Float64Array(3)
  private readonly moment = new Float64Array(3)
  private readonly corners: Point2[] = []

  /**
   * Corners of the region of the contacts where `active` is 1: a convex polygon, x and z in L from the present
   * centre of mass, area positive. Empty where they can't give the force at all, or where it doesn't press
   * down. Load limits are the caps of `system`.
   *
   * For level contacts under a plain weight it is the hull of their vertices. Otherwise corners are found by
   * linear programmes, each the furthest point in one direction: eight to begin with, then square to the edges
   * so far, until the polygon is within CHORD of the true one. The part nearest to the present centre of mass,
   * which decides the room, is followed until it is exact.
   */
  find(system: ContactSystem, active: Uint8Array): Point2[] {
    this.system = system
    if (!this.pressesDown()) return []
    const level = this.levelRegion(active)
    if (level !== null) return level
    return this.begin(active, true) ? this.programmedRegion() : []
  }

  /** Whether the active contacts could give the frame's force from anywhere if no load had a limit. */
  couldHold(system: ContactSystem, active: Uint8Array): boolean {
    this.system = system
    return this.pressesDown() && this.begin(active, false)
  }

  /** The furthest point of the region along the unit vector (x, z), after a `find` that used programmes. */
  furthest(x: number, z: number): Point2 {
    const { programme, moment } = this
    const { wrench } = this.system
    const press = wrench[1] as number
    programme.columns.momentCost[0] = z / press
    programme.columns.momentCost[2] = -x / press
    programme.optimise()
    programme.sumMoments(moment)
    return [
      ((moment[2] as number) - (wrench[5] as number)) / press,
      ((wrench[3] as number) - (moment[0] as number)) / press,
    ]
  }

  private pressesDown(): boolean {
    return (this.system.wrench[1] as number) > ROUND_OFF
  }

  private begin(active: Uint8Array, limits: boolean): boolean {
    const { axis, programme, system } = this
    const { wrench } = system
    for (let i = 0; i < 3; i++) axis[i] = (wrench[i] as number) / (wrench[1] as number)
    return programme.begin(system, { active, wrench, axis, limits })
  }

  /** The hull, shifted by the moment the frame needs, where that is the region; null where it is not. */
  private levelRegion(active: Uint8Array): Point2[] | null {
    const { contacts, first, place, axes, wrench, caps, totalCap } = this.system
    const press = wrench[1] as number
    const sideways =
      Math.abs(wrench[0] as number) + Math.abs(wrench[2] as number) + Math.abs(wrench[4] as number)
    if (sideways > ROUND_OFF || press > totalCap) return null
    const dx = -(wrench[5] as number) / press
    const dz = (wrench[3] as number) / press
    const corners: Point2[] = []
    let height = Number.NaN
    for (let c = 0; c < contacts; c++) {
      if (active[c] === 0) continue
      if ((axes[9 * c + 1] as number) < 1 - ROUND_OFF || (caps[c] as number) < press) return null
      for (let j = first[c] as number; j < (first[c + 1] as number); j++) {
        const y = place[3 * j + 1] as number
        if (Math.abs(y - height) > LEVEL) return null
        if (Number.isNaN(height)) height = y
        corners.push([(place[3 * j] as number) + dx, (place[3 * j + 2] as number) + dz])
      }
    }
    return tidy(hull(corners), FLAT)
  }

  private programmedRegion(): Point2[] {
    const { corners } = this
    corners.length = 0
    const start = this.furthest(1, 0)
    let from = start
    for (let i = 0; i < 8; i++) {
      const [ax, az] = compass(i)
      const [bx, bz] = compass(i + 1)
      const to = i < 7 ? this.furthest(bx, bz) : start
      corners.push(from)
      this.refine(from, ax, az, to, bx, bz)
      from = to
    }
    let polygon = tidy(hull(corners), FLAT)
    for (let round = 0; round < NEAR_CORNERS; round++) {
      const corner = this.cornerBeyond(polygon)
      if (corner === null) break
      corners.push(corner)
      polygon = tidy(hull(corners), FLAT)
    }
    return polygon
  }

  /**
   * Finds corners between two neighbours, a furthest along (ax, az) and b along (bx, bz). Beyond the chord from
   * a to b the region stays in the triangle under the two lines that touch it in a and b.
   */
  private refine(a: Point2, ax: number, az: number, b: Point2, bx: number, bz: number): void {
    const x = b[0] - a[0]
    const z = b[1] - a[1]
    const chord = Math.sqrt(x * x + z * z)
    if (chord < CHORD) return
    const nx = z / chord
    const nz = -x / chord
    const height = (chord * (ax * nz - az * nx) * (nx * bz - nz * bx)) / (ax * bz - az * bx)
    if (!(height > CHORD)) return
    const corner = this.furthest(nx, nz)
    if (nx * (corner[0] - a[0]) + nz * (corner[1] - a[1]) < FLAT) return
    this.refine(a, ax, az, corner, nx, nz)
    this.corners.push(corner)
    this.refine(corner, nx, nz, b, bx, bz)
  }

  /** A corner beyond the part of the polygon nearest to the present centre of mass, or null where none is. */
  private cornerBeyond(polygon: readonly Point2[]): Point2 | null {
    const near = nearestIn(polygon, HERE)
    const distance = Math.sqrt(near[0] * near[0] + near[1] * near[1])
    const [x, z] =
      distance > FLAT ? [-near[0] / distance, -near[1] / distance] : edgeNearest(polygon, HERE).outward
    const corner = this.furthest(x, z)
    const reach = polygon.reduce((most, p) => Math.max(most, x * p[0] + z * p[1]), Number.NEGATIVE_INFINITY)
    return x * corner[0] + z * corner[1] > reach + FLAT ? corner : null
  }
}

const HERE: Point2 = [0, 0]

/** The unit vector at 45° · i from +x towards +z. */
function compass(i: number): Point2 {
  return [Math.cos((i * Math.PI) / 4), Math.sin((i * Math.PI) / 4)]
}
