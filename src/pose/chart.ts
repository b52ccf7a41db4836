import type { ChannelId, Controls, Key } from '../document/channels'
import { isAngle } from '../document/channels'
import type { Take } from '../document/plan'
import { channelAt } from './curve'

/**
 * How much of the change from one frame to another some channels have done at each whole frame from the first to
 * the last, as their keys ask: the ticks of a timing chart, 0 at the first and 1 at the last. Of several channels
 * it is the part of the change that lies along the whole change, lengths over the stature and an angle of a
 * radian as a quarter of it. Null where nothing changes.
 * @param stature m
 */
export function ticksOf(
  channels: Channels,
  group: readonly ChannelId[],
  { from, to }: { readonly from: number; readonly to: number },
  stature: number,
): number[] | null {
  const weights = group.map((id) => (isAngle(id) ? ANGLE : 1 / stature) ** 2)
  const start = group.map((id) => channelAt(channels[id], from))
  const whole = group.map((id, i) => channelAt(channels[id], to) - (start[i] as number))
  const along = (values: readonly number[]) =>
    values.reduce((sum, value, i) => sum + (weights[i] as number) * value * (whole[i] as number), 0)
  const square = along(whole)
  if (square < NOTHING) return null
  return Array.from({ length: to - from + 1 }, (_, f) => {
    const done = group.map((id, i) => channelAt(channels[id], from + f) - (start[i] as number))
    return along(done) / square
  })
}

type Channels = Take['channels']

/** A radian of an angle counts as this share of the stature, as reach counts it. */
const ANGLE = 0.25
/** Squared change, statures², below which nothing moves. */
const NOTHING = 1e-12

/**
 * The ease of a key that brings a tick of the chart nearest to where it is wanted, in whole percents, 0 … 1.
 * @param key the frame of the key whose ease is looked for: one end of the span
 * @param tick the frame of the tick, inside the span
 * @param wanted how much of the change should be done there
 */
export function easeForTick(
  take: Pick<Take, 'channels'>,
  group: readonly ChannelId[],
  span: { readonly from: number; readonly to: number },
  key: number,
  tick: number,
  wanted: number,
  stature: number,
): number {
  const side = key === span.from ? 'out' : 'in'
  let best = 0
  let least = Number.POSITIVE_INFINITY
  for (let percent = 0; percent <= 100; percent++) {
    const channels = eased(take.channels, group, key, side, percent / 100)
    const at = ticksOf(channels, group, span, stature)?.[tick - span.from]
    if (at === undefined) return 0
    const miss = Math.abs(at - wanted)
    // Where several do as well, the one with the least ease.
    if (miss < least - 1e-9) [best, least] = [percent / 100, miss]
  }
  return best
}

function eased(
  channels: Channels,
  group: readonly ChannelId[],
  frame: number,
  side: 'in' | 'out',
  ease: number,
): Channels {
  const out: Record<ChannelId, readonly Key[]> = { ...channels }
  for (const id of group)
    out[id] = channels[id].map((key) => (key.frame === frame ? { ...key, [side]: ease } : key))
  return out
}

/** The parts of the body whose channels are timed together. */
export const CHART_PARTS = ['pelvis', 'chest', 'head', 'armL', 'armR', 'legL', 'legR'] as const
export type ChartPart = (typeof CHART_PARTS)[number]

export const channelsOf = (part: ChartPart, all: readonly (keyof Controls)[]): ChannelId[] =>
  all.filter((id) => id.startsWith(`${part}.`))
