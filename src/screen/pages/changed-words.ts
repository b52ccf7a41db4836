import type { Plan } from '../../document/plan'
import type { ReachedPose } from '../../pose/types'
import { centimetres, massText, neededText, percentText, statureText } from '../../sheet/format'
import type { SheetLimb } from '../../sheet/types'
import type { Verdict, Weighing } from '../../weigh/types'

/** A body in the open frame, as it is compared before and after a change. */
export interface BodyState {
  readonly plan: Plan
  readonly pose: ReachedPose
  readonly weighing: Weighing
  readonly verdict: Verdict
}

/**
 * What another body changes in the open frame: size and mass, what each limb carries, whether and when the
 * mover is empty. Each line 'what: was → is'; none where nothing is different.
 */
export function changedWords(was: BodyState, is: BodyState, limbs: readonly SheetLimb[]): string[] {
  const line = (what: string, before: string, after: string) =>
    before === after ? '' : `${what}: ${before} → ${after}`
  const carried = ({ weighing, pose }: BodyState, id: string) => {
    const share = weighing.limbs.find((limb) => limb.id === id)?.vertical
    if (share === undefined) return { share: 'off', mass: 'off' }
    return { share: percentText(share), mass: massText(share * pose.mass, pose.mass) }
  }
  const limb = ({ id, title }: SheetLimb) => {
    const [before, after] = [carried(was, id), carried(is, id)]
    if (before.share === after.share) return line(`${title}, ${after.share}`, before.mass, after.mass)
    return line(title, `${before.share}, ${before.mass}`, `${after.share}, ${after.mass}`)
  }
  const way = ({ verdict, plan }: BodyState) =>
    verdict.empty === null ? 'nowhere' : neededText(verdict.empty.distance, centimetres(plan.body.stature))
  return [
    line('height', statureText(was.plan.body.stature), statureText(is.plan.body.stature)),
    line('mass', mass(was), mass(is)),
    ...limbs.map(limb),
    line('verdict', was.verdict.kind, is.verdict.kind),
    is.verdict.kind === 'off' ? '' : line('weight to move', way(was), way(is)),
  ].filter(Boolean)
}

const mass = ({ plan }: BodyState) => massText(plan.body.mass, plan.body.mass)
