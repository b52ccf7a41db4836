import type { BodyModel, Side } from '../../body/model'
import type { Controls } from '../../document/channels'
import { put } from '../../pose/grasp'
import { bendLimb } from '../../pose/limb'
import type { ReachedPose } from '../../pose/types'
import { add, addScaled, scale, type Vec3 } from '../../space/vec'
import type { Placing } from './balance'

/** A leg in the air: where its ankle goes, how its foot lies, and how high its knee must be. */
export interface LegInAir {
  readonly ankle: Vec3
  /** The level way the knee points, unit. */
  readonly ahead: Vec3
  /** Least height of the knee joint, m; −∞ for none. */
  readonly knee: number
  readonly pitch: number
  readonly turn: number
}

/**
 * Places a free leg for a hip: the ankle where it is asked, drawn on along the shin's way until the knee is as
 * high as it must be. A kneeling thigh is at its longest, so that a knee rises only by folding.
 */
export function placingLeg(body: BodyModel, side: Side, leg: LegInAir): Placing {
  return ({ joints }: ReachedPose) => {
    const hip = joints[`hip${side}`]
    const knee = (on: number) => kneeOf(body, hip, addScaled(leg.ankle, leg.ahead, on), leg.ahead)
    let on = 0
    if (knee(0)[1] < leg.knee) {
      let [low, high] = [0, body.lengths.shank * 0.75]
      for (let i = 0; i < HALVINGS; i++) {
        on = (low + high) / 2
        if (knee(on)[1] < leg.knee) low = on
        else high = on
      }
    }
    return {
      ...put(`leg${side}.knee`, knee(on)),
      ...put(`leg${side}.ankle`, addScaled(leg.ankle, leg.ahead, on)),
      [`leg${side}.pitch`]: leg.pitch,
      [`leg${side}.turn`]: leg.turn,
    } as Partial<Controls>
  }
}

const HALVINGS = 14

/** Where the knee of a leg comes to be whose knee points ahead, m. */
function kneeOf(body: BodyModel, hip: Vec3, ankle: Vec3, ahead: Vec3): Vec3 {
  const { thigh, shank } = body.lengths
  const pole = add(scale(ahead, 1), [0, 0.02, 0])
  return bendLimb(hip, ankle, thigh, shank, pole, 'leg', false).middle
}
