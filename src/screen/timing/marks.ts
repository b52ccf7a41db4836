import type { DrawnPush, MotionMarks } from '../../draw/motion-marks'
import { keyedFramesOf, keyPosesOf } from '../../plan/key-poses'
import type { ReachedPose } from '../../pose/types'
import { massText } from '../../sheet/format'
import { ADMISSIBLE_PUSH } from '../../shift/constants'
import { scale } from '../../space/vec'
import type { DynamicFrame } from '../../weigh/dynamic'
import type { Desk } from '../desk.svelte'
import { motionStateOf } from './motion-state.svelte'

/** What of the take's motion is drawn over the stage: with the page that reads it, or loads in motion on the sheet. */
export function motionMarks(desk: Desk): MotionMarks | null {
  if (desk.page !== 'timing' && desk.view.loads !== 'motion') return null
  const { weighings, frame } = motionStateOf(desk)
  if (weighings === null || !weighings.fresh) return null
  const { length } = desk.take
  return {
    push: frame && pushOf(frame),
    path: Array.from({ length }, (_, f) => {
      const com = weighings.frames.get(f)?.body.com
      return com ? ([com[0], com[2]] as const) : null
    }),
    keys: new Set(keyedFramesOf(desk.take).map((keyed) => keyed.frame)),
    frame: desk.frame,
    centreOfPressure: frame?.weighing.centreOfPressure ?? null,
  }
}

/** A push that counts; one as small as any drawing forgives is not drawn. */
function pushOf({ weighing, push, body }: DynamicFrame): DrawnPush | null {
  if (weighing.push.size <= ADMISSIBLE_PUSH) return null
  return {
    at: push.at,
    force: scale(weighing.push.force, 1 / (body.mass * body.gravity)),
    kilograms: massText(push.kilograms, body.mass),
  }
}

/** The reached poses of the keys before and after the frame, where onion skins are on. */
export function onionOf({ view, take, frame, motion }: Desk): ReachedPose[] {
  if (!view.onion) return []
  const keys = keyPosesOf(take)
  const around = [keys.findLast((key) => key < frame), keys.find((key) => key > frame)]
  return around.flatMap((key) => (key === undefined ? [] : [motion.poseAt(key)]))
}
