import type { Request } from './protocol'
import { weighTake } from './weigh-take'
import { openWorkshop } from './workshop'

/** The calculation thread: hands messages to the workshop and its answers back. */
const { port1, port2 } = new MessageChannel()
let resume: (() => void) | null = null
port2.onmessage = () => resume?.()

const take = openWorkshop(
  { 'weigh take': weighTake },
  {
    now: () => performance.now(),
    // A message to itself waits behind those that have arrived, and unlike a timer it is not held back.
    pause: (then) => {
      resume = then
      port1.postMessage(null)
    },
    answer: (answer) => postMessage(answer),
  },
)

addEventListener('message', ({ data }: MessageEvent<Request>) => take(data))
