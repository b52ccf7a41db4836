import { insertFrames, removeFrames } from '../../plan/edit/frames'
import { keyedFramesOf } from '../../plan/key-poses'
import type { Desk } from '../desk.svelte'
import type { Playback } from '../playback.svelte'
import type { Command } from './command'

/** Going about in time, and giving and taking time. */
export const timeCommands = (playback: Playback): Command[] => [
  {
    id: 'play',
    group: 'Time',
    title: 'Play',
    hint: 'Runs the take at its true rate, over and over; a weight only reads in motion.',
    keys: ['P'],
    mnemonic: 'P for play, and once more to pause',
    when: () => true,
    run: () => (playback.playing ? playback.stop() : playback.play()),
  },
  step('later', 'Next frame', 'One frame later; frames run down the sheet.', ['ArrowDown'], 1),
  step('earlier', 'Frame before', 'One frame earlier; frames run down the sheet.', ['ArrowUp'], -1),
  step(
    'eight-later',
    'Eight frames later',
    'To the next heavy line’s distance: eight frames.',
    ['PageDown'],
    8,
  ),
  step(
    'eight-earlier',
    'Eight frames earlier',
    'Back by a heavy line’s distance: eight frames.',
    ['PageUp'],
    -8,
  ),
  go('first', 'First frame', 'Where the shot starts.', ['Ctrl+Home'], () => 0),
  go('last', 'Last frame', 'Where the shot ends.', ['Ctrl+End'], ({ take }) => take.length - 1),
  go(
    'next-key',
    'Next key',
    'The next frame with a key or a breakdown.',
    ['Ctrl+ArrowDown'],
    ({ take, frame }) => keyedFramesOf(take).find((keyed) => keyed.frame > frame)?.frame,
  ),
  go(
    'key-before',
    'Key before',
    'The last frame with a key or a breakdown before this one.',
    ['Ctrl+ArrowUp'],
    ({ take, frame }) => keyedFramesOf(take).findLast((keyed) => keyed.frame < frame)?.frame,
  ),
  {
    id: 'add-frame',
    group: 'Time',
    title: 'Add a frame',
    hint: 'Gives one frame more after this one; everything later comes later. A heavier body needs more of them.',
    keys: ['+'],
    mnemonic: '+ for more time',
    when: () => true,
    run: (desk) => desk.edit('Add a frame', (plan) => insertFrames(plan, desk.takeId, desk.frame + 1, 1)),
  },
  {
    id: 'take-frame-out',
    group: 'Time',
    title: 'Take a frame out',
    hint: 'Takes this frame out with its keys; everything later comes earlier.',
    keys: ['-'],
    mnemonic: '− for less time',
    when: ({ take }) => take.length > 1,
    run: (desk) => desk.edit('Take a frame out', (plan) => removeFrames(plan, desk.takeId, desk.frame, 1)),
  },
]

const step = (id: string, title: string, hint: string, keys: string[], by: number): Command => ({
  id,
  group: 'Time',
  title,
  hint,
  keys,
  within: 'sheet',
  when: ({ frame, take }) => (by > 0 ? frame < take.length - 1 : frame > 0),
  run: (desk) => desk.setFrame(desk.frame + by),
})

const go = (
  id: string,
  title: string,
  hint: string,
  keys: string[],
  to: (desk: Desk) => number | undefined,
): Command => ({
  id,
  group: 'Time',
  title,
  hint,
  keys,
  within: 'sheet',
  when: (desk) => (to(desk) ?? desk.frame) !== desk.frame,
  run: (desk) => desk.setFrame(to(desk) ?? desk.frame),
})
