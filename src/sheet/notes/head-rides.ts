import { toAngles } from '../../space/rotation'
import { HEAD } from './constants'
import { addAt, channelsOf, type Fix, pin } from './fixes'
import { windowsOf } from './runs'
import { between, relative } from './turns'
import type { Finding, Measured, Rule } from './types'
import { angle, frameAt, labelAt } from './words'

/** The chest goes, and the head either stays as on a gimbal or goes along as if bolted on. */
export const headRides: Rule = {
  id: 'head',
  name: 'Head rides free, or is bolted on',
  pass: 'spine and head',
  level: 'look',
  onBlocking: false,
  plainInGraphic: false,
  fires(measured) {
    const window = Math.max(1, Math.round((HEAD.within * measured.root) / measured.dt))
    return windowsOf(measured.frames.length, window, HEAD.chest, (a, b) => chest(measured, a, b)).flatMap(
      ([a, b]) => read(measured, a, b) ?? [],
    )
  },
}

function chest({ poses }: Measured, a: number, b: number): number {
  const [from, to] = [poses[a], poses[b]]
  return from && to ? between(from.segments.upperTrunk.rotation, to.segments.upperTrunk.rotation) : 0
}

function read(measured: Measured, a: number, b: number): Finding | null {
  const [from, to] = [measured.poses[a], measured.poses[b]]
  if (!from || !to) return null
  const world = [toAngles(from.segments.head.rotation), toAngles(to.segments.head.rotation)] as const
  const own = (['turn', 'list', 'tilt'] as const).map((axis) => Math.abs(world[1][axis] - world[0][axis]))
  const against = between(
    relative(from.segments.upperTrunk.rotation, from.segments.head.rotation),
    relative(to.segments.upperTrunk.rotation, to.segments.head.rotation),
  )
  const span = { from: frameAt(measured, a), to: frameAt(measured, b) }
  const swing = angle(chest(measured, a, b))
  if (against < HEAD.bolted)
    return {
      ...span,
      number: against,
      sentence: `The chest goes ${swing} and the head goes with it as if bolted on.`,
      remedy: {
        text: `Let the head drag a few degrees behind the chest at ${labelAt(measured, Math.floor((a + b) / 2))} and arrive after it.`,
        fix: drag(frameAt(measured, a), span.to, from, to),
      },
    }
  if (Math.max(...own) >= HEAD.free) return null
  const gazes = measured.gaze.some((gaze) => gaze.from <= span.to && gaze.to >= span.from)
  return {
    ...span,
    number: Math.max(...own),
    ...(gazes ? { level: 'style' as const } : {}),
    sentence: gazes
      ? `The gaze holds while the chest goes ${swing}: even so a head rolls a little.`
      : `The chest goes ${swing} and the head stays in the air as if on a gimbal.`,
    remedy: gazes
      ? {
          text: `Give the head 2° to 3° of tilt to the side by ${labelAt(measured, b)}.`,
          fix: (plan, takeId) => addAt(plan, takeId, span.to, { 'head.list': ROLL }),
        }
      : {
          text: 'Let the head give up a third of what it takes back from the chest.',
          fix: giveUp(span.from, span.to),
        },
  }
}

/** rad */
const ROLL = (3 * Math.PI) / 180
/** Share of the chest's change by which the head drags, and of its own counter-move that it gives up. */
const DRAG = 0.15
const GIVES = 0.35

type Pose = Measured['poses'][number]

/** At the end of the window the head is still a little behind: it goes on after the chest. */
function drag(from: number, to: number, a: Pose, b: Pose): Fix {
  const [start, end] = [toAngles(a.segments.upperTrunk.rotation), toAngles(b.segments.upperTrunk.rotation)]
  const offsets = Object.fromEntries(
    (['turn', 'list', 'tilt'] as const).map((axis) => [`head.${axis}`, -DRAG * (end[axis] - start[axis])]),
  )
  return (plan, takeId) => addAt(pin(plan, takeId, from, channelsOf('head')), takeId, to, offsets)
}

function giveUp(from: number, to: number): Fix {
  return (plan, takeId) => {
    const pinned = pin(pin(plan, takeId, from, channelsOf('head')), takeId, to, channelsOf('head'))
    const take = pinned.takes.find(({ id }) => id === takeId)
    const at = (id: 'head.turn' | 'head.list' | 'head.tilt', frame: number) =>
      take?.channels[id].find((key) => key.frame === frame)?.value ?? 0
    const offsets = Object.fromEntries(
      (['head.turn', 'head.list', 'head.tilt'] as const).map((id) => [
        id,
        GIVES * (at(id, from) - at(id, to)),
      ]),
    )
    return addAt(pinned, takeId, to, offsets)
  }
}
