import type { LimbId } from '../../document/contacts'
import { sideOf } from '../../document/contacts'
import type { Plan } from '../../document/plan'
import type { Limit, ReachedPose } from '../../pose/types'
import { massText, percentText } from '../../sheet/format'
import { limbNoun } from '../../sheet/limbs'
import type { VerdictWords } from '../../sheet/words'
import type { Weighing } from '../../weigh/types'

/** The weighed pose of a frame in sentences, for people who cannot see the drawing. */
export function describeStage(
  plan: Plan,
  frame: number,
  pose: ReachedPose,
  weighing: Weighing,
  verdict: VerdictWords,
): string {
  const loads = weighing.limbs.map(({ id, vertical }) => {
    const kinds = new Set(pose.pads.filter((pad) => pad.limb === id).map((pad) => pad.kind))
    const name = `${sideOf(id as LimbId) === 'L' ? 'left' : 'right'} ${limbNoun(id as LimbId, kinds)}`
    return `${name} ${percentText(vertical)}, ${massText(vertical * pose.mass, pose.mass)}`
  })
  return [
    `Frame ${plan.firstFrame + frame}.`,
    verdict.headline,
    ...verdict.sentences,
    loads.length > 0 ? `${loads.join('; ')}.` : 'Nothing touches.',
    ...limitsIn(pose.limits),
  ].join(' ')
}

/** What stops the asked pose, each sentence once. */
export const limitsIn = (limits: readonly Limit[]): string[] => [...new Set(limits.map(({ text }) => text))]
