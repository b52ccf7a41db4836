import { LIMITS } from '../../document/limits'
import type { Plan, Take } from '../../document/plan'
import { keyedFramesOf } from '../key-poses'
import { changeTake } from './change'
import { retimed, touchesTo } from './frames'

/**
 * Gives a span of a take another number of frames: keys, touches, arcs and phases inside it keep their order and
 * their share of the way, what comes before stays and what comes after comes later or earlier. No two keyed
 * frames or touches meet: a span gets `leastFramesOfSpan` frames at the least.
 * @param frames whole; from `from` to `to` there are so many
 * @throws RangeError where the span is not in the take or holds no frame
 */
export function retimeSpan(plan: Plan, takeId: string, span: FrameSpan, frames: number): Plan {
  return changeTake(plan, takeId, (take) => {
    checkSpan(take, span)
    const { from, to } = span
    const most = LIMITS.frames[1] - take.length + (to - from)
    const wanted = Math.max(fewestFrames(take, span), Math.min(Math.round(frames), most))
    if (wanted === to - from) return take
    const place = placesOf(take, span, wanted)
    const length = take.length + wanted - (to - from)
    const moved = retimed(take, {
      length,
      start: place,
      after: (frame) => place(frame) + 1,
      keeps: () => true,
    })
    return { ...moved, contacts: touchesTo(take, place, length) }
  })
}

/** Frames from `from` to `to`, both in the take, `to` > `from`. */
export interface FrameSpan {
  readonly from: number
  readonly to: number
}

/** As few frames as a span's keys and touches have room in. */
export const fewestFrames = (take: Take, span: FrameSpan): number => anchorsOf(take, span).length - 1

/** Frames that must stay apart: keys, and first and last frames of touches; the span's ends among them. */
function anchorsOf(take: Take, { from, to }: FrameSpan): number[] {
  const inside = [
    ...keyedFramesOf(take).map(({ frame }) => frame),
    ...take.contacts.flatMap((contact) => [contact.from, contact.to]),
  ].filter((frame) => from < frame && frame < to)
  return [...new Set([from, ...inside, to])].sort((a, b) => a - b)
}

/** Where each frame of the take goes: a map that never falls, and rises from each anchor to the next. */
function placesOf(take: Take, span: FrameSpan, frames: number): (frame: number) => number {
  const { from, to } = span
  const anchors = anchorsOf(take, span)
  const last = anchors.length - 1
  const places: number[] = []
  for (const [i, frame] of anchors.entries()) {
    const even = from + Math.round(((frame - from) * frames) / (to - from))
    const least = i === 0 ? from : (places[i - 1] as number) + 1
    places.push(Math.min(Math.max(least, even), from + frames - (last - i)))
  }
  return (frame) => {
    if (frame <= from) return frame
    if (frame >= to) return frame + frames - (to - from)
    const i = anchors.findLastIndex((anchor) => anchor <= frame)
    const [a, b] = [anchors[i] as number, anchors[i + 1] as number]
    const [start, end] = [places[i] as number, places[i + 1] as number]
    return start + Math.round(((frame - a) * (end - start)) / (b - a))
  }
}

function checkSpan(take: Take, { from, to }: FrameSpan): void {
  if (!(0 <= from && from < to && to < take.length))
    throw new RangeError(`a take of ${take.length} frames has no span from ${from} to ${to}`)
}
