import type { Take } from '../../document/plan'
import type { MotionProblem } from '../../weigh/dynamics'
import { COARSE } from './constants'
import type { Keys } from './key-pose'
import { type Layout, timeScale } from './take'
import type { Scene } from './types'

/** A take in motion, whole. */
export type Problem = MotionProblem & { readonly take: Take }

/** Frames of a coarse look: COARSE seconds, so that a body of any size takes as many looks. */
export const coarseStep = (scene: Scene): number =>
  Math.max(1, Math.round(COARSE * timeScale(scene) * scene.fps))

/** The same motion in frames that are so many times as long; its poses are those of whole frames. */
export function coarser(problem: Problem, step: number): MotionProblem {
  const { take, motion, fps } = problem
  const span = <T extends { readonly from: number; readonly to: number }>(one: T): T => ({
    ...one,
    from: one.from / step,
    to: one.to / step,
  })
  return {
    ...problem,
    take: {
      length: (take.length - 1) / step + 1,
      contacts: take.contacts.map(span),
      loads: take.loads.map(span),
    },
    motion: { poseAt: (frame) => motion.poseAt(Math.round(frame * step * 1e6) / 1e6) },
    fps: fps / step,
    momentumStep: step / fps,
  }
}

/** Whether something touches down close by: a landing is read from the frames themselves. */
export const lands = ({ frames }: Layout, chain: readonly Keys[], frame: number, step: number): boolean =>
  chain.some(
    ({ touches }, s) => Math.abs((frames[s]?.[touches] ?? Number.NEGATIVE_INFINITY) - frame) < 1.5 * step,
  )
