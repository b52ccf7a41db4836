import { CHANNELS, type ChannelId, type Controls, type Key } from '../document/channels'
import type { Take } from '../document/plan'

/** The frames of a take's key poses, where every channel is keyed, in order. */
export const keyPosesOf = (take: Take): number[] =>
  keyedFramesOf(take)
    .filter(({ mark }) => mark === 'key')
    .map(({ frame }) => frame)

/**
 * Every frame with a key, in order: a key pose where all channels are keyed, a breakdown where some are.
 */
export function keyedFramesOf(take: Take): KeyedFrame[] {
  const channelsAt = new Map<number, ChannelId[]>()
  for (const channel of CHANNELS)
    for (const { frame } of take.channels[channel]) {
      const channels = channelsAt.get(frame)
      if (channels === undefined) channelsAt.set(frame, [channel])
      else channels.push(channel)
    }
  return [...channelsAt]
    .sort(([a], [b]) => a - b)
    .map(([frame, channels]) => ({
      frame,
      mark: channels.length === CHANNELS.length ? 'key' : 'breakdown',
      channels,
    }))
}

export interface KeyedFrame {
  readonly frame: number
  readonly mark: 'key' | 'breakdown'
  readonly channels: readonly ChannelId[]
}

/** The asked pose of a key pose; undefined where some channel has no key at the frame. */
export function controlsAtKey(take: Take, frame: number): Controls | undefined {
  const controls: Partial<Record<ChannelId, number>> = {}
  for (const channel of CHANNELS) {
    const key = keyAt(take.channels[channel], frame)
    if (key === undefined) return undefined
    controls[channel] = key.value
  }
  return controls as Controls
}

/** The key at a frame; keys are in order of frame. */
export function keyAt(keys: readonly Key[], frame: number): Key | undefined {
  const key = keys[firstFrom(keys, frame)]
  return key?.frame === frame ? key : undefined
}

/** Index of the first key at or after a frame; the number of keys where there is none. */
export function firstFrom(keys: readonly Key[], frame: number): number {
  let low = 0
  let high = keys.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((keys[middle] as Key).frame < frame) low = middle + 1
    else high = middle
  }
  return low
}
