import type { Side } from '../../body/model'
import { CHANNELS, type ChannelId } from '../../document/channels'
import type { LimbId } from '../../document/contacts'
import { setControls } from '../../plan/edit/keys'
import { type Fix, motionOf, takeOf } from './fixes'

/** Asks, at the keys in a span, only for what is reached there: pelvis and this limb. */
export function moveHeld(limb: LimbId, side: Side, from: number, to: number): Fix {
  const end: readonly ChannelId[] = CHANNELS.filter(
    (id) => id.startsWith('pelvis.') || id.startsWith(`${limb}.`),
  )
  return (plan, takeId) => {
    const take = takeOf(plan, takeId)
    const motion = motionOf(plan, takeId)
    const lead: ChannelId = limb.startsWith('leg') ? `leg${side}.ankle.x` : `arm${side}.hand.x`
    const keyed = take.channels[lead].map(({ frame }) => frame)
    const around = [keyed.findLast((frame) => frame <= from), keyed.find((frame) => frame >= to)]
    const frames = keyed.filter((frame) => (frame > from && frame < to) || around.includes(frame))
    return frames.reduce((changing, frame) => {
      const { reached } = motion.poseAt(frame)
      return setControls(changing, takeId, frame, Object.fromEntries(end.map((id) => [id, reached[id]])))
    }, plan)
  }
}
