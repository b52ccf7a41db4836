import type { Side } from '../body/model'
import type { LimbId } from '../document/contacts'
import type { Mover, PhaseName, Rate, Scene } from '../document/plan'
import type { Verdict } from '../weigh/types'

/**
 * The timing sheet as plain data that can be sent between threads. Lengths in m, angles in rad, loads in N
 * and kg, shares 0 … 1.
 *
 * Directions are the body's own, as it faces at the first frame: `side` > 0 to its left, `up` > 0,
 * `fore` > 0 forward.
 */
export interface Sheet {
  readonly header: SheetHeader
  /** The limbs that touch anything in the take, the legs always. */
  readonly limbs: readonly SheetLimb[]
  readonly mover: Mover
  /** One a frame, from the first. */
  readonly rows: readonly SheetRow[]
}

export interface SheetHeader {
  readonly title: string
  readonly take: string
  readonly character: string
  readonly stature: number
  /** Without what is carried, kg. */
  readonly mass: number
  readonly scene: Scene
  readonly halfStance: HalfStance | null
  /** Hip joint to knee joint, m. */
  readonly thigh: number
  readonly rate: Rate
  /** The number of the first frame. */
  readonly firstFrame: number
  readonly frames: number
}

/** Half the level distance between the middles of the two legs' supports at the first frame. */
export interface HalfStance {
  readonly length: number
  /** What bears on the left and on the right. */
  readonly between: readonly [Support, Support]
}
export type Support = 'kneecap' | 'sole' | 'ball' | 'toes' | 'instep'

export interface SheetLimb {
  readonly id: LimbId
  /** 'leg L', 'fist R', 'hand L' where it bears now flat and now as a fist. */
  readonly title: string
}

export interface SheetRow {
  /** From 0. */
  readonly frame: number
  /** The frame's number on the sheet. */
  readonly label: number
  readonly seconds: number
  readonly timeCode: string | null
  readonly mark: Mark
  readonly phases: readonly PhaseRow[]
  readonly limbs: Readonly<Record<LimbId, LimbRow>>
  /** What the frame's weighing says; null while it is not weighed. */
  readonly balance: BalanceRow | null
  readonly pelvis: PelvisRow
  readonly thighs: Readonly<Record<Side, ThighRow>>
  readonly chest: SegmentRow
  readonly head: SegmentRow
  readonly clearance: number
  /** How much of its present way the mover has gone; null where it is not on one. */
  readonly path: number | null
  readonly hands: Readonly<Record<Side, HandRow>>
  readonly note: string
}

export interface BalanceRow {
  /** Room before it tips, m, negative outside; null where nothing could hold the weight. */
  readonly room: number | null
  /** Push from nowhere, kg; 0 where there is none. */
  readonly push: number
  /** Whether the mover can lift. */
  readonly verdict: Verdict['kind']
}

/**
 * - `key`: every channel is keyed; `breakdown`: some are; `hold`: nothing changes between the keys around;
 *   `between`: an in-between.
 * - `progress`: how much of the change from the last key pose to the next is done, 0 … 1 and past it where
 *   the motion overshoots; null where there are not two, or they are the same.
 */
export interface Mark {
  readonly kind: 'key' | 'breakdown' | 'hold' | 'between'
  readonly progress: number | null
}

/** A phase that runs at a frame, and whether it begins or ends there. */
export interface PhaseRow {
  readonly id: string
  readonly name: PhaseName
  readonly begins: boolean
  readonly ends: boolean
}

export type LimbState = 'down' | 'touching empty' | 'rolling' | 'sliding' | 'off'

export interface LimbRow {
  readonly state: LimbState
  /** Null while the frame is not weighed. */
  readonly weight: LimbWeight | null
}

export interface LimbWeight {
  /** What it carries upward over all that must be carried: the limbs add up to 1, unless there is a push. */
  readonly share: number
  /** The same in kg. */
  readonly mass: number
  /** The least it could carry with the body as it is, as a share like `share`. */
  readonly least: number
}

/** Travel from the first frame, and the pelvis's angles to the world. */
export interface PelvisRow {
  readonly side: number
  readonly up: number
  readonly fore: number
  /** > 0: the right hip is low. */
  readonly list: number
  /** > 0: to its left. */
  readonly turn: number
}

/** How far a thigh is from plumb, and which way its upper end leans in the front and in the side view. */
export interface ThighRow {
  readonly angle: number
  /** > 0: the hip is to the left of the knee. */
  readonly side: number
  /** > 0: the hip is ahead of the knee. */
  readonly fore: number
}

/** A segment's angles to the world and to its parent. `side` > 0 leans to its right, `fore` > 0 forward, `turn` > 0 to its left. */
export interface SegmentRow {
  readonly world: LeanRow
  readonly parent: LeanRow
}
export interface LeanRow {
  readonly side: number
  readonly fore: number
  readonly turn: number
}

export interface HandRow {
  /** Which way the elbow points from the line between shoulder and wrist; null where the arm is straight. */
  readonly elbow: ElbowWay | null
  /** How far the elbow is bent, 0 straight. */
  readonly elbowBend: number
  /** To the forearm: > 0 flexed toward the palm, < 0 extended. */
  readonly wrist: number
  readonly fingers: 'fist' | 'flat' | 'free'
}
export type ElbowWay = 'out' | 'in' | 'up' | 'down' | 'forward' | 'back'
