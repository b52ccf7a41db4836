import type { BodyModel, SegmentId } from '../body/model'
import { type ContactSpan, partKind, sideOf } from '../document/contacts'
import type { CarriedLoad } from '../document/plan'
import type { ReachedPose } from '../pose/types'
import { apply, transpose } from '../space/rotation'
import { add, dot, norm, sub, type Vec3 } from '../space/vec'
import { JUST_BEFORE } from './dynamic-constants'
import { MOMENTUM, type MotionState, SPIN, stateAtEnd, together } from './momentum'

/** What the ground takes from a body in the instant when parts of it come to rest there. */
export interface Landing {
  /** Change of the whole's momentum, N·s, and of its angular momentum about the centre of mass, N·m·s. */
  readonly impulse: Vec3
  readonly spin: Vec3
  readonly parts: readonly LandingPart[]
}

export interface LandingPart {
  /** Contact. */
  readonly id: string
  readonly limb: string
  /** Of the middle of its pad just before the touch, world, m/s. */
  readonly velocity: Vec3
  /** Into the surface, m/s. */
  readonly speed: number
}

/** Just before and just after a touch. */
export interface Touchdown {
  readonly before: MotionState
  readonly after: MotionState
  readonly parts: readonly LandingPart[]
}

/**
 * The momenta on both sides of a moment at which contacts begin. Poses are asked for at two steps to either
 * side of it.
 * @param at frame, fractions allowed
 * @param step frames
 */
export function touchdown(
  body: BodyModel,
  loads: readonly CarriedLoad[],
  poseAt: (frame: number) => ReachedPose,
  at: number,
  step: number,
  fps: number,
  begun: readonly ContactSpan[],
): Touchdown {
  const sideways = (start: number, by: number) =>
    [poseAt(start), poseAt(start + by), poseAt(start + 2 * by)] as const
  const air = sideways(at - JUST_BEFORE, -step)
  const ground = sideways(at, step)
  const seconds = step / fps
  return {
    before: stateAtEnd(body, loads, air, -seconds),
    after: stateAtEnd(body, loads, ground, seconds),
    parts: begun.flatMap((span) => partOf(span, air, ground[0], seconds)),
  }
}

/** The jump of the whole's momentum, with the mass of each load that counts, kg. */
export function landingOf(
  { before, after, parts }: Touchdown,
  mass: number,
  borne: ArrayLike<number>,
): Landing {
  const [a, b] = [together(before, mass, borne), together(after, mass, borne)]
  const jump = (at: number): Vec3 =>
    [0, 1, 2].map((i) => (b[at + i] as number) - (a[at + i] as number)) as unknown as Vec3
  return { impulse: jump(MOMENTUM), spin: jump(SPIN), parts }
}

/** The pad is followed back into the air as if it were fixed to the segment that bears it. */
function partOf(
  span: ContactSpan,
  air: readonly ReachedPose[],
  ground: ReachedPose,
  seconds: number,
): LandingPart[] {
  const pad = ground.pads.find(({ id }) => id === span.id)
  if (!pad) return []
  const segment = BEARERS[partKind(span.part)]
  const id = `${segment}${sideOf(span.part)}` as SegmentId
  const held = ground.segments[id]
  const local = apply(transpose(held.rotation), sub(pad.centre, held.origin))
  const [here, next, far] = air.map((pose) =>
    add(pose.segments[id].origin, apply(pose.segments[id].rotation, local)),
  ) as [Vec3, Vec3, Vec3]
  const velocity = [0, 1, 2].map(
    (i) => ((here[i] as number) * 3 - (next[i] as number) * 4 + (far[i] as number)) / (2 * seconds),
  ) as unknown as Vec3
  const speed = Math.max(0, -dot(velocity, pad.normal) / norm(pad.normal))
  return [{ id: span.id, limb: pad.limb, velocity, speed }]
}

const BEARERS = { knee: 'shank', foot: 'foot', hand: 'hand' } as const
