import type { BodySpec } from '../body/spec'
import type { Ground, Take } from '../document/plan'
import type { Verdict, Weighing } from '../weigh/types'

/** What a take is weighed with. */
export interface TakeProblem {
  readonly body: BodySpec
  readonly ground: Ground
  /** m/s² */
  readonly gravity: number
  readonly take: Take
  /** The frame whose neighbourhood is wanted first. */
  readonly near: number
}

/** One frame of a take, weighed held still. */
export interface FrameWeighing {
  readonly frame: number
  readonly weighing: Weighing
  /** The verdict on the take's mover. */
  readonly verdict: Verdict
}

/** To the calculation thread. A newer request makes it drop the older one. */
export interface Request {
  readonly id: number
  readonly problem: TakeProblem
}

/** From the calculation thread: some frames of the request `id`, or why there are none. */
export type Answer =
  | { readonly id: number; readonly frames: readonly FrameWeighing[]; readonly done: boolean }
  | { readonly id: number; readonly failed: string }
