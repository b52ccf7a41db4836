import type { Mover } from '../document/plan'
import { COULD_LET_GO, EMPTY_SHARE } from './constants'
import type { FrameDynamics, MotionProblem } from './dynamics'
import { contactOf, moverPads } from './pose'
import { normalRange, partsOf, type Slide } from './sliding'
import type { Body, Contact, Verdict, Weighing } from './types'
import { judge } from './verdict'
import { weigh } from './weigh'
import { system } from './workspace'

/**
 * Whether a mover can be lifted in motion, and whether it could be if the body held still in the same pose.
 * Must follow the weighing at once: the verdict in motion is found from its split.
 * @param raw what `weigh` gave for the frame's contacts
 * @param weighing the same in normal loads
 */
export function judgeBoth(
  { ground, gravity, stiffness }: MotionProblem,
  { pose, contacts, slides, body }: FrameDynamics,
  raw: Weighing,
  weighing: Weighing,
  mover: Mover,
): BothVerdicts {
  const ids = moverPads(pose.pads, mover)
  const moving = inNormalLoads(judge(contacts, body, raw, ids), contacts, slides, weighing, ids)
  const plain = pose.pads.map((pad) => contactOf(ground, pad, stiffness))
  const rest: Body = { mass: pose.mass, com: pose.com, stature: body.stature, gravity }
  const still = judge(plain, rest, weigh(plain, rest, { ranges: false, region: false }), ids)
  const motion = held(still) === held(moving) ? 'nothing' : held(still) ? 'frees' : 'holds'
  return { moving, still, motion }
}

export interface BothVerdicts {
  readonly moving: Verdict
  readonly still: Verdict
  /**
   * What the motion does to it: frees a mover that still poses keep, as when the body is thrown across; holds
   * one that still poses free; or nothing.
   */
  readonly motion: 'frees' | 'holds' | 'nothing'
}

const held = ({ kind }: Verdict) => kind === 'pinned' || kind === 'on the edge'

/** The same verdict where the mover slides: by its normal load. */
function inNormalLoads(
  verdict: Verdict,
  contacts: readonly Contact[],
  slides: readonly (Slide | null)[],
  weighing: Weighing,
  ids: ReadonlySet<string>,
): Verdict {
  const group = Uint8Array.from(contacts, ({ id }) => (ids.has(id) ? 1 : 0))
  if (!slides.some((slide, c) => slide && group[c] === 1)) return verdict
  const load = weighing.contacts.reduce((sum, one, c) => (group[c] === 1 ? sum + one.load : sum), 0)
  const least = Math.min(load, normalRange(group, partsOf(slides))[0] * system.weight)
  return { ...verdict, kind: kindOf(load / system.weight, least / system.weight), load, least }
}

function kindOf(load: number, least: number): Verdict['kind'] {
  if (load < EMPTY_SHARE) return 'empty'
  if (least < COULD_LET_GO) return 'could let go'
  return least < EMPTY_SHARE ? 'on the edge' : 'pinned'
}
