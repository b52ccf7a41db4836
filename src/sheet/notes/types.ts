import type { BodyModel, Side } from '../../body/model'
import type { Point2 } from '../../contact/hull'
import type { ContactKind, ContactPart, LimbId } from '../../document/contacts'
import type { Plan, Take } from '../../document/plan'
import type { Accent, Style } from '../../document/take'
import type { ReachedPose } from '../../pose/types'
import type { Vec3 } from '../../space/vec'
import type { DynamicFrame } from '../../weigh/dynamic'

/** - `breaks`: breaks the weight. `look`: look at this. `style`: a matter of style, or a plain number. */
export type NoteLevel = 'breaks' | 'look' | 'style'

/** The order in which a take is gone through. */
export const PASSES = ['contacts', 'pelvis', 'timing', 'spine and head', 'arms', 'texture'] as const
export type Pass = (typeof PASSES)[number]

/** One rule of the reading: pure, and a file of its own. */
export interface Rule {
  /** What a set-aside names; never changed once released. */
  readonly id: string
  /** As the list of rules shows it. */
  readonly name: string
  readonly pass: Pass
  readonly level: NoteLevel
  /** Read on stepped blocking too: contacts, reach and balance. */
  readonly onBlocking: boolean
  /** In the style *graphic* what it finds is a plain number. */
  readonly plainInGraphic: boolean
  readonly fires: (measured: Measured) => readonly Finding[]
}

export interface Finding {
  /** Frames of the take, from 0, both included. */
  readonly from: number
  readonly to: number
  /** How much, SI. */
  readonly number: number
  /** For the eye of a student, with the number in it; one sentence with its full stop. */
  readonly sentence: string
  readonly remedy: Remedy
  /** Where it differs from the rule's. */
  readonly level?: NoteLevel
}

export interface Remedy {
  /** What to do, as one sentence. */
  readonly text: string
  /** Does it, where an edit of the plan can; the same plan where nothing is left to do. */
  readonly fix?: (plan: Plan, takeId: string) => Plan
}

/** A finding with the rule it came from. */
export interface Note extends Omit<Finding, 'level'> {
  readonly rule: string
  readonly name: string
  readonly pass: Pass
  readonly level: NoteLevel
  /** The number that its first frame carries on the sheet. */
  readonly label: number
}

export interface FrameSpan {
  readonly from: number
  readonly to: number
}

/** The parts whose own motion is followed. */
export type PartId = 'pelvis' | 'chest' | 'head' | LimbId
export const PARTS: readonly PartId[] = ['pelvis', 'chest', 'head', 'legL', 'legR', 'armL', 'armR']

/** A take measured once for all rules. Arrays run over the drawn frames. SI units, world frame. */
export interface Measured {
  readonly plan: Plan
  readonly take: Take
  readonly body: BodyModel
  /** m */
  readonly stature: number
  /** √(H / 1.8 m): what every time and speed that gravity rules goes with. */
  readonly root: number
  /** H / 1.8 m: what lengths go with. */
  readonly size: number
  readonly style: Style
  /** Frames a drawing stays, and seconds. */
  readonly on: number
  readonly dt: number
  /** Frames a second. */
  readonly fps: number
  /** The drawn frames. */
  readonly frames: readonly number[]
  readonly poses: readonly ReachedPose[]
  /** Null where a frame is not weighed yet. */
  readonly weighed: readonly (DynamicFrame | null)[]
  /** What pushes from nowhere while a drawing stays. */
  readonly pushes: readonly DrawnPush[]
  readonly com: readonly Vec3[]
  /** Of each part's own motion, between a drawn frame and the next; one fewer than frames. */
  readonly speeds: Readonly<Record<PartId, Float64Array>>
  readonly touches: readonly PartTouch[]
  readonly lifts: readonly Lift[]
  /** Few keys, held: poses jump from one to the next. */
  readonly stepped: boolean
  /** Holds that are meant, spans where a gaze keeps the head, and marked accents. */
  readonly holds: readonly FrameSpan[]
  readonly gaze: readonly FrameSpan[]
  readonly accents: readonly Accent[]
}

/** Over all frames that a drawing stays. */
export interface DrawnPush {
  /** Mean size, W, and mean force over the weight. */
  readonly size: number
  readonly force: Vec3
  /** Velocity that nothing explains, gained while the drawing stays, m/s. */
  readonly velocity: Vec3
}

/** A part touching without a gap, also where one contact follows another. */
export interface PartTouch {
  readonly part: ContactPart
  readonly limb: LimbId
  readonly side: Side
  /** Of its first contact. */
  readonly kind: ContactKind
  /** First and last frame that touch; whether the take cuts it off there. */
  readonly from: number
  readonly to: number
  readonly begins: boolean
  readonly ends: boolean
  /** Drawn frames in it, as indices. */
  readonly first: number
  readonly last: number
}

/** A limb, or one part of it, leaving what it stood on. */
export interface Lift {
  readonly limb: LimbId
  readonly parts: readonly ContactPart[]
  /** The part of the limb that stays, if one does. */
  readonly stays: ContactPart | null
  /** Last drawn frame that all of it touches, as an index. */
  readonly last: number
  /** Last frame that touches. */
  readonly frame: number
  /** Where the shift for it starts: the weight is furthest from where it has to be; index. */
  readonly start: number
  /** How far the weight has to go from there until the rest can hold it, and how far it still has to at the lift, m. */
  readonly needed: number
  readonly left: number
  /** Way it has to go, x and z, unit; null where none. */
  readonly way: Point2 | null
  /** Least normal load that the leaving parts could have in motion, W, on the last two drawn frames before `frame`, the later last. */
  readonly least: readonly [number, number]
}
