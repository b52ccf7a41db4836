import { partKind } from '../../document/contacts'
import type { JointId } from '../../pose/types'
import { dot, sub } from '../../space/vec'
import { LANDS } from './constants'
import { addAt, pin } from './fixes'
import type { Finding, Measured, PartTouch, Rule } from './types'
import { frameAt, labelAt, length, lower, number2, partName } from './words'

/** Something comes down hard, and hips and chest don't go on. */
export const landsWithoutGive: Rule = {
  id: 'give',
  name: 'Lands without give',
  pass: 'pelvis',
  level: 'look',
  onBlocking: false,
  plainInGraphic: false,
  fires: (measured) =>
    measured.touches.filter(({ begins }) => begins).flatMap((touch) => hard(measured, touch) ?? []),
}

function hard(measured: Measured, touch: PartTouch): Finding | null {
  const { root, dt, stature, frames, weighed } = measured
  const speed = Math.max(
    approach(measured, touch),
    ...(weighed[touch.first]?.landing?.parts ?? [])
      .filter(({ id }) => measured.take.contacts.find((span) => span.id === id)?.part === touch.part)
      .map((part) => part.speed),
  )
  if (speed <= LANDS.speed * root) return null
  const end = Math.min(frames.length - 1, touch.first + Math.round((LANDS.within * root) / dt))
  const give = Math.max(goesOn(measured, touch, 'midHip', end), goesOn(measured, touch, 'breastbone', end))
  if (give >= LANDS.give * stature) return null
  const name = partName(touch.part, touch.kind)
  const frame = frameAt(measured, touch.first)
  const deepest = frame + Math.max(1, Math.round(0.5 * LANDS.within * root * measured.fps))
  const over = frame + Math.max(2, Math.round(1.5 * LANDS.within * root * measured.fps))
  return {
    from: frame,
    to: frameAt(measured, end),
    number: give,
    sentence: `${name} lands at ${number2(speed)} m/s and hips and chest go on only ${length(measured, give)}.`,
    remedy: {
      text: `Let the hips sink ${length(measured, MORE * LANDS.give * stature)} after the ${lower(name)} lands at ${labelAt(measured, touch.first)}, and come back.`,
      fix: (plan, takeId) => {
        const pinned = pin(pin(plan, takeId, frame, HEIGHT), takeId, over, HEIGHT)
        return addAt(pinned, takeId, deepest, { 'pelvis.y': -MORE * LANDS.give * stature })
      },
    },
  }
}

const HEIGHT = ['pelvis.y'] as const
/** How much more than the rule asks. */
const MORE = 2

/** Speed of the joint that lands, into the surface, over the last frames before the touch, m/s. */
function approach(measured: Measured, { part, side, first }: PartTouch): number {
  const back = Math.max(1, Math.round((LANDS.approach * measured.root) / measured.dt))
  const [a, b] = [measured.poses[first - back], measured.poses[first]]
  const pad = b?.pads.find((one) => one.part === part)
  if (!a || !b || !pad) return 0
  const joint: JointId = `${JOINTS[partKind(part)]}${side}`
  return Math.max(0, dot(sub(a.joints[joint], b.joints[joint]), pad.normal) / (back * measured.dt))
}

const JOINTS = { knee: 'knee', foot: 'ankle', hand: 'wrist' } as const

/** How far a joint goes on into the surface after the touch, m. */
function goesOn({ poses }: Measured, { part, first }: PartTouch, joint: JointId, end: number): number {
  const from = poses[first]
  const pad = from?.pads.find((one) => one.part === part)
  if (!from || !pad) return 0
  let most = 0
  for (let i = first + 1; i <= end; i++) {
    const at = poses[i]?.joints[joint]
    if (at) most = Math.max(most, -dot(sub(at, from.joints[joint]), pad.normal))
  }
  return most
}
