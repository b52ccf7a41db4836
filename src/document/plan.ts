import type { BodySpec } from '../body/spec'
import type { Vec3 } from '../space/vec'
import type { ChannelId, Key } from './channels'
import type { ContactKind, ContactSpan, LimbId } from './contacts'
import type { Manner } from './take'

/**
 * A plan as it is stored: version 1 of the file format. Lengths in metres, angles in radians in the
 * order turn · list · tilt (R = Ry·Rz·Rx), masses in kilograms, frames as whole numbers from 0.
 * Asked poses are stored; reached ones are always computed again.
 */
export interface Plan {
  readonly format: 'weighbridge-plan'
  readonly version: 1
  readonly title: string
  readonly character: string
  /** Frames a second, exactly: 24/1, or 24000/1001 for 23.976. */
  readonly rate: Rate
  /** The number that frame 0 carries on the sheet. */
  readonly firstFrame: number
  readonly gravity: number
  /** The order in which the file's angles are applied. */
  readonly angles: 'turn-list-tilt'
  readonly scene: Scene
  /** The shot's camera; null where none is set. */
  readonly camera: Camera | null
  readonly body: BodySpec
  /**
   * Stiffness of a whole pad in place of the default table's, on the table's scale (a kneecap has 1); kinds
   * that are left out keep the table's. > 0, at most 100.
   */
  readonly stiffness: Stiffness
  readonly ground: Ground
  readonly takes: readonly Take[]
}

export interface Rate {
  readonly num: number
  readonly den: number
}

/** How the animator's own scene measures. */
export interface Scene {
  readonly unit: string
  readonly unitsPerMetre: number
  /** Where the rig's root sits from the middle of the hip joints, m, in the pelvis's frame. */
  readonly root: Vec3
}

/** A camera in the world, level across the picture. It never stands at its aim. */
export interface Camera {
  /** m */
  readonly position: Vec3
  /** What is in the middle of the picture, m. */
  readonly aim: Vec3
  /** Focal length, mm, for a frame 36 mm wide. */
  readonly lens: number
}

export type Stiffness = Readonly<Partial<Record<ContactKind, number>>>

export type Grip = 'slippery' | 'normal' | 'rough'

export interface Ground {
  readonly grip: Grip
  readonly boxes: readonly Box[]
}

/** A block or step: an upright box turned about the vertical. */
export interface Box {
  readonly id: string
  readonly name: string
  /** Middle of the bottom face, m. */
  readonly position: Vec3
  /** Width (x), height (y), depth (z) before the turn, m. */
  readonly size: Vec3
  /** Turn about the vertical, rad. */
  readonly turn: number
  readonly grip: Grip
}

export interface Take extends Manner {
  readonly id: string
  readonly name: string
  /** Number of frames. */
  readonly length: number
  readonly channels: Readonly<Record<ChannelId, readonly Key[]>>
  readonly contacts: readonly ContactSpan[]
  readonly loads: readonly CarriedLoad[]
  readonly phases: readonly Phase[]
  readonly notes: readonly FrameNote[]
  /** The limb that is asked to lift, and whether its toes may stay. */
  readonly mover: Mover
}

export interface Mover {
  readonly limb: LimbId
  readonly toesStay: boolean
}

export type LoadPlace = 'handL' | 'handR' | 'hands' | 'back' | 'head' | 'hips'

/** Something carried: its weight acts at its hold from `from` to `to` (inclusive). */
export interface CarriedLoad {
  readonly id: string
  readonly name: string
  readonly mass: number
  readonly on: LoadPlace
  /** From the place it hangs on, in that part's frame, m. */
  readonly offset: Vec3
  readonly from: number
  readonly to: number
}

export const PHASES = [
  'ready',
  'press',
  'lean',
  'sink',
  'lift',
  'travel',
  'touch',
  'take-up',
  'share',
  'settle',
] as const
export type PhaseName = (typeof PHASES)[number]

/** A phase is a span of frames, both ends included; spans may overlap. */
export interface Phase {
  readonly id: string
  readonly name: PhaseName
  readonly from: number
  readonly to: number
}

export interface FrameNote {
  readonly id: string
  readonly frame: number
  readonly text: string
}
