import type { CurveBand } from '../../draw/curves'
import { sheetLimbs } from '../../sheet/limbs'
import type { Weighing } from '../../weigh/types'
import type { Desk } from '../desk.svelte'
import { motionStateOf } from './motion-state.svelte'

/** The loads of the desk's take as curves, in motion and held still, and under them the push from nowhere. */
export function curveBands(desk: Desk): CurveBand[] {
  const { take, takeWeighings } = desk
  const { weighings } = motionStateOf(desk)
  const frames = Array.from({ length: take.length }, (_, frame) => frame)
  const still = takeWeighings?.frames
  const moving = weighings?.fresh ? weighings.frames : undefined
  const share = (weighing: Weighing | undefined, limb: string): number | null =>
    weighing ? (weighing.limbs.find(({ id }) => id === limb)?.share ?? 0) : null
  const bands = sheetLimbs(take).map(({ id, title }) =>
    band(
      title,
      frames.map((frame) => share(moving?.get(frame)?.weighing, id)),
      frames.map((frame) => share(still?.get(frame)?.weighing, id)),
      'weight',
    ),
  )
  const push = frames.map((frame) => moving?.get(frame)?.weighing.push.size ?? null)
  return [
    ...bands,
    band(
      'push',
      push,
      push.map(() => null),
      'ink',
    ),
  ]
}

const band = (
  name: string,
  motion: readonly (number | null)[],
  still: readonly (number | null)[],
  ink: CurveBand['ink'],
): CurveBand => ({
  name,
  motion,
  still,
  ink,
  most: Math.max(0, ...motion.map((value) => value ?? 0), ...still.map((value) => value ?? 0)),
})
