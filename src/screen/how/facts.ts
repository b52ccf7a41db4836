import { centimetres } from '../../sheet/format'
import type { HowFacts } from '../../sheet/how'
import type { Desk } from '../desk.svelte'

/** What the figures of the desk's frame come from. */
export const factsOf = ({ plan, take, body, pose, weighed, verdict }: Desk): HowFacts => ({
  plan,
  take,
  body,
  pose,
  weighed,
  verdict,
  unit: centimetres(body.stature),
})
