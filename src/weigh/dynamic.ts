import type { Mover } from '../document/plan'
import { norm, type Vec3 } from '../space/vec'
import { PUSH_NONE } from './constants'
import { type BothVerdicts, judgeBoth } from './dynamic-verdict'
import { dynamicsOf, type FrameDynamics, type MotionProblem } from './dynamics'
import type { Landing } from './landing'
import { inNormals } from './sliding'
import type { Body, Contact, Weighing } from './types'
import { type WeighOptions, weigh } from './weigh'

export type { BothVerdicts } from './dynamic-verdict'
export type { MotionProblem } from './dynamics'
export type { Landing } from './landing'

/**
 * Weighs a take in motion, one frame at each step: first every frame's loads and push, then, where asked for,
 * every frame again with ranges, region and verdicts. Frames come outwards from `near`. No step takes longer
 * than a frame does, so that a thread can listen between them; answers are the same in any order.
 * Throws a TypeError where a pose isn't finite.
 */
export function* weighMotion(problem: MotionProblem, options: MotionOptions = {}): Generator<DynamicFrame> {
  const last = problem.take.length - 1
  const { from = 0, to = last, near = from, ranges = true, region = true, mover = null } = options
  const dynamics = dynamicsOf(problem)
  for (const frame of outwards(near, from, to))
    yield weighFrame(problem, dynamics.at(frame), { ranges: false, region: false, mover: null })
  if (!ranges && !region && mover === null) return
  for (const frame of outwards(near, from, to))
    yield weighFrame(problem, dynamics.at(frame), { ranges, region, mover })
}

export interface MotionOptions extends WeighOptions {
  /** First and last frame, both weighed; the whole take where absent. */
  readonly from?: number
  readonly to?: number
  /** The frame whose neighbourhood is wanted first; the first where absent. */
  readonly near?: number
  /** The limb to be judged, in motion and held still; null or absent for no verdicts. */
  readonly mover?: Mover | null
}

/** One frame weighed in motion. Plain data. */
export interface DynamicFrame {
  readonly frame: number
  /** As they were weighed; one that slides has what it can give for its normal, and no friction. */
  readonly contacts: readonly Contact[]
  /** Mass, centre and the wrench that the contacts must give: force (N), moment (N·m) about the centre. */
  readonly body: Body & { readonly force: Vec3; readonly moment: Vec3 }
  /** Of the centre of mass, mean over the frame, m/s. */
  readonly velocity: Vec3
  /** Loads are normal loads, also of what slides. */
  readonly weighing: Weighing
  readonly push: SaidPush
  readonly drags: readonly Drag[]
  readonly landing: Landing | null
  /** Whether the mover can be lifted, in motion and held still; null where nobody asked. */
  readonly verdict: BothVerdicts | null
}

/** The push from nowhere as it is said and drawn. */
export interface SaidPush {
  /** N */
  readonly newtons: number
  /** Its size, moment included, as a weight, kg; 0 where there is none. */
  readonly kilograms: number
  /** Where it is drawn: at the centre of mass, world, m. */
  readonly at: Vec3
}

/** What rubs under a contact that slides. */
export interface Drag {
  readonly id: string
  readonly limb: string
  /** On the body, against the slide, N. */
  readonly force: number
  /** Of the pad along the surface, world, m/s. */
  readonly velocity: Vec3
  /** Way slid within this frame, m. */
  readonly moved: number
}

/** The way a contact has slid over these frames, m: what one looks at a drag by. */
export const slidOver = (frames: readonly DynamicFrame[], id: string): number =>
  frames.reduce((sum, { drags }) => sum + (drags.find((drag) => drag.id === id)?.moved ?? 0), 0)

/** Weighs one frame; `dynamics` is `dynamicsOf(problem).at(frame)`. */
export function weighFrame(
  problem: MotionProblem,
  dynamics: FrameDynamics,
  options: WeighOptions & { readonly mover: Mover | null },
): DynamicFrame {
  const { frame, contacts, slides, body, velocity, landing } = dynamics
  const raw = weigh(contacts, body, options)
  const weighing = inNormals(raw, slides)
  const { push } = weighing
  const newtons = norm(push.force)
  return {
    frame,
    contacts,
    body,
    velocity,
    weighing,
    push: {
      newtons,
      kilograms: push.size < PUSH_NONE ? 0 : push.size * body.mass,
      at: body.com,
    },
    drags: contacts.flatMap(({ id, limb }, c): Drag[] => {
      const slide = slides[c]
      if (!slide) return []
      const load = weighing.contacts[c]?.load ?? 0
      // Sideways over normal part of what it gives.
      const force = load * Math.sqrt(1 / slide.part ** 2 - 1)
      return [{ id, limb, force, velocity: slide.velocity, moved: slide.speed / problem.fps }]
    }),
    landing,
    verdict: options.mover ? judgeBoth(problem, dynamics, raw, weighing, options.mover) : null,
  }
}

/** from … to, beginning at `near` and going on to the nearest not yet named. */
function* outwards(near: number, from: number, to: number): Generator<number> {
  const start = Math.min(to, Math.max(from, Math.round(near)))
  for (let away = 0; away <= to - from; away++) {
    if (start + away <= to) yield start + away
    if (away > 0 && start - away >= from) yield start - away
  }
}
