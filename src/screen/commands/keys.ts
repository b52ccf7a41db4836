import type { Controls } from '../../document/channels'
import { CHANNELS } from '../../document/channels'
import type { Take } from '../../document/plan'
import { deleteKeys, moveKeys, setControls } from '../../plan/edit/keys'
import { controlsAtKey, keyAt, keyedFramesOf } from '../../plan/key-poses'
import type { Desk } from '../desk.svelte'
import type { Command } from './command'

/** Adding, moving, copying and deleting keys. What is copied stays while the page is open. */
export function keyCommands(): Command[] {
  let copied: Partial<Controls> | null = null
  return [
    {
      id: 'add-key',
      group: 'Keys',
      title: 'Add key',
      hint: 'Makes this frame a key pose as it stands, so that it can be changed without the others.',
      keys: ['K'],
      mnemonic: 'K marks a key on the sheet',
      when: ({ take, frame }) => markAt(take, frame) !== 'key',
      run: (desk) =>
        desk.edit('Add key', (plan) => setControls(plan, desk.takeId, desk.frame, desk.pose.reached)),
    },
    {
      id: 'delete-key',
      group: 'Keys',
      title: 'Delete key',
      hint: 'Leaves this frame to the keys around it. A take’s only key stays: a body has to be somewhere.',
      keys: ['Delete', 'Backspace'],
      within: 'sheet',
      when: ({ take, frame }) => keyedFramesOf(take).length > 1 && markAt(take, frame) !== null,
      run: (desk) => desk.edit('Delete key', (plan) => deleteKeys(plan, desk.takeId, desk.frame)),
    },
    {
      id: 'hold-key',
      group: 'Keys',
      title: 'Hold until here',
      hint: 'Puts the pose of the key before on this frame too: the body stays still until here.',
      keys: ['H'],
      mnemonic: 'H marks a hold on the sheet',
      when: (desk) => keyBefore(desk) !== undefined,
      run: (desk) =>
        desk.edit('Hold until here', (plan) => {
          const pose = controlsAtKey(desk.take, keyBefore(desk) as number)
          return pose === undefined ? plan : setControls(plan, desk.takeId, desk.frame, pose)
        }),
    },
    {
      id: 'copy-key',
      group: 'Keys',
      title: 'Copy key',
      hint: 'Takes up the keys of this frame, or its pose where it has none, to put them on another.',
      keys: ['Ctrl+C'],
      within: 'sheet',
      when: () => true,
      run: (desk) => {
        copied = valuesAt(desk)
        desk.say(`Frame ${desk.plan.firstFrame + desk.frame} copied; pick a frame and paste.`)
      },
    },
    {
      id: 'paste-key',
      group: 'Keys',
      title: 'Paste key',
      hint: 'Puts the copied keys on this frame; keys that are there take the new pose.',
      keys: ['Ctrl+V'],
      within: 'sheet',
      when: () => true,
      run: (desk) => {
        const values = copied
        if (values === null) desk.say('Nothing is copied yet: copy a key first.', 'hint')
        else desk.edit('Paste key', (plan) => setControls(plan, desk.takeId, desk.frame, values))
      },
    },
    shift('key-later', 'Key a frame later', ['Alt+ArrowDown'], 1),
    shift('key-earlier', 'Key a frame earlier', ['Alt+ArrowUp'], -1),
  ]
}

/** What is keyed at a frame: all channels, some, or none. */
export const markAt = (take: Take, frame: number): 'key' | 'breakdown' | null =>
  keyedFramesOf(take).find((keyed) => keyed.frame === frame)?.mark ?? null

/** The frames that the key at `frame` can move to without meeting another. */
export function roomForKey(take: Take, frame: number): { readonly first: number; readonly last: number } {
  const others = keyedFramesOf(take).map((keyed) => keyed.frame)
  return {
    first: (others.findLast((other) => other < frame) ?? -1) + 1,
    last: (others.find((other) => other > frame) ?? take.length) - 1,
  }
}

const keyBefore = ({ take, frame }: Desk): number | undefined =>
  keyedFramesOf(take).findLast((keyed) => keyed.frame < frame && keyed.mark === 'key')?.frame

function valuesAt({ take, frame, pose }: Desk): Partial<Controls> {
  const keyed = CHANNELS.flatMap((channel) => {
    const key = keyAt(take.channels[channel], frame)
    return key === undefined ? [] : [[channel, key.value] as const]
  })
  return keyed.length > 0 ? Object.fromEntries(keyed) : pose.reached
}

const shift = (id: string, title: string, keys: string[], by: number): Command => ({
  id,
  group: 'Keys',
  title,
  hint: 'Moves this frame’s keys by one frame, as far as the keys around it let it.',
  keys,
  mnemonic: 'Alt takes the key along where the arrow goes',
  within: 'sheet',
  when: ({ take, frame }) => {
    const { first, last } = roomForKey(take, frame)
    return markAt(take, frame) !== null && frame + by >= first && frame + by <= last
  },
  run: (desk) => {
    const { frame } = desk
    desk.edit(title, (plan) => moveKeys(plan, desk.takeId, frame, frame + by))
    desk.setFrame(frame + by)
  },
})
