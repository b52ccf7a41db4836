import type { ChannelId, Controls } from '../document/channels'
import { LIMBS, type LimbId, partsOf } from '../document/contacts'
import type { Take } from '../document/plan'
import type { LagPart } from '../document/take'

/** Which part's lead and lag a channel takes; the pelvis has none, the others are timed against it. */
export function lagPartOf(channel: ChannelId): LagPart | null {
  const part = channel.slice(0, channel.indexOf('.'))
  return part === 'pelvis' ? null : (part as LagPart)
}

/**
 * The frame at which a part's curves are read: later by its lag. A limb that leaves one contact and goes
 * to another lags in between and is on time at both ends, so that what is planted stays where it is.
 */
export function laggedFrame(take: Take, part: LagPart, frame: number): number {
  const lag = take.lags[part]
  if (lag === 0) return frame
  if (part === 'chest' || part === 'head') return frame - lag
  const free = freeStretch(take, part, frame)
  if (free === null) return frame
  const { from, to } = free
  if (from === Number.NEGATIVE_INFINITY && to === Number.POSITIVE_INFINITY) return frame - lag
  // It comes in and goes out over twice its own frames, so that time never turns back; open ends count as far off.
  const over = Math.min((to - from) / 2, Math.max(LAG_RAMP, 2 * Math.abs(lag)))
  const size = Math.min(Math.abs(lag), over / 2)
  return frame - Math.sign(lag) * size * ramp((frame - from) / over) * ramp((to - frame) / over)
}

/** Controls with every free limb's place bowed off its way as the take's arcs say. */
export function bowed(take: Take, controls: Controls, frame: number): Controls {
  if (take.arcs.length === 0) return controls
  const out: Record<ChannelId, number> = { ...controls }
  const turn = controls['pelvis.turn']
  for (const limb of LIMBS) {
    const { up, left } = bow(take, limb, frame)
    if (up === 0 && left === 0) continue
    for (const place of limb.startsWith('leg') ? ['knee', 'ankle'] : ['hand']) {
      out[`${limb}.${place}.x` as ChannelId] += left * Math.cos(turn)
      out[`${limb}.${place}.y` as ChannelId] += up
      out[`${limb}.${place}.z` as ChannelId] -= left * Math.sin(turn)
    }
  }
  return out
}

/** How far a limb's end is bowed at a frame: up and to the body's left, m. */
function bow(take: Take, limb: LimbId, frame: number): { up: number; left: number } {
  const arc = take.arcs.find((a) => a.limb === limb && a.from < frame && frame < a.to)
  if (!arc) return { up: 0, left: 0 }
  const u = (frame - arc.from) / (arc.to - arc.from)
  const share = (4 * u * (1 - u)) ** 3
  return { up: arc.height * share, left: arc.side * share }
}

/** Whether anything but the keys bears on the pose of a frame. */
export const isMannered = (take: Take, frame: number): boolean =>
  Object.values(take.lags).some((lag) => lag !== 0) || take.arcs.some((a) => a.from < frame && frame < a.to)

/** A short lag of a limb comes in and goes out over this many frames. */
const LAG_RAMP = 8

/** 0 … 1 without slope or second slope at either end. */
const ramp = (u: number): number => {
  const t = Math.max(0, Math.min(1, u))
  return t * t * t * (10 + t * (-15 + 6 * t))
}

/** The frames around one at which no part of the limb touches; null where one does. Open where nothing ends it. */
function freeStretch(take: Take, limb: LimbId, frame: number): { from: number; to: number } | null {
  const parts = partsOf(limb)
  let from = Number.NEGATIVE_INFINITY
  let to = Number.POSITIVE_INFINITY
  for (const span of take.contacts) {
    if (!parts.includes(span.part)) continue
    if (span.from <= frame && frame <= span.to) return null
    if (span.to < frame) from = Math.max(from, span.to)
    else to = Math.min(to, span.from)
  }
  return { from, to }
}
