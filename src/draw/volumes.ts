import { type BodyModel, SIDES } from '../body/model'
import type { ReachedPose } from '../pose/types'
import { armVolumes } from './arm-volumes'
import { legVolumes } from './leg-volumes'
import { headVolumes, trunkVolumes } from './trunk-volumes'
import type { Volume } from './volume'

/**
 * The body as simple volumes, each the convex hull of a few spheres, whose size is the body's mass: a
 * radius is about twice the spread of the segment's mass across, as a uniform cylinder has it.
 *
 * World frame, m.
 */
export function volumesOf(body: BodyModel, pose: ReachedPose): Volume[] {
  return [
    ...trunkVolumes(body, pose),
    ...headVolumes(body, pose),
    ...SIDES.flatMap((side) => [...legVolumes(body, pose, side), ...armVolumes(body, pose, side)]),
  ]
}
