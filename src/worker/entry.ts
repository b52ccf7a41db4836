import { planShiftOf } from './plan-shift'
import type { Request } from './protocol'
import { doRemedyOf, readNotesOf } from './read-notes'
import { readsAsOf } from './reads-as'
import { leastFramesOf, weighMotionOf } from './weigh-motion'
import { weighTake } from './weigh-take'
import { openWorkshop } from './workshop'

/** The calculation thread: hands messages to the workshop and its answers back. */
const { port1, port2 } = new MessageChannel()
let resume: (() => void) | null = null
port2.onmessage = () => resume?.()

/** Trials bring matter-js: fetched once the first take is weighed, so that later nothing is asked of the network. */
const loadTrials = () => import('./trials')

const take = openWorkshop(
  {
    'weigh take': weighTake,
    'weigh motion': weighMotionOf,
    'least frames': leastFramesOf,
    'read notes': readNotesOf,
    'do remedy': doRemedyOf,
    'reads as': readsAsOf,
    'plan shift': planShiftOf,
    'try lift': async (input) => (await loadTrials()).tryLiftAt(input),
    'second opinion': async (input) => (await loadTrials()).secondOpinionsAt(input),
  },
  {
    now: () => performance.now(),
    // A message to itself waits behind those that have arrived, and unlike a timer it is not held back.
    pause: (then) => {
      resume = then
      port1.postMessage(null)
    },
    answer: (answer) => {
      postMessage(answer)
      // What can't be fetched now is fetched with the first trial.
      if ('done' in answer && answer.done) loadTrials().catch(() => {})
    },
  },
)

addEventListener('message', ({ data }: MessageEvent<Request>) => take(data))
