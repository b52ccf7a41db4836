import { centimetres } from '../../sheet/format'
import { type VerdictWords, verdictWords } from '../../sheet/words'
import type { Desk } from '../desk.svelte'

/** What is said of the desk's frame and mover: the headline and the sentences under it. */
export const verdictSaid = ({ mover, verdict, weighed, pose, plan, body }: Desk): VerdictWords =>
  verdictWords({
    mover,
    verdict,
    weighing: weighed.weighing,
    pose,
    gravity: plan.gravity,
    unit: centimetres(body.stature),
  })
