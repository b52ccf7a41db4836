import type { BodyModel } from '../body/model'
import type { ContactSpan } from '../document/contacts'
import type { Ground, Stiffness, Take } from '../document/plan'
import type { Motion } from '../pose/between'
import type { PosePad, ReachedPose } from '../pose/types'
import { add, scale, sub, type Vec3, ZERO } from '../space/vec'
import { MOMENTUM_STEP } from './dynamic-constants'
import { type Landing, landingOf, type Touchdown, touchdown } from './landing'
import { CENTRE, MOMENTUM, type MotionState, SPIN, stateBetween, together } from './momentum'
import { contactOf } from './pose'
import { type Slide, slideOf, slidingContact } from './sliding'
import { lasting, type Touch, takenUp, takeUpTime, touchesOf } from './take-up'
import type { Body, Contact } from './types'

/** A take in motion. */
export interface MotionProblem {
  readonly body: BodyModel
  readonly ground: Ground
  /** m/s² */
  readonly gravity: number
  /** The plan's own stiffness of pads. */
  readonly stiffness?: Stiffness | undefined
  readonly take: Pick<Take, 'length' | 'contacts' | 'loads'>
  readonly motion: Pick<Motion, 'poseAt'>
  /** Frames a second. */
  readonly fps: number
  /** Seconds between the two poses that a momentum is taken from; MOMENTUM_STEP where absent. */
  readonly momentumStep?: number
}

/** What a frame of a motion asks of its contacts: everything but the answer. */
export interface FrameDynamics {
  readonly frame: number
  readonly pose: ReachedPose
  /** As they are weighed: stiffness by how far they are taken up, a sliding one as what it can give. */
  readonly contacts: readonly Contact[]
  /** For each contact how it slides; null where it holds. */
  readonly slides: readonly (Slide | null)[]
  /**
   * Mass and centre with carried loads as far as they are taken up; force (N) and moment (N·m) about the
   * centre that the contacts must give, as means over the frame, landings left out.
   */
  readonly body: Body & { readonly force: Vec3; readonly moment: Vec3 }
  /** Level and upward velocity of the centre of mass, mean over the frame, m/s. */
  readonly velocity: Vec3
  readonly landing: Landing | null
}

export interface Dynamics {
  /** Frames are whole numbers from 0 to the take's length − 1. */
  at(frame: number): FrameDynamics
}

/**
 * Reads the dynamics of a motion, frame by frame in any order; what neighbours share is made once.
 *
 * The wrench of a frame is the mean over the time from half a frame before it to half a frame after:
 * F = m g ŷ + (p₊ − p₋) · fps, and likewise the change of the angular momentum about the moving centre of
 * mass. A motion stands still outside the take. Where contacts begin, the momentum may jump: that is the
 * landing, and no part of the wrench. A load between touch and full weight counts as far as it is taken up,
 * with its weight and with its inertia alike, so that nothing jumps when it is wholly carried.
 */
export function dynamicsOf(problem: MotionProblem, touches: Touches = touchesOf(problem.take)): Dynamics {
  return new MotionDynamics(problem, touches)
}

/** Every contact's touch, by contact id; a retimed take keeps those of the take it comes from. */
type Touches = ReadonlyMap<string, Touch>

class MotionDynamics implements Dynamics {
  private readonly last: number
  /** Distance of the two poses that a momentum is taken from, frames. */
  private readonly step: number
  private readonly takeUp: number
  private readonly carried
  private readonly bodyMass: number
  private readonly spans: ReadonlyMap<string, ContactSpan>
  private readonly edges: (Edge | undefined)[] = []
  private readonly touchdowns = new Map<number, Touchdown>()

  constructor(
    private readonly problem: MotionProblem,
    private readonly touches: Touches,
  ) {
    const { body, take, fps, momentumStep = MOMENTUM_STEP } = problem
    this.last = take.length - 1
    this.step = fps * momentumStep
    this.takeUp = takeUpTime(body.stature)
    this.carried = take.loads.map(({ from, to }) => lasting(from, to, take.length))
    this.bodyMass = Object.values(body.segments).reduce((sum, { mass }) => sum + mass, 0)
    this.spans = new Map(take.contacts.map((span) => [span.id, span]))
  }

  at(frame: number): FrameDynamics {
    const { body, gravity, fps } = this.problem
    const pose = this.poseAt(frame)
    const borne = this.borneAt(frame)
    const [before, after] = [this.edge(frame), this.edge(frame + 1)]
    const a = together(before.state, this.bodyMass, borne)
    const b = together(after.state, this.bodyMass, borne)
    const landing = this.landingAt(frame, borne)
    const { mass, com } = this.whole(pose, borne)
    const force = change(a, b, MOMENTUM, landing?.impulse ?? ZERO, fps)
    const contacts: Contact[] = []
    const slides: (Slide | null)[] = []
    for (const pad of pose.pads) {
      const span = this.spans.get(pad.id)
      const touch = this.touches.get(pad.id)
      const plain = contactOf(this.problem.ground, pad, this.problem.stiffness)
      const taken = touch ? takenUp(touch, frame, fps, this.takeUp) : 1
      const contact = { ...plain, stiffness: plain.stiffness * taken }
      const slide = slideOf(
        contact,
        this.padVelocity(pad, before, after),
        span?.state === 'sliding',
        body.stature,
      )
      slides.push(slide)
      contacts.push(slide ? slidingContact(contact, slide) : contact)
    }
    return {
      frame,
      pose,
      contacts,
      slides,
      body: {
        mass,
        com,
        stature: body.stature,
        gravity,
        force: [force[0], force[1] + mass * gravity, force[2]],
        moment: change(a, b, SPIN, landing?.spin ?? ZERO, fps),
      },
      velocity: change(a, b, CENTRE, ZERO, fps),
      landing,
    }
  }

  private readonly poseAt = (frame: number): ReachedPose =>
    this.problem.motion.poseAt(Math.max(0, Math.min(this.last, frame)))

  /** The moment half a frame before a frame. */
  private edge(frame: number): Edge {
    const known = this.edges[frame]
    if (known) return known
    const { body, take, fps } = this.problem
    const before = this.poseAt(frame - 0.5 - this.step / 2)
    const after = this.poseAt(frame - 0.5 + this.step / 2)
    const state = stateBetween(body, take.loads, before, after, this.step / fps)
    const made = { state, pads: after.bearings ?? after.pads }
    this.edges[frame] = made
    return made
  }

  /** Mass of each load that counts at a frame, kg. */
  private borneAt(frame: number): number[] {
    const { take, fps } = this.problem
    return take.loads.map(({ mass }, l) => {
      const carried = this.carried[l]
      return carried ? mass * takenUp(carried, frame, fps, this.takeUp) : 0
    })
  }

  private whole(pose: ReachedPose, borne: readonly number[]): { mass: number; com: Vec3 } {
    const { body, take } = this.problem
    const mass = borne.reduce((sum, m) => sum + m, this.bodyMass)
    if (take.loads.length === 0 || Math.abs(mass - pose.mass) <= SAME * mass)
      return { mass: pose.mass, com: pose.com }
    const state = together(stateBetween(body, take.loads, pose, pose, 1), this.bodyMass, borne)
    return { mass, com: [state[CENTRE], state[CENTRE + 1], state[CENTRE + 2]] as unknown as Vec3 }
  }

  /** Mean over the frame, or over what of it the pad is there for. */
  private padVelocity(pad: PosePad, before: Edge, after: Edge): Vec3 {
    const { fps } = this.problem
    const a = before.pads.find(({ id }) => id === pad.id)?.centre
    const b = after.pads.find(({ id }) => id === pad.id)?.centre
    const frames = (a ? 0.5 : 0) + (b ? 0.5 : 0)
    if (frames === 0) return ZERO
    return scale(sub(b ?? pad.centre, a ?? pad.centre), fps / frames)
  }

  private landingAt(frame: number, borne: readonly number[]): Landing | null {
    const begun = this.problem.take.contacts.filter(
      ({ id, from }) => this.touches.get(id)?.from === from && from > frame - 0.5 && from <= frame + 0.5,
    )
    if (begun.length === 0) return null
    const moments = [...new Set(begun.map(({ from }) => from))]
    const landings = moments.map((moment) => landingOf(this.touchdownAt(moment, begun), this.bodyMass, borne))
    return {
      impulse: landings.reduce((sum, { impulse }) => add(sum, impulse), ZERO),
      spin: landings.reduce((sum, { spin }) => add(sum, spin), ZERO),
      parts: landings.flatMap(({ parts }) => parts),
    }
  }

  private touchdownAt(moment: number, begun: readonly ContactSpan[]): Touchdown {
    const known = this.touchdowns.get(moment)
    if (known) return known
    const { body, take, fps } = this.problem
    const spans = begun.filter(({ from }) => from === moment)
    const made = touchdown(body, take.loads, this.poseAt, moment, this.step / 2, fps, spans)
    this.touchdowns.set(moment, made)
    return made
  }
}

/** How fast three entries of a state change over a frame, a jump left out. */
const change = (a: Float64Array, b: Float64Array, at: number, jump: Vec3, fps: number): Vec3 => [
  ((b[at] as number) - (a[at] as number) - jump[0]) * fps,
  ((b[at + 1] as number) - (a[at + 1] as number) - jump[1]) * fps,
  ((b[at + 2] as number) - (a[at + 2] as number) - jump[2]) * fps,
]

interface Edge {
  readonly state: MotionState
  readonly pads: readonly Pick<PosePad, 'id' | 'centre'>[]
}

/** Masses that differ by less than this share are one. */
const SAME = 1e-12
