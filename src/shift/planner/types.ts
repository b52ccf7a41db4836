import type { BodyModel } from '../../body/model'
import type { Controls } from '../../document/channels'
import type { ContactPart, ContactSpan, LimbId } from '../../document/contacts'
import type { CarriedLoad, Ground, PhaseName, Stiffness, Take } from '../../document/plan'
import type { FootWay } from '../../pose/grasp'
import type { Vec3 } from '../../space/vec'

/** What is asked of the planner. SI units, frames whole numbers of the take. */
export interface ShiftAsk {
  readonly body: BodyModel
  readonly ground: Ground
  /** m/s² */
  readonly gravity: number
  /** The plan's own stiffness of pads. */
  readonly stiffness?: Stiffness | undefined
  /** Frames a second. */
  readonly fps: number
  /** The take that goes on from `frame`; what it holds after that frame gives way. */
  readonly take: Take
  /** The frame whose pose the shift starts from. */
  readonly frame: number
  readonly mover: LimbId
  readonly goal: Goal
  /** 0 careful … 1 thrown. Default 0. */
  readonly pace?: number
  /** Who leads. Default the pelvis. */
  readonly leads?: 'pelvis' | 'chest'
  /** Whether a free hand may be planted to help. Default true. */
  readonly handHelp?: boolean
  /** What becomes of the foot when the knee moves. Default along. */
  readonly foot?: FootWay
  /** The mover leaves no earlier than this frame. */
  readonly notBefore?: number
  /** The mover is down by this frame. */
  readonly downBy?: number
  /** In how many equal moves. Default 1. */
  readonly hitches?: number
  /** 1 … 2: lean and drop scaled past physics on purpose. Default 1. */
  readonly push?: number
}

/** Where the mover should go. World frame, m. */
export type Goal =
  /** Sideways, > 0 to the body's left. */
  | { readonly kind: 'shuffle'; readonly by: number }
  | { readonly kind: 'half-kneel' }
  | { readonly kind: 'onto-foot' }
  | { readonly kind: 'heel-sit' }
  | { readonly kind: 'hand-to-wall' }
  | { readonly kind: 'reach'; readonly to: Vec3 }
  | { readonly kind: 'strike'; readonly to: Vec3 }
  | { readonly kind: 'set-down'; readonly to: Vec3 }
  /** A place for the mover's pad. */
  | { readonly kind: 'place'; readonly to: Vec3 }

export type ShiftAnswer =
  | { readonly found: true; readonly options: readonly ShiftOption[] }
  | { readonly found: false; readonly limit: ShiftLimit; readonly remedies: readonly Remedy[] }

export interface ShiftOption {
  readonly id: OptionId
  /** As it is shown: 'The pelvis leads'. */
  readonly name: string
  /** In words: what gives the weight, and how far it goes. */
  readonly why: string
  /** The new take: the old one up to the asked frame, then this shift. */
  readonly take: Take
  /** Frames from the start of the shift to its end. */
  readonly frames: number
  readonly keys: readonly KeyFrame[]
  /** Whole frames: when the main pad leaves and when it is down. */
  readonly leaves: number
  readonly touches: number
  /** Greatest lean of the chest from where it started and greatest hip line, rad. */
  readonly lean: number
  readonly hipLine: number
  /** Greatest normal load of a limb, W, and which. */
  readonly load: { readonly limb: string; readonly share: number }
  /** Least room in motion, m. */
  readonly room: number
  /** How much the mover's load rises at first, W: the press. */
  readonly press: number
  /** Greatest push from nowhere, W; over the gate's only where pushed on purpose. */
  readonly push: number
  /** Pace that it has: the time it takes over the careful time; below 1 quicker. */
  readonly paced: number
}

export type OptionId =
  | 'pelvis'
  | 'pelvis-chest'
  | 'sit-back'
  | 'chest'
  | 'hand-front'
  | 'hand-side'
  | 'narrow'
  | 'toes-stay'

export interface KeyFrame {
  readonly frame: number
  readonly phase: PhaseName
}

/** What stops it, and by how much. */
export interface ShiftLimit {
  readonly code: 'weight' | 'limb' | 'hip-line' | 'flesh' | 'place' | 'motion' | 'frames' | 'nothing'
  /** m, rad, W or frames, by code; 0 where it has none. */
  readonly by: number
  readonly text: string
}

/** A change of the question after which it can be done: already tried. */
export interface Remedy {
  readonly id: 'hand-front' | 'hand-side' | 'narrow' | 'toes-stay' | 'thrown' | 'frames' | 'hitches'
  readonly text: string
  /** The take to be picked; it comes from planning the remedy. */
  readonly option: ShiftOption
}

/** How far the planner is, 0 … 1, and what it tries. */
export interface Progress {
  readonly done: number
  readonly trying: string
}

/** What the planner works on: what doesn't change while it plans. */
export interface Scene {
  readonly body: BodyModel
  readonly ground: Ground
  readonly gravity: number
  readonly stiffness?: Stiffness | undefined
  readonly fps: number
  /** What is carried when the shift starts. */
  readonly loads: readonly CarriedLoad[]
  /** What the take carries only later. */
  readonly picks: readonly CarriedLoad[]
}

/** A pose that can be asked for: controls and what touches; frames of the spans don't count. */
export interface Still {
  readonly controls: Controls
  readonly contacts: readonly ContactSpan[]
}

/** Where a part comes to bear. */
export type Spot = Pick<ContactSpan, 'part' | 'kind' | 'position' | 'heading' | 'normal' | 'on'>

/** One transfer of weight: what leaves, where it lands, and how the trunk ends. */
export interface Transfer {
  readonly limb: LimbId
  readonly release: readonly ContactPart[]
  readonly plant: readonly Spot[]
  /** A free place for a hand that touches nothing, m. */
  readonly reach: Vec3 | null
  readonly ends: 'as-before' | 'rise' | 'sit'
  readonly kind: 'move' | 'help' | 'strike' | 'set-down'
}

/** What a search of some ways found. */
export interface Found {
  readonly options: readonly ShiftOption[]
  /** Of the ways that failed, the one nearest to working. */
  readonly limit: ShiftLimit
}
