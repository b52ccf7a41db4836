import type { Point2 } from '../../contact/hull'
import type { Controls } from '../../document/channels'
import { partKind, sideOf } from '../../document/contacts'
import { put } from '../../pose/grasp'
import { GIVE, OVERSHOOT, STRIKE } from './constants'
import { riding } from './hang'
import { firstHeld, HEAD_CHANNELS, hold, type Job, TRUNK_CHANNELS } from './job'
import { type KeyPose, keyPose } from './key-pose'
import { aheadOf } from './moves'
import { plumbOf, poseOf, regionOf } from './region'
import { failed, type Solved, solved } from './sound'

/** The weight comes back between the supports, swings past, and rests. */
export function* shared(job: Job, touch: KeyPose): Generator<null, Solved<KeyPose[]>> {
  const { scene, pose, transfer } = job
  const { contacts } = touch.still
  const region = regionOf(scene, touch.pose, () => true)
  if (region.length === 0) return failed('nothing', 0, 'What he ends on is too narrow to hold him.')
  const leans = transfer.limb.startsWith('arm') && transfer.plant.length > 0
  const held = yield* firstHeld(leans ? (transfer.kind === 'strike' ? [0] : RISEN) : SHARED, (share) => {
    const controls = { ...restControls(job, touch, leans ? share : 1), ...keptHand(job, touch) }
    const base = riding({ controls, contacts }, pose, poseOf(scene, { controls, contacts }))
    const still = { ...base, controls: { ...base.controls, ...keptHand(job, touch) } }
    const stays = leans || transfer.ends === 'sit' ? plumbOf(poseOf(scene, still)) : null
    return hold(job, still, stays ?? between(touch, share), job.way.ease, null, region)
  })
  if (!held.ok) return held
  if (transfer.kind === 'help') return solved([keyPose('share', 'share', held.value)])
  const rest = keyPose('rest', 'settle', held.value)
  const give = transfer.kind === 'strike' ? STRIKE.drop : GIVE
  const swing = (share: number, down: number) => {
    const past: Record<string, number> = { ...rest.still.controls }
    for (const id of TRUNK_CHANNELS)
      past[id] = rest.still.controls[id] + (rest.still.controls[id] - touch.still.controls[id]) * share
    past['pelvis.y'] = rest.still.controls['pelvis.y'] - down * scene.body.stature
    const at = { contacts, controls: past as Controls }
    return { still: at, pose: poseOf(scene, at) }
  }
  return solved([
    keyPose('share', 'share', swing(OVERSHOOT.first, give)),
    keyPose('back', 'settle', swing(OVERSHOOT.second, -give / 3)),
    rest,
  ])
}

/** Part of the way from where the weight stands to the middle of the main pads. */
function between({ pose, still }: KeyPose, share: number): Point2 {
  const main = pose.pads.filter(({ part, kind }) => {
    const kneels = still.contacts.some((c) => c.part === `knee${sideOf(part)}`)
    return partKind(part) !== 'foot' || !kneels || kind === 'sole'
  })
  const middle = (i: 0 | 2) => main.reduce((sum, { centre }) => sum + centre[i], 0) / main.length
  const from = plumbOf(pose)
  return [from[0] + (middle(0) - from[0]) * share, from[1] + (middle(2) - from[1]) * share]
}

/** How far a trunk that has leant onto a hand rises again, what reads best first: the hand keeps it down. Ours. */
const RISEN: readonly number[] = [0.15, 0]

/** How far the weight comes back from over toward the middle, what reads best first. Ours. */
const SHARED: readonly number[] = [0.8, 0.5, 0.2]

/**
 * The trunk as it was at the start, or risen, or sitting; legs as they are.
 * @param risen how far it goes back to that
 */
function restControls({ scene, pose, transfer }: Job, touch: KeyPose, risen: number): Controls {
  const before = pose.reached
  const { thigh, shank, ankleHeight } = scene.body.lengths
  const controls: Record<string, number> = { ...touch.still.controls }
  for (const id of [...TRUNK_CHANNELS, ...HEAD_CHANNELS]) {
    const at = touch.still.controls[id]
    controls[id] = at + (before[id] - at) * risen
  }
  if (risen < 1) return controls as Controls
  const [x, , z] = touch.pose.joints.midHip
  const back = transfer.ends === 'sit' ? shank * 0.8 : 0
  const ahead = aheadOf(touch.pose)
  controls['pelvis.x'] = x - ahead[0] * back
  controls['pelvis.z'] = z - ahead[2] * back
  if (transfer.ends === 'sit') {
    controls['pelvis.y'] = before['pelvis.y'] - thigh * 0.6
    controls['chest.tilt'] = before['chest.tilt'] + 0.15
  }
  if (transfer.ends === 'rise')
    controls['pelvis.y'] = Math.max(before['pelvis.y'], (thigh + shank) * 0.9 + ankleHeight)
  return controls as Controls
}

/** A hand that reached a place stays there. */
function keptHand({ transfer }: Job, touch: KeyPose): Partial<Controls> {
  if (transfer.reach === null) return {}
  const side = sideOf(transfer.limb)
  return put(`arm${side}.hand`, touch.pose.joints[`knuckle${side}`])
}
