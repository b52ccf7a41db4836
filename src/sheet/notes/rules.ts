import { accentsTogether } from './accents-together'
import { beyondReach } from './beyond-reach'
import { evenlySlow } from './evenly-slow'
import { handIgnoresForearm } from './hand-ignores-forearm'
import { hangsOffBalance } from './hangs-off-balance'
import { headRides } from './head-rides'
import { hipsIgnoreStep } from './hips-ignore-step'
import { landsWithoutGive } from './lands-without-give'
import { leansFromWaist } from './leans-from-waist'
import { liftsTooEarly } from './lifts-too-early'
import { limbPops } from './limb-pops'
import { noHipDrop } from './no-hip-drop'
import { partsOverlap } from './parts-overlap'
import { pushedFromNowhere } from './pushed-from-nowhere'
import { readsSmall } from './reads-small'
import { slidesUnderLoad } from './slides-under-load'
import { startsTogether } from './starts-together'
import { stopsDead } from './stops-dead'
import { turnsDoesntTravel } from './turns-doesnt-travel'
import type { Rule } from './types'

/** Every rule that a take is read by, in the order of a pass. */
export const RULES: readonly Rule[] = [
  slidesUnderLoad,
  liftsTooEarly,
  hangsOffBalance,
  beyondReach,
  turnsDoesntTravel,
  leansFromWaist,
  hipsIgnoreStep,
  noHipDrop,
  landsWithoutGive,
  pushedFromNowhere,
  readsSmall,
  startsTogether,
  stopsDead,
  evenlySlow,
  headRides,
  handIgnoresForearm,
  partsOverlap,
  limbPops,
  accentsTogether,
]
