import type { ReachedPose } from '../../pose/types'
import { toAngles } from '../../space/rotation'
import { degrees } from '../../space/units'
import { SAME } from './constants'
import type { KeyPose, Keys } from './key-pose'
import { leavesAt, touchesAt, type Verified } from './option'
import { centimetres } from './sound'
import type { Scene, ShiftAsk, ShiftOption } from './types'
import type { Way } from './ways'

/** A verified chain as it is shown. */
export function describe(
  ask: ShiftAsk,
  way: Way,
  chain: readonly Keys[],
  { layout, checked, slowed }: Verified,
): ShiftOption {
  const main = chain.at(-1) as Keys
  const leaves = leavesAt(layout)
  const begins = (layout.frames.at(-1)?.[0] ?? ask.frame) - ask.frame
  const rising = checked.mover.slice(begins, Math.max(begins + 1, leaves - ask.frame + 1))
  return {
    id: way.toesStay ? 'toes-stay' : way.id,
    name: way.name,
    why: why(way, chain, main),
    take: layout.take,
    frames: layout.to - layout.from,
    keys: layout.keys,
    leaves,
    touches: touchesAt(layout, chain),
    lean: greatestLean(chain),
    hipLine: checked.hipLine,
    load: checked.load,
    room: checked.room,
    press: Math.max(...rising) - (rising[0] ?? 0),
    push: checked.push,
    paced: slowed,
  }
}

/** Whether two chains count as different options. */
export function differs(scene: Scene, a: readonly Keys[], b: readonly Keys[]): boolean {
  const planted = (chain: readonly Keys[]) =>
    chain
      .flatMap(({ transfer }) => transfer.plant)
      .filter(({ part }) => !part.startsWith('foot'))
      .map(
        ({ part, position }) =>
          `${part} ${position.map((x) => Math.round(x / (SAME.place * scene.body.stature)))}`,
      )
      .join()
  if (a.length !== b.length || planted(a) !== planted(b)) return true
  const [p, q] = [overOf(a), overOf(b)]
  if (!p || !q) return false
  const far = (i: number) =>
    Math.abs((p.pose.joints.midHip[i] as number) - (q.pose.joints.midHip[i] as number))
  if (Math.hypot(far(0), far(1), far(2)) >= SAME.place * scene.body.stature) return true
  const angles = (pose: ReachedPose, part: 'lowerTrunk' | 'upperTrunk') =>
    toAngles(pose.segments[part].rotation)
  return (['lowerTrunk', 'upperTrunk'] as const).some((part) => {
    const [x, y] = [angles(p.pose, part), angles(q.pose, part)]
    return (
      Math.max(Math.abs(x.turn - y.turn), Math.abs(x.list - y.list), Math.abs(x.tilt - y.tilt)) >= SAME.angle
    )
  })
}

const overOf = (chain: readonly Keys[]): KeyPose | undefined =>
  chain.at(-1)?.keys.find(({ name }) => name === 'over' || name === 'touch')

/** Greatest lean of the chest from where it started, rad. */
function greatestLean(chain: readonly Keys[]): number {
  const start = chain[0]?.keys[0]
  if (!start) return 0
  const up = (pose: ReachedPose) => pose.segments.upperTrunk.rotation
  const r = up(start.pose)
  let most = 0
  for (const { keys } of chain)
    for (const { pose } of keys) {
      const q = up(pose)
      const cosine = r[1] * q[1] + r[4] * q[4] + r[7] * q[7]
      most = Math.max(most, Math.acos(Math.max(-1, Math.min(1, cosine))))
    }
  return most
}

/** What gives the weight, in a sentence. */
function why(way: Way, chain: readonly Keys[], main: Keys): string {
  const start = main.keys[0] as KeyPose
  const over = main.keys.find(({ name }) => name === 'over')
  if (!over) return 'Nothing has to leave first: the weight stays between what bears.'
  const by = (i: 0 | 2) => over.pose.joints.midHip[i] - start.pose.joints.midHip[i]
  const lean = degrees(greatestLean(chain))
  const moved = centimetres(Math.hypot(by(0), by(2)))
  const helped = chain.length > 1 ? HELPED[way.hand ?? (way.narrow > 0 ? 'narrow' : 'none')] : ''
  return `${helped}The pelvis goes ${moved} to where the others hold him, the chest leans ${Math.round(lean)}°.`
}
const HELPED = {
  front: 'A hand comes down in front and takes part of the weight. ',
  side: 'A hand comes down on the lifting side and takes part of the weight. ',
  narrow: 'The knees come nearer, so that one of them can hold him. ',
  none: '',
} as const
