import type { Point2 } from '../../contact/hull'
import type { ContactSpan } from '../../document/contacts'
import { reach } from '../../pose/reach'
import type { ReachedPose } from '../../pose/types'
import { roomIn } from '../../weigh/polygon'
import { contactOf } from '../../weigh/pose'
import { weigh } from '../../weigh/weigh'
import type { Scene, Still } from './types'

export const poseOf = (scene: Scene, { controls, contacts }: Still): ReachedPose =>
  reach(scene.body, controls, contacts, scene.loads)

/** Where the weight could be, held still, on those pads of a pose that `counts` says; x and z, m. */
export function regionOf(
  scene: Scene,
  pose: ReachedPose,
  counts: (part: ContactSpan['part']) => boolean,
): Point2[] {
  const contacts = pose.pads.filter(({ part }) => counts(part)).map((pad) => contactOf(scene.ground, pad))
  if (contacts.length === 0) return []
  const body = {
    mass: pose.mass,
    com: pose.com,
    stature: scene.body.stature,
    gravity: scene.gravity,
  }
  return [...weigh(contacts, body, { ranges: false }).region]
}

/** The room of a place, over H. */
export const roomAt = (scene: Scene, region: readonly Point2[], at: Point2): number =>
  roomIn(region, at) / scene.body.stature

/** The centre of mass from above. */
export const plumbOf = ({ com }: Pick<ReachedPose, 'com'>): Point2 => [com[0], com[2]]
