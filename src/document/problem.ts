import type { Vec3 } from '../space/vec'
import type { Range } from './limits'

/**
 * A plain problem to weigh, without a body or a plan: anything rigid on contacts, such as a beam, a ladder,
 * a table or a crate. Version 1 of the file format, with everything that a file may leave out filled in.
 * Contacts push and hold by friction, but never pull: a clamp or a hook is not one. A smooth wall has
 * friction 0, a point contact one vertex.
 */
export interface Problem {
  readonly format: 'weighbridge-problem'
  readonly version: 1
  readonly title: string
  /** m/s² */
  readonly gravity: number
  /** kg, all in all. */
  readonly mass: number
  /** Centre of mass, m. */
  readonly com: Vec3
  /**
   * The yardstick of lengths, m: a body's height, or what is as large beside the problem. A file that leaves it
   * out gets twice the way from the centre of mass to the furthest vertex.
   */
  readonly size: number
  /** Outside force at the centre of mass, beside the weight, N. */
  readonly force: Vec3
  /** Outside moment, N·m. */
  readonly moment: Vec3
  /** Outside forces at places of their own. */
  readonly loads: readonly ProblemLoad[]
  readonly contacts: readonly ProblemContact[]
}

export interface ProblemLoad {
  /** N */
  readonly force: Vec3
  /** m */
  readonly at: Vec3
}

export interface ProblemContact {
  readonly id: string
  /** Contacts of one limb are also added up; the contact's own id where a file names none. */
  readonly limb: string
  /** Corners of the patch, on one plane, m. */
  readonly vertices: readonly Vec3[]
  /** The way it pushes; any length but nought. */
  readonly normal: Vec3
  /** Coulomb's coefficient. */
  readonly friction: number
  /** Only its ratio to the others counts; 1 where a file names none. */
  readonly stiffness: number
  /** Greatest normal load over the weight; 3, the greatest sum of all, where a file names none. */
  readonly limit: number
}

/** Bounds of plausibility, [least, most], that keep a damaged file from being weighed; never advice. */
export const PROBLEM_LIMITS = {
  contacts: [1, 64],
  vertices: [1, 12],
  loads: [0, 64],
  /** m/s² */
  gravity: [0.1, 100],
  /** kg */
  mass: [0.001, 10_000_000],
  /** m */
  place: [-10_000, 10_000],
  size: [0.001, 20_000],
  /** N and N·m */
  force: [-1e9, 1e9],
  moment: [-1e9, 1e9],
  normal: [-1000, 1000],
  /** Shortest normal that still has a direction. */
  shortestNormal: 1e-3,
  friction: [0, 10],
  stiffness: [0, 1e9],
  limit: [0, 1000],
  /** Vertices may stand off their contact's plane by this part of the size. */
  offPlane: 0.01,
  title: 200,
} as const satisfies Record<string, Range | number>

/** What a file that names no size, stiffness or limit gets. */
export const PROBLEM_DEFAULTS = { stiffness: 1, limit: 3 } as const
