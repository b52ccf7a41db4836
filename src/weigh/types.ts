import type { Point2 } from '../contact/hull'
import type { Vec3 } from '../space/vec'

/**
 * One thing that touches: a convex patch of one or more vertices on a plane, pushing along its normal
 * and holding sideways by friction. It never pulls.
 */
export interface Contact {
  readonly id: string
  readonly limb: string
  /** Corners of the patch, world, m; one for a point contact. */
  readonly vertices: readonly Vec3[]
  /** Outward normal of what is touched: the way the contact pushes the body. */
  readonly normal: Vec3
  /** Coulomb's coefficient, ≥ 0. */
  readonly friction: number
  /** Stiffness of the whole contact, ≥ 0; only its ratio to the others counts. */
  readonly stiffness: number
  /** Greatest normal load, in body weights. */
  readonly limit: number
}

/** What bears on the contacts. */
export interface Body {
  /** kg */
  readonly mass: number
  /** Centre of mass, world, m. */
  readonly com: Vec3
  /** Body height H, m: the yardstick of lengths. */
  readonly stature: number
  /** m/s² */
  readonly gravity: number
  /** The force the contacts must give, N; where absent, mass × gravity upwards. */
  readonly force?: Vec3
  /** The moment the contacts must give about the centre of mass, N·m; where absent, none. */
  readonly moment?: Vec3
}

/** What of the needed wrench no contact gives. */
export interface Push {
  /** N, on the body, at the centre of mass. */
  readonly force: Vec3
  /** N·m, on the body, about the centre of mass. */
  readonly moment: Vec3
  /** √(|force|² + |moment / L|²) over the weight, L a quarter of the stature. Below PUSH_NONE there is none. */
  readonly size: number
}

export interface ContactLoad {
  readonly id: string
  readonly limb: string
  /** Normal load, N. */
  readonly load: number
  /** Normal load over the weight. */
  readonly share: number
  /** Upward part of the force over the upward force the frame needs; 0 where it needs none. */
  readonly vertical: number
  /** Least and most normal load it could carry with the body as it is, N; both are `load` in a weighing not `ranged`. */
  readonly least: number
  readonly most: number
  /** On the body, N. */
  readonly force: Vec3
  /** Sideways holding over friction × normal load, twist included, 0 … 1; 0 where nothing bears. */
  readonly frictionUsed: number
  /** Centre of pressure in the patch, world, m; null where nothing bears. */
  readonly centre: Vec3 | null
}

/** Sums over a limb's contacts; shares and loads as for one contact. */
export interface LimbLoad {
  readonly id: string
  readonly load: number
  readonly share: number
  readonly vertical: number
  readonly least: number
  readonly most: number
}

export interface Weighing {
  readonly push: Push
  /** Whether least and most loads were worked out. */
  readonly ranged: boolean
  readonly contacts: readonly ContactLoad[]
  /** In the order in which the contacts first name them. */
  readonly limbs: readonly LimbLoad[]
  /** The centre of mass dropped on the plane of the lowest contact, world, m; at height 0 without contacts. */
  readonly plumb: Vec3
  /**
   * Where the centre of mass could be, seen from above (x, z in m), for this frame's force and moment:
   * a convex polygon, area ½ Σ (x₁ z₂ − x₂ z₁) positive; empty where it could be nowhere.
   */
  readonly region: readonly Point2[]
  /** Distance from the plumb to the region's edge, m; negative outside, −∞ where the region is empty. */
  readonly room: number
  /** Where the contact wrench has no level moment, on the plane of the lowest contact; null where nothing presses down. */
  readonly centreOfPressure: Vec3 | null
}

/** A level move of the centre of mass. */
export interface Move {
  /** x, z, m. */
  readonly move: Point2
  /** m */
  readonly distance: number
}

/** Can the mover be lifted? */
export interface Verdict {
  readonly kind: 'off' | 'empty' | 'could let go' | 'on the edge' | 'pinned'
  /** Normal load of the mover's contacts together, and the least it could be, N. */
  readonly load: number
  readonly least: number
  /** The nearest move after which the other contacts can hold the body alone; null where there is none. */
  readonly empty: Move | null
  /** The same with SAFE_ROOM to spare; null also where the others' region is too narrow for that. */
  readonly safe: Move | null
  /** Where the centre of mass could be on the other contacts alone, x and z, m. */
  readonly region: readonly Point2[]
  /**
   * Why no move is enough: nothing else touches; the frame's force doesn't press down; the others can't give
   * it, however loaded; they could, but not within their load limits. Null where a move is.
   */
  readonly never: 'no other contact' | 'nothing presses down' | 'no grip' | 'load limit' | null
}
