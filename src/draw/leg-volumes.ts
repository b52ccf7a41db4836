import { FOOT_BREADTH } from '../body/constants'
import type { BodyModel, Side } from '../body/model'
import type { LimbId } from '../document/contacts'
import type { Placement, ReachedPose } from '../pose/types'
import { add, addScaled, cross, lerp, scale, sub, unit } from '../space/vec'
import { SHAPE } from './constants'
import { axisX, axisY, axisZ, halves, mean, out, placed, type Volume, volume } from './volume'

/** Thigh, kneecap, shank, and the foot with heel and toe wedge. */
export function legVolumes(body: BodyModel, { joints, segments }: ReachedPose, side: Side): Volume[] {
  const part: LimbId = `leg${side}`
  const thigh = segments[`thigh${side}`]
  const shank = segments[`shank${side}`]
  const foot = segments[`foot${side}`]
  const t = mean(halves(body, `thigh${side}`))
  const s = mean(halves(body, `shank${side}`))
  const { thigh: T, shank: S } = body.lengths
  const knee = (t * SHAPE.kneeOfThigh + s * SHAPE.kneeOfShank) / 2
  const ankle = s * SHAPE.ankle
  const front = unit(add(axisZ(thigh.rotation), axisZ(shank.rotation)), axisZ(thigh.rotation))
  return [
    volume(
      `thigh${side}`,
      part,
      side,
      [
        [placed(thigh, [0, -t * 0.05, 0]), t * SHAPE.hip],
        [placed(thigh, [out(side) * t * 0.05, -T * 0.36, t * 0.12]), t * SHAPE.midThigh],
        [joints[`knee${side}`], knee],
      ],
      { joins: ['pelvis', `shank${side}`, `kneecap${side}`], root: 1 },
    ),
    volume(
      `kneecap${side}`,
      part,
      side,
      [[addScaled(joints[`knee${side}`], front, knee * 0.42), knee * 0.62]],
      { joins: [`thigh${side}`, `shank${side}`], seam: 'soft', bias: knee * 0.5, pen: 0.8 },
    ),
    volume(
      `shank${side}`,
      part,
      side,
      [
        [joints[`knee${side}`], knee],
        [placed(shank, [out(side) * s * 0.06, -S * 0.27, -s * 0.34]), s * SHAPE.calf],
        [placed(shank, [0, -S * 0.62, -s * 0.06]), s * 0.8],
        [joints[`ankle${side}`], ankle],
      ],
      { joins: [`thigh${side}`, `foot${side}`, `kneecap${side}`] },
    ),
    ...footVolumes(body, { joints, foot, ankle, side, part }),
  ]
}

interface FootOf {
  readonly joints: ReachedPose['joints']
  readonly foot: Placement
  readonly ankle: number
  readonly side: Side
  readonly part: LimbId
}

function footVolumes(body: BodyModel, { joints, foot, ankle, side, part }: FootOf): Volume[] {
  const ball = joints[`ball${side}`]
  const toe = joints[`toe${side}`]
  const half = (body.lengths.foot * FOOT_BREADTH) / 2
  const left = axisX(foot.rotation)
  const up = axisY(foot.rotation)
  const low = Math.min(body.lengths.ankleHeight * 0.62, half * 0.8)
  const heelR = Math.max(low, half * 0.5)
  const forward = axisZ(foot.rotation)
  // The side of the toes that faces up, bent or straight.
  const dorsum = unit(cross(sub(toe, ball), left), up)
  const wedge = low * 0.7
  return [
    volume(
      `foot${side}`,
      part,
      side,
      [
        [joints[`ankle${side}`], ankle],
        [add(joints[`heel${side}`], add(scale(up, heelR), scale(forward, heelR * 0.9))), heelR],
        [add(ball, add(scale(up, low * 0.9), scale(left, half * 0.42))), low * 0.9],
        [add(ball, add(scale(up, low * 0.9), scale(left, -half * 0.42))), low * 0.9],
      ],
      { joins: [`shank${side}`, `toes${side}`] },
    ),
    volume(
      `toes${side}`,
      part,
      side,
      [
        [add(ball, add(scale(dorsum, low * 0.8), scale(left, half * 0.5))), low * 0.8],
        [add(ball, add(scale(dorsum, low * 0.8), scale(left, -half * 0.5))), low * 0.8],
        [add(lerp(ball, toe, 0.72), add(scale(dorsum, wedge), scale(left, half * 0.4))), wedge],
        [add(lerp(ball, toe, 0.72), add(scale(dorsum, wedge), scale(left, -half * 0.3))), wedge],
      ],
      { joins: [`foot${side}`], seam: 'soft' },
    ),
  ]
}
