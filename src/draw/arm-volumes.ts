import { HAND_HALF_BREADTH } from '../body/constants'
import type { BodyModel, Side } from '../body/model'
import type { LimbId } from '../document/contacts'
import type { ReachedPose } from '../pose/types'
import type { Vec3 } from '../space/vec'
import { SHAPE } from './constants'
import { halves, mean, out, placed, type Volume, volume } from './volume'

/** Upper arm with its shoulder cap, forearm, and a mitten: fist, or flat where it bears on its palm. */
export function armVolumes(body: BodyModel, pose: ReachedPose, side: Side): Volume[] {
  const { joints, segments } = pose
  const part: LimbId = `arm${side}`
  const upper = segments[`upperArm${side}`]
  const fore = segments[`forearm${side}`]
  const u = mean(halves(body, `upperArm${side}`))
  const f = mean(halves(body, `forearm${side}`))
  const elbow = (u * SHAPE.elbowOfUpperArm + f * SHAPE.elbowOfForearm) / 2
  const wrist = f * SHAPE.wrist
  const { upperArm: U, forearm: F } = body.lengths
  return [
    volume(
      `upperArm${side}`,
      part,
      side,
      [
        [placed(upper, [0, -u * 0.1, 0]), u * SHAPE.shoulder],
        [placed(upper, [0, -U * 0.5, u * 0.12]), u * SHAPE.midUpperArm],
        [joints[`elbow${side}`], elbow],
      ],
      { joins: [`forearm${side}`, 'yoke'], bias: u * 0.7 },
    ),
    volume(
      `forearm${side}`,
      part,
      side,
      [
        [joints[`elbow${side}`], elbow],
        [placed(fore, [out(side) * f * 0.1, -F * 0.25, f * 0.1]), f * SHAPE.midForearm],
        [joints[`wrist${side}`], wrist],
      ],
      { joins: [`upperArm${side}`, `palm${side}`], bias: u * 0.7 },
    ),
    ...handVolumes(body, pose, side, wrist, u * 0.7),
  ]
}

/** The hand's frame: +Y to the wrist, the palm to −Z, so that a left thumb lies to −X. */
function handVolumes(body: BodyModel, pose: ReachedPose, side: Side, wrist: number, bias: number): Volume[] {
  const part: LimbId = `arm${side}`
  const frame = pose.segments[`hand${side}`]
  const flat = pose.pads.some((pad) => pad.part === `hand${side}` && pad.kind === 'palm')
  const h = body.lengths.hand
  const breadth = (halves(body, `hand${side}`).x / 2) * HAND_HALF_BREADTH
  const thick = Math.max(halves(body, `hand${side}`).z * 1.1, breadth * 0.5)
  const at = (x: number, y: number, z: number): Vec3 =>
    placed(frame, [-out(side) * x * breadth, y * h, z * thick])
  const r = (k: number): number => k * thick
  const both = (x: number, y: number, z: number, k: number): (readonly [Vec3, number])[] => [
    [at(x, y, z), r(k)],
    [at(-x, y, z), r(k)],
  ]
  const inset = Math.max(0.2, 1 - thick / breadth)
  const fingers = flat
    ? [...both(inset * 0.95, -0.95, -0.1, 0.86), ...both(inset * 0.7, -1.75, -0.45, 0.62)]
    : [...both(inset, -0.98, -0.55, 1), ...both(inset * 0.9, -0.62, -1.35, 0.86)]
  return [
    volume(
      `palm${side}`,
      part,
      side,
      [[at(0, 0, 0), wrist], ...both(inset, -0.86, 0, 1), ...both(inset * 0.8, -0.3, -0.2, 0.95)],
      {
        joins: [`forearm${side}`, `fingers${side}`],
        bias,
      },
    ),
    volume(`fingers${side}`, part, side, fingers, {
      joins: [`palm${side}`],
      seam: 'soft',
      bias,
    }),
    volume(
      `thumb${side}`,
      part,
      side,
      flat
        ? [
            [at(0.75, -0.3, -0.2), r(0.6)],
            [at(1.5, -0.95, -0.5), r(0.48)],
          ]
        : [
            [at(0.8, -0.28, -0.35), r(0.62)],
            [at(1.08, -0.82, -0.95), r(0.52)],
          ],
      { joins: [`palm${side}`], seam: 'soft', bias: bias * 1.15, pen: 0.85 },
    ),
  ]
}
