import type { BodyModel } from '../../body/model'
import type { Plan, Take } from '../../document/plan'
import { keyPosesOf } from '../../plan/key-poses'
import type { Motion } from '../../pose/between'
import { bodyAxes } from '../../sheet/directions'
import { degreesText, type LengthUnit, lengthText, percentText } from '../../sheet/format'
import { sheetLimbs } from '../../sheet/limbs'
import { headingOf, measuresOf } from '../../sheet/measures'
import { sub } from '../../space/vec'
import { weighPose } from '../../weigh/pose'

/** What is different in a take from the one before it, key pose by key pose. */
export interface KeyDifference {
  readonly frame: number
  /** 'pelvis 8 cm to his right', 'chest 6° more to his right', 'leg L 42 % → 3 %'; none where nothing is. */
  readonly words: readonly string[]
}

/**
 * Differences at every key pose of the open take, in words.
 * @param before the take it is compared with, and its motion
 */
export function differences(
  plan: Plan,
  body: BodyModel,
  take: Take,
  motion: Motion,
  before: Motion,
  unit: LengthUnit,
): KeyDifference[] {
  const limbs = sheetLimbs(take)
  const first = motion.poseAt(0)
  return keyPosesOf(take).map((frame) => {
    const now = motion.poseAt(frame)
    const was = before.poseAt(Math.min(frame, before.length - 1))
    const [side, up, fore] = bodyAxes(headingOf(first), sub(now.joints.midHip, was.joints.midHip))
    const least = 0.5 / (unit.perMetre * 10 ** unit.decimals)
    const far = (value: number, more: string, less: string) =>
      Math.abs(value) < least ? '' : `${lengthText(Math.abs(value), unit)} ${value > 0 ? more : less}`
    const pelvis = [
      far(side, 'to his left', 'to his right'),
      far(fore, 'forward', 'back'),
      far(up, 'up', 'down'),
    ].filter(Boolean)
    const [a, b] = [measuresOf(body, first, now), measuresOf(body, first, was)]
    const turned = (name: string, value: number, more: string, less: string) =>
      Math.abs(value) < Math.PI / 360
        ? ''
        : `${name} ${degreesText(Math.abs(value))} ${value > 0 ? more : less}`
    const loads = limbs.map(({ id, title }) => {
      const share = (pose: typeof now) =>
        weighPose(plan.ground, plan.gravity, body.stature, pose, plan).weighing.limbs.find(
          (limb) => limb.id === id,
        )?.vertical ?? 0
      const [before, after] = [percentText(share(was)), percentText(share(now))]
      return before === after ? '' : `${title} ${before} → ${after}`
    })
    return {
      frame,
      words: [
        pelvis.length > 0 ? `pelvis ${pelvis.join(', ')}` : '',
        turned('hips', a.pelvis.list - b.pelvis.list, 'lower on his right', 'lower on his left'),
        turned('chest', a.chest.world.side - b.chest.world.side, 'more to his right', 'more to his left'),
        turned('chest', a.chest.world.fore - b.chest.world.fore, 'further forward', 'further back'),
        turned('head', a.head.world.side - b.head.world.side, 'more to his right', 'more to his left'),
        ...loads,
      ].filter(Boolean),
    }
  })
}
