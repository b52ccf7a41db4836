import type { BodyModel, Side } from '../body/model'
import type { Controls } from '../document/channels'
import type { ContactPart, ContactSpan } from '../document/contacts'
import type { Ground } from '../document/plan'
import type { Vec3 } from '../space/vec'
import type { ReachedPose } from './types'

/** What becomes of a leg's foot when its knee is moved. */
export type FootWay = 'along' | 'trails' | 'stays'

/** A handle taken hold of: the pose it is part of and where it should go. */
export interface Grasp {
  readonly body: BodyModel
  readonly ground: Ground
  readonly asked: Controls
  readonly contacts: readonly ContactSpan[]
  /** The pose that `asked` and `contacts` give. */
  readonly start: ReachedPose
  readonly target: Vec3
  /** Unit direction that the drag says nothing about (the depth of its view), or null. */
  readonly free: Vec3 | null
  readonly foot: FootWay
}

export interface Moved {
  readonly controls: Controls
  readonly contacts: readonly ContactSpan[]
}

export const spanOf = ({ contacts }: Pick<Grasp, 'contacts'>, part: ContactPart): ContactSpan | null =>
  contacts.find((span) => span.part === part) ?? null

/** Only the controls change. */
export const controlled = (grasp: Grasp, changes: Partial<Controls>): Moved => ({
  controls: { ...grasp.asked, ...changes },
  contacts: grasp.contacts,
})

/** Only one contact changes. */
export const slid = ({ asked, contacts }: Grasp, before: ContactSpan, after: ContactSpan): Moved => ({
  controls: asked,
  contacts: contacts.map((span) => (span === before ? after : span)),
})

type PlaceId = 'pelvis' | `leg${Side}.${'knee' | 'ankle'}` | `arm${Side}.hand`

/** A place as the three controls that hold it, m. */
export const put = (id: PlaceId, [x, y, z]: Vec3): Partial<Controls> => ({
  [`${id}.x`]: x,
  [`${id}.y`]: y,
  [`${id}.z`]: z,
})

/** The place that three controls hold, m. */
export const placeIn = (controls: Controls, id: PlaceId): Vec3 => [
  controls[`${id}.x`],
  controls[`${id}.y`],
  controls[`${id}.z`],
]

/** An angle brought into −π … π. */
export const withinTurn = (angle: number): number => Math.atan2(Math.sin(angle), Math.cos(angle))
