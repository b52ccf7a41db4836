import type { Desk } from '../desk.svelte'
import type { Playback } from '../playback.svelte'
import { liftTryOf } from '../trial/lift-try.svelte'
import type { Command } from './command'

export const tryLift: Command = {
  id: 'try-lift',
  group: 'Pose',
  title: 'Try the lift',
  hint: 'Takes the mover’s pads away and lets the frozen body go: does it hold, or which way and how soon does it tip?',
  keys: ['L'],
  mnemonic: 'L for lift',
  when: (desk) => liftTryOf(desk).refusal === null,
  run: (desk) => {
    desk.setPage('weigh')
    liftTryOf(desk).start()
  },
}

/** A frame that goes by would end a trial at once, so playing stops before one. */
export function trialCommands(desk: Desk, playback: Playback): Command[] {
  liftTryOf(desk).before = () => playback.stop()
  return [tryLift]
}
