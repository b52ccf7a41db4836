import { loadsAt } from '../../pose/between'
import { centimetres } from '../../sheet/format'
import type { How } from '../../sheet/how'
import { bodyHows } from '../../sheet/how-body'
import { loadHows } from '../../sheet/how-loads'
import { motionHows } from '../../sheet/how-motion'
import { roomHows } from '../../sheet/how-room'
import type { Desk } from '../desk.svelte'
import { motionStateOf } from '../timing/motion-state.svelte'
import { factsOf } from './facts'

/** How the figures of the desk's body are worked out. */
export const bodyHowsOf = ({ plan, body, take, frame }: Desk): How[] =>
  bodyHows({
    plan,
    body,
    carried: loadsAt(take, frame).map(({ mass }) => mass),
    unit: centimetres(body.stature),
  })

/** An explanation as it stands now: what was changed in its card is in it. One that is gone stays as it was. */
export function howNow(desk: Desk, how: How): How {
  const facts = factsOf(desk)
  const { frame } = motionStateOf(desk)
  const moving = frame && how.id.startsWith('motion.') ? motionHows(facts, frame) : []
  const hows = [...loadHows(facts), ...roomHows(facts), ...bodyHowsOf(desk), ...moving]
  return hows.find(({ id }) => id === how.id) ?? how
}
