import { readsAs } from '../../shift/reads-as'
import { MIDDLE_PACE } from '../../shift/reads-constants'
import { gravitySpans, timedSpan } from '../../shift/reads-spans'
import { norm } from '../../space/vec'
import { LENGTH_PER_STATURE, PUSH_NONE } from '../../weigh/constants'
import type { DynamicFrame } from '../../weigh/dynamic'
import { statureText } from '../format'
import { SMALL } from './constants'
import { stretch } from './fixes'
import { pushSpans } from './pushed-from-nowhere'
import type { Finding, Measured, Rule } from './types'
import { frameAt, limbName, seconds as secondsText } from './words'

/** The timing says another size than the drawing. */
export const readsSmall: Rule = {
  id: 'small',
  name: 'Reads small',
  pass: 'timing',
  level: 'look',
  onBlocking: false,
  plainInGraphic: true,
  fires(measured) {
    // On twos the frames between the drawings aren't measured; loads then come from the drawing before.
    const at = (frame: number) => measured.weighed[Math.floor(frame / measured.on)] ?? undefined
    const spans = gravitySpans(
      measured.take,
      (limb, frame) => at(frame)?.weighing.limbs.find(({ id }) => id === limb)?.load ?? 0,
    )
    return spans.flatMap((span) => {
      const timed = timedSpan(span, measured.fps, at, (frame) => couldLimit(at(frame)))
      return timed === null ? [] : (read(measured, span, timed) ?? [])
    })
  },
}

function read(
  measured: Measured,
  { from, to, limb }: { from: number; to: number; limb: Parameters<typeof limbName>[0] | null },
  timed: { seconds: number; least: number },
): Finding | null {
  const { plan } = measured
  const reading = readsAs(timed, { stature: plan.body.stature, mass: plan.body.mass })
  const what = limb === null ? 'The settle' : `The ${limbName(limb)}’s move`
  const frames = Math.ceil(timed.least * measured.fps)
  const middle = Math.sqrt(reading.times[0] * reading.times[1])
  const longer = 1 / Math.sqrt(middle)
  if (reading.kind === 'no body')
    return {
      from,
      to,
      number: reading.pace,
      // A push that has a note of its own is said once.
      level: pushed(measured, from, to) ? 'look' : 'breaks',
      sentence: `${what} takes ${secondsText(timed.seconds)}, and no body of this size can do it in less than ${secondsText(timed.least)}.`,
      remedy: {
        text: `Give it ${frames} frames or more; about ${Math.round((to - from) * longer)} read as his size.`,
        fix: stretch(from, to, longer),
      },
    }
  if (reading.kind === 'slow' || middle >= SMALL.reads) return null
  return {
    from,
    to,
    number: middle,
    sentence: `${what} reads as a body of ${statureText(round(reading.stature[0]))} to ${statureText(round(reading.stature[1]))}, not ${statureText(plan.body.stature)}.`,
    remedy: {
      text: `Give it about ${Math.round((to - from) * longer)} frames instead of ${to - from}.`,
      fix: stretch(from, to, longer),
    },
  }
}

/**
 * Whether a frame may leave no time to spare. Only paces up to QUICK are told; one that is held now, and has
 * room for twice what a pace of QUICK would ask more of it, has that much.
 */
function couldLimit(frame: DynamicFrame | undefined): boolean {
  if (!frame) return true
  const { body, weighing } = frame
  if (weighing.push.size >= PUSH_NONE || !(weighing.room > 0)) return true
  const weight = body.mass * body.gravity
  const length = LENGTH_PER_STATURE * body.stature
  const [x, y, z] = body.force
  const asked = Math.hypot(x / weight, y / weight - 1, z / weight, norm(body.moment) / (weight * length))
  return weighing.room / length < 2 * (QUICK ** 2 - 1) * asked
}

/** Pace up to which a body reads as less than SMALL.reads of its size, and a little more. */
const QUICK = 1.05 * MIDDLE_PACE * Math.sqrt(SMALL.reads)

const pushed = (measured: Measured, from: number, to: number): boolean =>
  pushSpans(measured).some(
    ([first, last]) => frameAt(measured, first) <= to && frameAt(measured, last) >= from,
  )

/** Two figures: more would claim too much. */
const round = (metres: number): number => Number(metres.toPrecision(2))
