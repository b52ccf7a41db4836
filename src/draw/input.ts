import type { BodyModel } from '../body/model'
import type { Point2 } from '../contact/hull'
import type { LimbId } from '../document/contacts'
import type { Box, CarriedLoad } from '../document/plan'
import type { Handle } from '../pose/handles'
import type { Placement, ReachedPose } from '../pose/types'
import type { Vec3 } from '../space/vec'
import type { Verdict, Weighing } from '../weigh/types'
import type { StageLayout } from './layout'
import type { ViewId } from './project'

/** Everything the stage shows of one frame. World frame, m and kg. */
export interface StageInput {
  readonly layout: StageLayout
  readonly body: BodyModel
  readonly pose: ReachedPose
  readonly boxes?: readonly Box[] | undefined
  /** What is carried in this frame. */
  readonly carried?: readonly CarriedLoad[] | undefined
  /** What the pose weighs; without it the body alone is drawn. */
  readonly weights?: StageWeights | undefined
  readonly mover?: StageMover | undefined
  /** What can be taken hold of; placed in every view for `hits`, not drawn. */
  readonly handles?: readonly StageHandle[] | undefined
  /** Other poses shown with this one. */
  readonly ghosts?: readonly StageGhost[] | undefined
  readonly show?: StageShow | undefined
  /** Words for people; English where they are left out. */
  readonly words?: Partial<StageWords> | undefined
}

export interface StageWeights {
  /** Where the centre of mass falls on the floor. */
  readonly plumb: Vec3
  readonly limbs: readonly { readonly id: LimbId; readonly share: number; readonly kg: number }[]
  /** By the pads' ids; shares of the weight. */
  readonly contacts: readonly { readonly id: string; readonly share: number }[]
  /** Where the weight can be, seen from above, x and z. */
  readonly region: readonly Point2[]
}

/** The limb that is asked to lift, and where the weight must go for it. */
export interface StageMover {
  readonly limb: LimbId
  /** Where the weight must be for the mover to be empty, x and z; empty where it never is. */
  readonly region: readonly Point2[]
  /** The nearest way there from the plumb, x and z, m; null where there is none or no need. */
  readonly move: Point2 | null
  /** How far, in words: "12 cm". */
  readonly distance?: string
  /** Where the pelvis would have to be. */
  readonly pelvis?: Placement
}

/** What the drawing has to know of a handle: see `handlesOf` in the pose room. */
export type StageHandle = Pick<Handle, 'id' | 'at' | 'limb'>

export interface StageGhost {
  readonly body: BodyModel
  readonly pose: ReachedPose
  /** `outline`: a dashed outline over the body; `onion`: filled and faint, behind it. */
  readonly style: 'outline' | 'onion'
}

/** What is drawn; everything but `solid` is on where it is left out. */
export interface StageShow {
  /** The body as one silhouette in ink. */
  readonly solid?: boolean
  /** Hip, shoulder and thigh lines. */
  readonly lines?: boolean
  /** R and L at knee, foot and hand. */
  readonly letters?: boolean
  /** Loads, pads, plumb and region. */
  readonly loads?: boolean
  /** Labels at the pads in the floor view. */
  readonly padLabels?: boolean
  /** The faint body under the floor view. */
  readonly floorBody?: boolean
}

export interface StageWords {
  readonly title: string
  readonly desc: string
  readonly views: Readonly<Record<ViewId, string>>
  readonly sideFrom: Readonly<Record<'R' | 'L', string>>
  /** The name of a pad: 'knee R'. */
  readonly pad: (part: string, kind: string, side: string) => string
  /** The name of a limb: 'left leg'. */
  readonly limb: (limb: LimbId) => string
  /** Said on the patch where the mover is empty. */
  readonly empty: (limb: LimbId) => string
}

export const WORDS: StageWords = {
  title: 'The body on its contacts',
  desc: 'Front, side and floor views of one drawing; loads stand in the table beside it.',
  views: { front: 'FRONT', side: 'SIDE', floor: 'FLOOR' },
  sideFrom: { R: 'SIDE, from his right', L: 'SIDE, from his left' },
  pad: (_part, kind, side) => `${PAD_NAMES[kind] ?? kind} ${side}`,
  limb: (limb) => `${limb.endsWith('L') ? 'left' : 'right'} ${limb.startsWith('leg') ? 'leg' : 'arm'}`,
  empty: (limb) => `${limb.startsWith('leg') ? 'leg' : 'hand'} ${limb.slice(-1)} empty here`,
}

const PAD_NAMES: Readonly<Record<string, string>> = { kneecap: 'knee', sole: 'foot' }

/** What the stage takes of a weighing. Shares and kilograms are the vertical parts, which add up to the whole. */
export function stageWeights(weighing: Weighing, mass: number): StageWeights {
  return {
    plumb: weighing.plumb,
    limbs: weighing.limbs.map(({ id, vertical }) => ({
      id: id as LimbId,
      share: vertical,
      kg: vertical * mass,
    })),
    contacts: weighing.contacts.map(({ id, vertical }) => ({ id, share: vertical })),
    region: weighing.region,
  }
}

/** What the stage takes of a verdict. */
export function stageMover(limb: LimbId, verdict: Verdict, pelvis?: Placement): StageMover {
  const { empty } = verdict
  const needed = empty && empty.distance > 0 ? empty : null
  return {
    limb,
    region: verdict.region,
    move: needed?.move ?? null,
    ...(needed ? { distance: `${Math.max(1, Math.round(needed.distance * 100))} cm` } : {}),
    ...(pelvis ? { pelvis } : {}),
  }
}
