import { CHANNELS, type ChannelId, type Controls, isAngle, type Key } from '../../document/channels'
import { LIMITS } from '../../document/limits'
import type { Plan, Take } from '../../document/plan'
import { firstFrom, keyAt } from '../key-poses'
import { newKey } from '../new'
import { clamp } from '../within-limits'
import { changeTake, patch } from './change'

/**
 * Keys the given channels at a frame: all of them make a key pose, some a breakdown. A key that is there
 * takes the new value and keeps its slow-in and slow-out.
 * @param frame rounded and brought into the take
 * @param values positions in m, angles in rad; brought within LIMITS
 */
export function setControls(plan: Plan, takeId: string, frame: number, values: Partial<Controls>): Plan {
  return changeTake(plan, takeId, (take) => {
    const at = frameIn(take, frame)
    return changeChannels(take, CHANNELS, (keys, channel) => {
      const value = values[channel]
      return value === undefined ? keys : withValue(keys, at, limited(channel, value))
    })
  })
}

/** Moves the keys of some channels from a frame to another; keys that are there give way. */
export function moveKeys(plan: Plan, takeId: string, from: number, to: number, channels = ALL): Plan {
  return carryKeys(plan, takeId, from, to, channels, (keys) => keys.filter((key) => key.frame !== from))
}

/** Copies the keys of some channels from a frame to another; keys that are there give way. */
export function copyKeys(plan: Plan, takeId: string, from: number, to: number, channels = ALL): Plan {
  return carryKeys(plan, takeId, from, to, channels, (keys) => keys)
}

/** Deletes the keys of some channels at a frame, except a channel's only one: every channel keeps a value. */
export function deleteKeys(plan: Plan, takeId: string, frame: number, channels = ALL): Plan {
  return changeTake(plan, takeId, (take) =>
    changeChannels(take, channels, (keys) =>
      keys.length > 1 && keyAt(keys, frame) ? keys.filter((key) => key.frame !== frame) : keys,
    ),
  )
}

/**
 * Sets how the keys of some channels at a frame ease.
 * @param ease share of the span before (`in`) and after (`out`) the key, 0 … 1; what is left out stays
 */
export function setEase(
  plan: Plan,
  takeId: string,
  frame: number,
  ease: { readonly in?: number; readonly out?: number },
  channels = ALL,
): Plan {
  const changes = Object.fromEntries(
    Object.entries(ease).map(([side, share]) => [side, clamp(share, LIMITS.ease)]),
  )
  return changeTake(plan, takeId, (take) =>
    changeChannels(take, channels, (keys) => {
      const index = firstFrom(keys, frame)
      const key = keys[index]
      if (key?.frame !== frame) return keys
      const changed = patch(key, changes)
      return changed === key ? keys : keys.with(index, changed)
    }),
  )
}

const ALL: readonly ChannelId[] = CHANNELS

/** A take with the keys of some channels changed; the same take when none is. */
export function changeChannels(
  take: Take,
  channels: readonly ChannelId[],
  change: (keys: readonly Key[], channel: ChannelId) => readonly Key[],
): Take {
  let changed: Record<ChannelId, readonly Key[]> | undefined
  for (const channel of channels) {
    const before = take.channels[channel]
    const after = change(before, channel)
    if (after === before) continue
    changed ??= { ...take.channels }
    changed[channel] = after
  }
  return changed === undefined ? take : { ...take, channels: changed }
}

/** A frame as a whole number inside a take. */
export const frameIn = (take: Take, frame: number): number => Math.round(clamp(frame, [0, take.length - 1]))

/** A channel's value brought within its limits. */
const limited = (channel: ChannelId, value: number): number =>
  clamp(value, isAngle(channel) ? LIMITS.angle : LIMITS.place)

function withValue(keys: readonly Key[], frame: number, value: number): readonly Key[] {
  const key = keyAt(keys, frame)
  return withKey(keys, key === undefined ? newKey(frame, value) : patch(key, { value }))
}

/** The keys with this one in its place; one that stands at its frame gives way. */
export function withKey(keys: readonly Key[], key: Key): readonly Key[] {
  const index = firstFrom(keys, key.frame)
  const there = keys[index]
  if (there === key) return keys
  if (there?.frame === key.frame) return keys.with(index, key)
  return keys.length < LIMITS.keysPerChannel ? keys.toSpliced(index, 0, key) : keys
}

function carryKeys(
  plan: Plan,
  takeId: string,
  from: number,
  to: number,
  channels: readonly ChannelId[],
  leave: (keys: readonly Key[]) => readonly Key[],
): Plan {
  return changeTake(plan, takeId, (take) => {
    const at = frameIn(take, to)
    if (at === from) return take
    return changeChannels(take, channels, (keys) => {
      const key = keyAt(keys, from)
      if (key === undefined) return keys
      const there = keyAt(keys, at)
      const carried = { ...key, frame: at }
      return withKey(leave(keys), there === undefined ? carried : patch(there, carried))
    })
  })
}
