import { contactsAt } from '../../pose/between'
import { EFFORT } from './constants'
import { centimetres } from './sound'
import type { Found, Progress, Remedy, ShiftAsk, ShiftLimit } from './types'
import { handWays, WAYS, type Way } from './ways'

type Search = (ask: ShiftAsk, ways?: readonly Way[], most?: number) => Generator<Progress, Found>

/** Changes of the question after which it can be done, cheapest first; each is planned before it is named. */
export function* remediesFor(
  ask: ShiftAsk,
  limit: ShiftLimit,
  search: Search,
): Generator<Progress, Remedy[]> {
  const remedies: Remedy[] = []
  let left: number = EFFORT.remedies
  for (const { id, text, changed, ways } of changes(ask, limit)) {
    const steps = search(changed, ways, Math.min(left, EFFORT.search))
    let step = steps.next()
    while (!step.done) {
      left--
      yield step.value
      step = steps.next()
    }
    const { options } = step.value
    const option = options[0]
    if (option && !remedies.some((one) => one.id === id))
      remedies.push({ id, text: text(option.frames), option })
    if (remedies.length >= MOST || left <= 0) break
  }
  return remedies
}

const MOST = 3
const PLAIN: readonly Way[] = [WAYS.pelvis, WAYS['pelvis-chest']]

interface Change {
  readonly id: Remedy['id']
  readonly text: (frames: number) => string
  readonly changed: ShiftAsk
  readonly ways?: readonly Way[]
}

function changes(ask: ShiftAsk, limit: ShiftLimit): Change[] {
  const list: Change[] = []
  const { downBy, pace = 0, ...free } = ask
  if (limit.code === 'frames' && downBy !== undefined && pace < 1)
    list.push({
      id: 'thrown',
      text: () => 'Thrown, he is down in time.',
      changed: { ...ask, pace: 1 },
      ways: PLAIN,
    })
  if (limit.code === 'frames' && downBy !== undefined)
    list.push({
      id: 'frames',
      text: (n) => `With more time it can be done: ${n} frames.`,
      changed: { ...free, pace },
    })
  if (ask.mover.startsWith('arm')) return list
  if (ask.goal.kind === 'shuffle' || ask.goal.kind === 'place')
    list.push({
      id: 'toes-stay',
      text: () => 'Only the kneecap moves and the toes stay.',
      changed: { ...ask, foot: 'stays' },
      ways: [WAYS['toes-stay'], { ...WAYS['toes-stay'], sit: 0.3 }],
    })
  if (ask.handHelp === false) {
    const text = {
      'hand-side': 'A hand on the lifting side.',
      'hand-front': 'A hand in front of the midline.',
    }
    for (const id of ['hand-front', 'hand-side'] as const)
      list.push({ id, text: () => text[id], changed: { ...ask, handHelp: true }, ways: handWays(id) })
  }
  if (ask.goal.kind === 'shuffle' || ask.goal.kind === 'place')
    for (const hitches of [2, 3])
      if ((ask.hitches ?? 1) < hitches)
        list.push({ id: 'hitches', text: () => `In ${hitches} hitches.`, changed: { ...ask, hitches } })
  for (const half of NARROWED) {
    const narrow = halfSpacing(ask) - half
    if (narrow <= 0) continue
    list.push({
      id: 'narrow',
      text: () => `The knees ${centimetres(2 * narrow * ask.body.stature)} nearer first.`,
      changed: ask,
      ways: [WAYS.pelvis.ease, WAYS.chest.ease].map((ease) => ({ ...WAYS.narrow, ease, narrow })),
    })
  }
  return list
}

/** Half of the knees' spacing after they have come nearer, over H, widest first. */
const NARROWED: readonly number[] = [0.09, 0.075, 0.062]

/** Half of what the knees stand apart where the shift starts, over H; 0 where they are not both down. */
function halfSpacing({ body, take, frame }: ShiftAsk): number {
  const [l, r] = (['kneeL', 'kneeR'] as const).map((knee) =>
    contactsAt(take, frame).find(({ part }) => part === knee),
  )
  if (!l || !r) return 0
  return Math.hypot(l.position[0] - r.position[0], l.position[2] - r.position[2]) / 2 / body.stature
}
