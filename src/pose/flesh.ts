import type { BodyModel, SegmentId } from '../body/model'
import { addScaled, distance, dot, lerp, sub, type Vec3 } from '../space/vec'
import { FLESH } from './constants'
import type { JointId, Joints, Limit } from './types'

/**
 * Parts that run into each other deeper than flesh gives: 15 % of the thinner one. Each part counts as
 * a capsule round its axis whose radius is twice the spread of its mass across.
 */
export function fleshLimits(body: BodyModel, joints: Joints): Limit[] {
  const limits: Limit[] = []
  for (const pair of PAIRS) {
    const [a, b] = [capsule(body, joints, pair.a), capsule(body, joints, pair.b)]
    const overlap = a.radius + b.radius - segmentDistance(a.from, a.to, b.from, b.to)
    const depth = overlap - FLESH * Math.min(a.radius, b.radius) * 2
    if (depth > 0.002 * body.stature)
      limits.push({
        code: 'flesh',
        limb: pair.limb,
        by: depth,
        text: `His ${pair.name} ${Math.max(1, Math.round(depth * 100))} cm.`,
      })
  }
  return limits
}

interface Part {
  readonly segment: SegmentId
  readonly from: JointId
  readonly to: JointId
  /** The share of the segment nearest its first joint that is left out: it belongs to the joint. */
  readonly skip: number
}

interface Pair {
  readonly a: Part
  readonly b: Part
  readonly limb: Limit['limb']
  readonly name: string
}

const part = (segment: SegmentId, from: JointId, to: JointId, skip = 0): Part => ({
  segment,
  from,
  to,
  skip,
})

const PAIRS: readonly Pair[] = (['L', 'R'] as const).flatMap((s): Pair[] => {
  const word = s === 'L' ? 'left' : 'right'
  const upperTrunk = part('upperTrunk', 'breastbone', 'neck', 0.1)
  return [
    {
      a: part(`thigh${s}`, `hip${s}`, `knee${s}`, 0.55),
      b: upperTrunk,
      limb: `leg${s}`,
      name: `${word} thigh runs into the chest by`,
    },
    {
      a: part(`forearm${s}`, `elbow${s}`, `wrist${s}`, 0.3),
      b: part('middleTrunk', 'waist', 'breastbone', 0.1),
      limb: `arm${s}`,
      name: `${word} forearm runs into the belly by`,
    },
    {
      a: part(`forearm${s}`, `elbow${s}`, `wrist${s}`, 0.2),
      b: part(`thigh${s}`, `hip${s}`, `knee${s}`, 0.1),
      limb: `arm${s}`,
      name: `${word} forearm runs into the thigh by`,
    },
    ...(s === 'L'
      ? [
          {
            a: part('thighL', 'hipL', 'kneeL', 0.5),
            b: part('thighR', 'hipR', 'kneeR', 0.5),
            limb: 'legL' as const,
            name: 'thighs run into each other by',
          },
          {
            a: part('shankL', 'kneeL', 'ankleL', 0.1),
            b: part('shankR', 'kneeR', 'ankleR', 0.1),
            limb: 'legL' as const,
            name: 'shins run into each other by',
          },
        ]
      : []),
  ]
})

function capsule(body: BodyModel, joints: Joints, { segment, from, to, skip }: Part) {
  const { spread } = body.segments[segment]
  return {
    radius: spread[0] + spread[2],
    from: lerp(joints[from], joints[to], skip),
    to: joints[to],
  }
}

/** Shortest distance between two line segments, m. */
function segmentDistance(p0: Vec3, p1: Vec3, q0: Vec3, q1: Vec3): number {
  const u = sub(p1, p0)
  const v = sub(q1, q0)
  const w = sub(p0, q0)
  const [a, b, c, d, e] = [dot(u, u), dot(u, v), dot(v, v), dot(u, w), dot(v, w)]
  const det = a * c - b * b
  const clamp = (x: number) => Math.max(0, Math.min(1, x))
  let s = det > 1e-12 * a * c ? clamp((b * e - c * d) / det) : 0
  const t = clamp(c > 0 ? (b * s + e) / c : 0)
  s = clamp(a > 0 ? (b * t - d) / a : 0)
  return distance(addScaled(p0, u, s), addScaled(q0, v, t))
}
