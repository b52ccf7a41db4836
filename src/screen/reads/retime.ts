import type { Plan, Take } from '../../document/plan'
import { oneOf } from '../../plan/edit/change'
import { type FrameSpan, fewestFrames, retimeSpan } from '../../plan/edit/retime'
import { keyedFramesOf } from '../../plan/key-poses'
import { readsAs, retimeToRead } from '../../shift/reads-as'

/** What of a take is retimed: the move with the keys around it, or all of it. */
export type Stretch = 'move' | 'take'

/** How a take would be retimed so that a span of it reads as another size. */
export interface Retiming {
  /** What is stretched evenly, frames from 0, and how many frames it gets in place of how many. */
  readonly span: FrameSpan
  readonly frames: number
  readonly before: number
  /** What it will read as then, m, least and most. */
  readonly stature: readonly [number, number]
  /** Frames of the take then. */
  readonly length: number
}

/**
 * Works out a retiming: the keys around the span are its ends, so that every curve in it is stretched evenly and
 * goes on as it did.
 * @param read the span that is read, and its pace: finite and > 0
 * @param times how many times the body's own size it should read as
 */
export function retimingFor(
  plan: Plan,
  takeId: string,
  read: FrameSpan & { readonly pace: number },
  times: number,
  stretch: Stretch,
): Retiming {
  const take = oneOf(plan.takes, takeId)
  const span = stretch === 'take' ? { from: 0, to: take.length - 1 } : keysRound(take, read)
  const before = span.to - span.from
  const frames = Math.max(fewestFrames(take, span), Math.round(before * retimeToRead(read.pace, times)))
  const { stature } = readsAs({ seconds: (read.pace * frames) / before, least: 1 }, plan.body)
  return { span, frames, before, stature, length: take.length + frames - before }
}

/** Does it; the same plan where nothing changes. */
export const retimed = (plan: Plan, takeId: string, { span, frames }: Retiming): Plan =>
  retimeSpan(plan, takeId, span, frames)

/** The nearest keyed frames at or before a span and at or after it; the take's ends where there are none. */
function keysRound(take: Take, { from, to }: FrameSpan): FrameSpan {
  const keys = keyedFramesOf(take).map(({ frame }) => frame)
  return {
    from: keys.findLast((frame) => frame <= from) ?? 0,
    to: keys.find((frame) => frame >= to) ?? take.length - 1,
  }
}
