import { SIDES, type Side } from '../../body/model'
import type { ChannelId } from '../../document/channels'
import type { ContactPart } from '../../document/contacts'
import { put } from '../../pose/grasp'
import type { ReachedPose } from '../../pose/types'
import { add, addScaled, distance, norm, reject, scale, sub, unit } from '../../space/vec'
import { HANG_CLEAR, HANG_LEANT, HANG_OFF } from './constants'
import { poseOf } from './region'
import type { Scene, Still } from './types'

/**
 * What is not held goes on as it was. Free arms hang: each hand keeps its way from the shoulder, as the world sees it and not as the chest does, and
 * stands off to its own side by as much as the shoulder has come over it. A knee over a planted foot goes on
 * pointing the way it did.
 */
export function riding(still: Still, start: ReachedPose, now: ReachedPose): Still {
  const starts = (side: Side) =>
    start.pads.some(({ part }) => part === `foot${side}`) &&
    !start.pads.some(({ part }) => part === `knee${side}`)
  const changes: Partial<Record<ChannelId, number>> = {}
  const turn = now.segments.upperTrunk.rotation
  const size = Math.hypot(turn[0], turn[6]) || 1
  const [u, v] = [start.segments.upperTrunk.rotation, turn]
  const leant =
    HANG_LEANT *
    norm(sub([u[1], u[4], u[7]], [v[1], v[4], v[7]])) *
    norm(sub(start.joints.crown, start.joints.waist))
  const held = (part: ContactPart) => still.contacts.some((contact) => contact.part === part)
  for (const side of SIDES) {
    if (held(`foot${side}`) && !held(`knee${side}`)) {
      const [hip, knee, ankle] = [
        start.joints[`hip${side}`],
        start.joints[`knee${side}`],
        start.joints[`ankle${side}`],
      ]
      const bend = reject(sub(knee, hip), unit(sub(ankle, hip)))
      // A leg all but straight says nothing about where its knee points; its foot does.
      const toes = sub(start.joints[`ball${side}`], ankle)
      const way = unit(add(unit(bend, [0, 0, 0]), scale(unit([toes[0], 0, toes[2]]), 0.5)))
      const at = addScaled(now.joints[`hip${side}`], way, distance(knee, hip))
      if (starts(side)) Object.assign(changes, put(`leg${side}.knee`, at))
    }
    if (held(`hand${side}`)) continue
    const [was, is] = [start.joints[`shoulder${side}`], now.joints[`shoulder${side}`]]
    const out = side === 'L' ? 1 : -1
    const aside = (HANG_OFF * Math.hypot(is[0] - was[0], is[2] - was[2]) + leant) * out
    const from = sub(start.joints[`knuckle${side}`], was)
    const to = add(from, [(turn[0] / size) * aside, 0, (turn[6] / size) * aside])
    const hand = addScaled(is, unit(to), norm(from))
    Object.assign(changes, put(`arm${side}.hand`, hand))
  }
  return { ...still, controls: { ...still.controls, ...changes } }
}

/** Free arms out of his own flesh. */
export function cleared(scene: Scene, still: Still, pose: ReachedPose): { still: Still; pose: ReachedPose } {
  for (let i = 0; i < HANG_CLEAR.tries; i++) {
    const changes: Partial<Record<ChannelId, number>> = {}
    const r = pose.segments.upperTrunk.rotation
    for (const { code, limb, by } of pose.limits) {
      if (code !== 'flesh' || !limb.startsWith('arm')) continue
      const side = limb === 'armL' ? 'L' : 'R'
      if (still.contacts.some(({ part }) => part === `hand${side}`)) continue
      const out = (side === 'L' ? 1 : -1) * by * HANG_CLEAR.more
      const hand = addScaled(pose.joints[`knuckle${side}`], [r[0], 0, r[6]], out)
      Object.assign(changes, put(`arm${side}.hand`, hand))
    }
    if (Object.keys(changes).length === 0) break
    still = { ...still, controls: { ...still.controls, ...changes } }
    pose = poseOf(scene, still)
  }
  return { still, pose }
}
