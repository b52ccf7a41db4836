import { SIDES, type Side } from '../../body/model'
import type { Point2 } from '../../contact/hull'
import type { Controls } from '../../document/channels'
import { type ContactSpan, partKind, sideOf } from '../../document/contacts'
import { put } from '../../pose/grasp'
import type { Balanced } from './balance'
import { GIVE, OVERSHOOT, STRIKE } from './constants'
import { riding } from './hang'
import { firstHeld, HEAD_CHANNELS, hold, type Job, plumbOfStill, TRUNK_CHANNELS } from './job'
import { type KeyPose, keyPose } from './key-pose'
import { aheadOf, comesDown } from './moves'
import { plumbOf, poseOf, regionOf } from './region'
import { failed, type Solved, solved } from './sound'

/** The weight comes back between the supports, swings past, and rests. */
export function* shared(job: Job, touch: KeyPose): Generator<null, Solved<KeyPose[]>> {
  const { scene, pose, transfer } = job
  const { contacts } = touch.still
  const region = regionOf(scene, touch.pose, () => true)
  if (region.length === 0) return failed('nothing', 0, 'What he ends on is too narrow to hold him.')
  const leans = transfer.limb.startsWith('arm') && transfer.plant.length > 0
  if (comesDown(transfer)) {
    const dropped = yield* firstHeld(DROPS, (drop) => struck(job, touch, drop, region))
    if (!dropped.ok) return dropped
    return solved(swings(job, touch, dropped.value))
  }
  const held = yield* firstHeld(leans ? RISEN : SHARED, (share) => {
    const controls = { ...restControls(job, touch, leans ? share : 1), ...keptHand(job, touch) }
    const base = riding({ controls, contacts }, pose, poseOf(scene, { controls, contacts }))
    const still = { ...base, controls: { ...base.controls, ...keptHand(job, touch) } }
    const stays = leans || transfer.ends === 'sit' ? plumbOf(poseOf(scene, still)) : null
    return hold(job, still, stays ?? between(touch, share), job.way.ease, null, region)
  })
  if (!held.ok) return held
  if (transfer.kind === 'help') return solved([keyPose('share', 'share', held.value)])
  return solved(swings(job, touch, held.value))
}

/** Past the rest, back and onto it; the pelvis gives under the load. */
function swings({ scene }: Job, touch: KeyPose, held: Balanced): KeyPose[] {
  const { contacts } = touch.still
  const rest = keyPose('rest', 'settle', held)
  const swing = (share: number, down: number) => {
    const past: Record<string, number> = { ...rest.still.controls }
    for (const id of TRUNK_CHANNELS)
      past[id] = rest.still.controls[id] + (rest.still.controls[id] - touch.still.controls[id]) * share
    past['pelvis.y'] = rest.still.controls['pelvis.y'] - down * scene.body.stature
    const at = { contacts, controls: past as Controls }
    return { still: at, pose: poseOf(scene, at) }
  }
  return [
    keyPose('share', 'share', swing(OVERSHOOT.first, GIVE)),
    keyPose('back', 'settle', swing(OVERSHOOT.second, -GIVE / 3)),
    rest,
  ]
}

/**
 * After a strike or a set-down the pelvis drops: on planted knees it can only go down by going back, or over a planted foot
 * by bending the leg.
 */
function* struck(
  job: Job,
  touch: KeyPose,
  drop: number,
  region: readonly Point2[],
): Generator<null, Solved<Balanced>> {
  const { scene } = job
  const { contacts, controls: c } = touch.still
  const down = drop * scene.body.stature
  const { thigh } = scene.body.lengths
  const ahead = aheadOf(touch.pose)
  // How upright the thighs are that he kneels on, as a cosine; upright where he kneels on none.
  const upright = Math.min(1, ...SIDES.filter(kneelsOn(contacts)).map(uprightOf(touch, thigh)))
  const kneels = SIDES.some(kneelsOn(contacts))
  const back = kneels ? thigh * (sineOf(upright - down / thigh) - sineOf(upright)) : 0
  const controls: Controls = {
    ...c,
    'pelvis.x': c['pelvis.x'] - ahead[0] * back,
    'pelvis.y': c['pelvis.y'] - down,
    'pelvis.z': c['pelvis.z'] - ahead[2] * back,
  }
  const still = { contacts, controls }
  const held = yield* hold(job, still, plumbOfStill(scene, still), job.way.ease, null, region)
  if (!held.ok || drop === 0) return held
  const came = touch.pose.joints.midHip[1] - held.value.pose.joints.midHip[1]
  return came >= STRIKE.came * down ? held : failed('limb', down - came, 'The pelvis cannot drop.')
}

const kneelsOn = (contacts: readonly ContactSpan[]) => (side: Side) =>
  contacts.some(({ part }) => part === `knee${side}`)
const uprightOf =
  ({ pose: { joints } }: KeyPose, thigh: number) =>
  (side: Side) =>
    (joints[`hip${side}`][1] - joints[`knee${side}`][1]) / thigh
const sineOf = (cosine: number) => Math.sqrt(1 - Math.max(0, Math.min(1, cosine)) ** 2)

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

/** How far the pelvis drops after a strike, over H, what reads best first. */
const DROPS: readonly number[] = [0.03, 0.022, 0]

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
