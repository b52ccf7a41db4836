import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { ChannelId } from '../../src/document/channels'
import type { Plan, Take } from '../../src/document/plan'
import { addContact, trimContact } from '../../src/plan/edit/contacts'
import { deleteKeys, moveKeys, setControls } from '../../src/plan/edit/keys'
import { renameTake } from '../../src/plan/edit/takes'
import { keyedFramesOf } from '../../src/plan/key-poses'
import { writePlan } from '../../src/plan/write'
import { radians } from '../../src/space/units'
import { capstone } from './capstone'

/**
 * Writes static/capstone-bad.json: the demo as somebody might animate it first, who poses by eye. The hips
 * turn and never go across, so the left leg leaves with the weight still on it and he hangs there; the right
 * knee slips under him; everything lands on the last key at once, the head bolted to the chest.
 * Run with `npx tsx tests/support/capstone-bad.ts`.
 */
export function capstoneBad(): Plan {
  let plan = capstone()
  const take = (plan.takes[0] as Take).id
  plan = renameTake({ ...plan, title: 'Capstone, first try' }, take, 'First try')
  const frames = keyedFramesOf(plan.takes[0] as Take).map(({ frame }) => frame)
  for (const { key, set } of FAULTS) plan = setControls(plan, take, frames[key] as number, set)
  for (const key of SETTLE) plan = deleteKeys(plan, take, frames[key] as number)
  const last = frames[WEIGHT] as number
  plan = moveKeys(plan, take, last, last - HURRIED)
  return slip(plan, take, (frames[SHARE] as number) + SLIPS)
}

/** The demo's key poses in their order: start, press, lean, sink, lift, travel, touch, share, hands, weight, settle. */
const [LEAN, SINK, LIFT, TRAVEL, TOUCH, SHARE, HANDS, WEIGHT] = [2, 3, 4, 5, 6, 7, 8, 9] as const
const SETTLE = [10, 11] as const

/** What the first try has in place of the lean. */
const FAULTS: readonly { key: number; set: Partial<Record<ChannelId, number>> }[] = [
  {
    key: LEAN,
    set: {
      'pelvis.x': 0.24,
      'pelvis.turn': radians(-14),
      'pelvis.list': 0,
      'chest.list': radians(-16),
      'head.list': 0,
    },
  },
  { key: SINK, set: { 'pelvis.x': 0.24, 'pelvis.list': 0, 'chest.list': radians(-16) } },
  { key: LIFT, set: { 'pelvis.x': 0.2, 'pelvis.list': 0, 'chest.list': radians(-12) } },
  { key: TRAVEL, set: { 'pelvis.x': 0.14, 'pelvis.list': 0, 'chest.list': 0 } },
  { key: TOUCH, set: { 'pelvis.x': 0.08, 'pelvis.list': 0 } },
  { key: SHARE, set: { 'pelvis.x': 0.02 } },
  { key: HANDS, set: { 'head.tilt': radians(-16) } },
  { key: WEIGHT, set: { 'pelvis.z': 0.06, 'head.tilt': radians(-16) } },
]

/** The right knee and its toes go 14 cm to his right while they carry him. */
function slip(plan: Plan, takeId: string, slips: number): Plan {
  const contacts = plan.takes[0]?.contacts ?? []
  const own = contacts.filter(({ part }) => part === 'kneeR' || part === 'footR')
  return own.reduce((changing, { id, to, ...span }) => {
    const [x, y, z] = span.position
    const cut = trimContact(changing, takeId, id, { to: slips - 1 })
    return addContact(cut, takeId, { ...span, position: [x - SLIP, y, z], from: slips, to })
  }, plan)
}

/** Frames that the stone is up too early: it stops dead. */
const HURRIED = 6
/** Frames after the weight is shared. */
const SLIPS = 10
/** m */
const SLIP = 0.14

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(
    fileURLToPath(new URL('../../static/capstone-bad.json', import.meta.url)),
    writePlan(capstoneBad()),
  )
