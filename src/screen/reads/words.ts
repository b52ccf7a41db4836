import type { FrameSpan } from '../../plan/edit/retime'
import { number, SPACE, statureText } from '../../sheet/format'
import { framesText, limbName, seconds } from '../../sheet/notes/words'
import type { Reading } from '../../shift/reads-as'
import { REFERENCE_PACE } from '../../shift/reads-constants'
import type { SpanReading } from '../../worker/protocol'

/** 'his left leg’s move, 1033 to 1071'; the second of a limb's moves is said to be it. */
export function spanName({ span }: SpanReading, firstFrame: number): string {
  const [from, to] = [firstFrame + span.from, firstFrame + span.to]
  const which = span.turn > 1 ? ` ${span.turn}` : ''
  const what =
    span.kind === 'chosen'
      ? 'a stretch of my own'
      : span.limb === null
        ? `the settle${which}`
        : `his ${limbName(span.limb)}’s move${which}`
  return `${what}, ${from} to ${to}`
}

/** Needed against used: 'It takes 38 frames (1.6 s); 24 is the least: 1.7 times that.' */
export function usedWords(
  used: number,
  least: { readonly frames: number; readonly seconds: number },
  fps: number,
) {
  const takes = `It takes ${framesText(used)} (${seconds(used / fps)})`
  if (!(least.seconds > 0)) return `${takes}; nothing here keeps him from doing it quicker.`
  const times = used / fps / least.seconds
  return `${takes}; ${least.frames} is the least he can do it in. That is ${number(times, times < 10 ? 1 : 0)} times as long.`
}

/** How the size that is read stands to the body's own. */
export function againstOwn({ kind, times, pace }: Reading, stature: number): string {
  const own = `his own ${statureText(stature)}`
  switch (kind) {
    case 'slow':
      return Number.isFinite(pace)
        ? 'So slow it looks like care, not like size: nobody sees a body that large.'
        : 'Gravity doesn’t time this, so its frames say nothing of a size.'
    case 'no body':
      return 'It has to last longer, or go less far.'
    case 'sized':
      if (times[1] < 1) return `Smaller than ${own}: give it more frames.`
      return times[0] > 1 ? `Larger than ${own}: give it fewer frames.` : `That fits ${own}.`
  }
}

/** On which paces a size is read, stated wherever one is. */
export const PACES = `Read on our own reckoning that people move a weight at ${REFERENCE_PACE.quick} to ${REFERENCE_PACE.easy} times the least time; we found no published figure.`

/** '1.7 to 2.4 m' in two figures each. */
export const rangeText = ([low, high]: readonly [number, number]): string =>
  `${two(low)} to ${two(high)}${SPACE}m`

/** A mass that is only reckoned: 'about 650 000 kg'. */
export const aboutMass = (kilograms: number): string => {
  const rounded = Number(kilograms.toPrecision(2))
  return `about ${number(rounded, rounded < 10 ? 1 : 0)}${SPACE}kg`
}

const two = (value: number): string => String(Number(value.toPrecision(2)))

/** 'between the keys at 1032 and 1071' */
export const betweenKeys = ({ from, to }: FrameSpan, firstFrame: number): string =>
  `between ${firstFrame + from} and ${firstFrame + to}`
