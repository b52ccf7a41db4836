import { sideOf } from '../../document/contacts'
import type { CarriedLoad } from '../../document/plan'
import type { Scene, Transfer } from './types'

/** What is carried once a transfer has touched: less what it sets down, more what it picks up. */
export const carriedAfter = ({ loads, picks }: Scene, transfer: Transfer): CarriedLoad[] => [
  ...loads.filter((load) => !setsDown(transfer, load)),
  ...picks.filter((load) => picksUp(transfer, load)),
]

export const setsDown = ({ kind, limb }: Transfer, load: CarriedLoad): boolean =>
  kind === 'set-down' && isHeldBy(load, limb)

/** A hand that reaches picks up what it carries later in the take. */
export const picksUp = ({ kind, limb, reach }: Transfer, load: CarriedLoad): boolean =>
  kind === 'move' && reach !== null && isHeldBy(load, limb)

const isHeldBy = ({ on }: CarriedLoad, limb: Transfer['limb']): boolean =>
  limb.startsWith('arm') && (on === 'hands' || on === `hand${sideOf(limb)}`)
