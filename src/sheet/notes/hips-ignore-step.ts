import { toAngles } from '../../space/rotation'
import { distance } from '../../space/vec'
import { STEP } from './constants'
import { addAt } from './fixes'
import type { Finding, Measured, PartTouch, Rule } from './types'
import { angle, frameAt, labelAt, length, lower, partName, wayText } from './words'

/** A foot takes weight and the hips don't answer. */
export const hipsIgnoreStep: Rule = {
  id: 'hips-step',
  name: 'Hips ignore the step',
  pass: 'pelvis',
  level: 'look',
  onBlocking: false,
  plainInGraphic: false,
  fires: (measured) =>
    measured.touches
      .filter(({ part, begins }) => begins && part.startsWith('foot'))
      .flatMap((touch) => ignored(measured, touch) ?? []),
}

function ignored(measured: Measured, touch: PartTouch): Finding | null {
  const { root, dt, stature, frames } = measured
  const takes = takesAt(measured, touch)
  if (takes === null) return null
  const start = Math.max(0, touch.first - Math.round((STEP.before * root) / dt))
  const end = Math.min(frames.length - 1, takes + Math.round((STEP.after * root) / dt))
  const { travel, turned } = answer(measured, start, end)
  if (travel >= STEP.pelvis * stature || turned >= STEP.angle) return null
  const name = partName(touch.part, touch.kind)
  const foot = measured.poses[takes]?.joints[`ankle${touch.side}`]
  const hip = measured.poses[takes]?.joints.midHip
  if (!foot || !hip) return null
  const [x, z] = [foot[0] - hip[0], foot[2] - hip[2]]
  const far = Math.hypot(x, z) || 1
  const frame = frameAt(measured, takes)
  return {
    from: frameAt(measured, start),
    to: frameAt(measured, end),
    number: travel,
    sentence: `${name} takes weight, and the hips go only ${length(measured, travel)} and ${angle(turned)}.`,
    remedy: {
      text: `Let the pelvis go toward the ${lower(name)} (${wayText(measured, x, z)}) by ${labelAt(measured, takes)}, with a little list and turn.`,
      fix: (plan, takeId) =>
        addAt(plan, takeId, frame, {
          'pelvis.x': (MORE * STEP.pelvis * stature * x) / far,
          'pelvis.z': (MORE * STEP.pelvis * stature * z) / far,
        }),
    },
  }
}

/** How much more than the rule asks. */
const MORE = 1.3

/** The first drawn frame on which the foot bears what counts; null where it never does. */
function takesAt({ weighed }: Measured, { limb, first, last }: PartTouch): number | null {
  for (let i = first; i <= last; i++)
    if ((weighed[i]?.weighing.limbs.find(({ id }) => id === limb)?.share ?? 0) > STEP.takes) return i
  return null
}

function answer({ poses }: Measured, start: number, end: number): { travel: number; turned: number } {
  const a = poses[start]
  let travel = 0
  let turned = 0
  if (!a) return { travel, turned }
  const from = toAngles(a.segments.lowerTrunk.rotation)
  for (let i = start; i <= end; i++) {
    const b = poses[i]
    if (!b) continue
    const to = toAngles(b.segments.lowerTrunk.rotation)
    travel = Math.max(travel, distance(a.joints.midHip, b.joints.midHip))
    turned = Math.max(turned, Math.abs(to.list - from.list) + Math.abs(to.turn - from.turn))
  }
  return { travel, turned }
}
