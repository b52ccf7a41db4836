import type { SegmentId, Side } from '../body/model'
import type { Controls } from '../document/channels'
import type { ContactKind, ContactPart, LimbId } from '../document/contacts'
import type { Mat3 } from '../space/rotation'
import type { Vec3 } from '../space/vec'

export type JointId =
  | 'midHip'
  | 'waist'
  | 'breastbone'
  | 'neck'
  | 'crown'
  | `${'hip' | 'knee' | 'ankle' | 'heel' | 'ball' | 'toe' | 'shoulder' | 'elbow' | 'wrist' | 'knuckle'}${Side}`

/** Joint centres and landmarks in the world, m. */
export type Joints = Readonly<Record<JointId, Vec3>>

export interface Placement {
  /** From the segment's frame to the world. */
  readonly rotation: Mat3
  /** The joint the segment hangs from, world, m. */
  readonly origin: Vec3
  /** Its centre of mass, world, m. */
  readonly com: Vec3
}

/** A pad that bears on something in this pose, as the pose leaves it. */
export interface PosePad {
  readonly id: string
  readonly part: ContactPart
  readonly limb: LimbId
  readonly kind: ContactKind
  readonly on: string
  /** Outline in order, world, m, 3–12 corners on one plane. */
  readonly vertices: readonly Vec3[]
  readonly centre: Vec3
  readonly normal: Vec3
}

/** Why the reached pose is not the asked one. */
export interface Limit {
  readonly code:
    | 'leg-straight'
    | 'leg-folded'
    | 'arm-straight'
    | 'arm-folded'
    | 'thigh-length'
    | 'apart'
    | 'flesh'
    | 'joint'
    | 'ground'
  readonly limb: LimbId | 'trunk'
  /** How far the asked pose lies beyond it: m for lengths and depths, rad for joints. */
  readonly by: number
  /** One sentence for the screen, in the trade's words. */
  readonly text: string
}

/** A pose that the body can take: what was asked, brought within its limbs' lengths. */
export interface ReachedPose {
  readonly asked: Controls
  /** The controls that, asked for with the same contacts, give this very pose. */
  readonly reached: Controls
  readonly joints: Joints
  readonly segments: Readonly<Record<SegmentId, Placement>>
  readonly pads: readonly PosePad[]
  /**
   * Where the pads are, without their outlines: all that a moment between frames is asked for. A pose that was
   * changed by hand may leave it out.
   */
  readonly bearings?: readonly Pick<PosePad, 'id' | 'centre'>[]
  /** Centre of mass with carried loads, world, m. */
  readonly com: Vec3
  /** With carried loads, kg. */
  readonly mass: number
  readonly limits: readonly Limit[]
}
