import { ADMISSIBLE_PUSH } from '../shift/constants'
import type { LeastFrames } from '../shift/least-frames'
import type { DynamicFrame } from '../weigh/dynamic'
import { MOMENTUM_STEP } from '../weigh/dynamic-constants'
import { massText, number, percentText, SPACE } from './format'
import { force, type How, type HowFacts, type HowInput, input } from './how'
import { loadHows } from './how-loads'
import { roomHows } from './how-room'
import { secondsText } from './span-words'

/**
 * How the figures of a frame in motion are worked out: as those of the same pose held still, by the forces that the
 * motion asks for. Their ids are those of the still figures behind 'motion.'; the mover's verdict is the only one.
 * @param facts of the same frame, held still
 */
export function motionHows(facts: HowFacts, frame: DynamicFrame): How[] {
  const { contacts, body, weighing } = frame
  const moving: HowFacts = {
    ...facts,
    weighed: { ...facts.weighed, contacts, body, weighing },
    verdict: frame.verdict?.moving ?? facts.verdict,
  }
  return [...loadHows(moving), ...roomHows(moving)]
    .filter(({ id }) => !/^verdict\.|^empty$|^safe$/.test(id) && (id !== 'verdict' || frame.verdict !== null))
    .map((how) => inMotion(how, frame))
}

function inMotion(how: How, { body, push }: DynamicFrame): How {
  const { gravity, mass } = body
  const [x, up, z] = body.force
  const needs = `In motion the pads must press up with ${massText(up / gravity, mass)} and sideways with ${massText(Math.hypot(x, z) / gravity, mass)}: his weight, and what changes his momentum, as a mean over the frame.`
  const inputs = how.inputs.map(
    (one): HowInput =>
      one.symbol === 'm' ? force('m', 'what the pads must press up with in motion', up, gravity) : one,
  )
  const result =
    how.id === 'push' ? { value: push.kilograms, text: massText(push.kilograms, mass) } : how.result
  return {
    ...how,
    id: `motion.${how.id}`,
    title: `${how.title}, in motion`,
    inputs,
    result,
    words: [needs, ...how.words],
    source: `${how.source} ${MEAN}`,
  }
}

const MEAN = `Momentum before and after the frame from poses ${number(1000 * MOMENTUM_STEP, 1)}${SPACE}ms apart: Newton’s second law over the frame’s time.`

/** How the time that a span needs is worked out; null where no even pace will do or nothing moves. */
export function leastHow(least: LeastFrames, fps: number): How | null {
  if (!least.ok || least.limit === null || least.seconds === 0) return null
  return {
    id: 'least.seconds',
    title: 'The least time of this curve',
    formula: 't = n ÷ (f · √(q))',
    inputs: [
      input('n', 'frames it was tried at', least.frames, 'frames'),
      input('f', 'frames a second', fps, ''),
      input('q', 'how much harder the limiting frame could be pushed', least.hardest, ''),
    ],
    result: { value: least.seconds, text: secondsText(least.seconds) },
    words: [
      'Played in 1/σ of the time, every force that changes his momentum is σ² times as great; his weight stays. For each frame a linear programme finds the greatest σ² that his pads can give, and the frame with the smallest limits.',
      `A push from nowhere of up to ${percentText(ADMISSIBLE_PUSH)} of his weight passes. The frames are the next whole number at which every frame passes.`,
      'The best any curve could do is that of a weight on a stick: pushed off from the hind edge of what he stands on, caught at the fore edge.',
    ],
    source:
      'Newton’s second law; friction by Coulomb. The weight on a stick: inverted pendulum, capture point, Pratt et al. (2006). What passes is ours.',
  }
}
