import type { Point2 } from '../../contact/hull'
import type { ContactPart } from '../../document/contacts'
import type { DynamicFrame } from '../../weigh/dynamic'
import { nearestIn } from '../../weigh/polygon'
import { contactOf } from '../../weigh/pose'
import { weigh } from '../../weigh/weigh'
import { SHIFT } from './constants'
import type { Lift, Measured, PartTouch } from './types'

type Base = Omit<Measured, 'lifts'>

/** Every limb, or part of one, that leaves what it stood on, and what its weight has to do before. */
export function liftsOf(measured: Base): Lift[] {
  const leaving = measured.touches.filter(({ ends }) => ends).sort((a, b) => a.to - b.to)
  const lifts: Lift[] = []
  const done = new Set<PartTouch>()
  for (const touch of leaving) {
    if (done.has(touch)) continue
    // Knee and toes that leave on one drawing are one lift.
    const together = leaving.filter((other) => other.limb === touch.limb && other.last === touch.last)
    for (const one of together) done.add(one)
    lifts.push(
      liftOf(
        measured,
        touch,
        together.map(({ part }) => part),
      ),
    )
  }
  return lifts
}

function liftOf(measured: Base, touch: PartTouch, parts: readonly ContactPart[]): Lift {
  const { last, limb, to: frame } = touch
  // A frame's wrench is a mean until half a frame after it: that of the last frame down is half in the air.
  const whole = measured.frames.findLastIndex((f) => f < frame)
  const stays =
    measured.touches.find(
      (other) =>
        other.limb === limb && !parts.includes(other.part) && other.first <= last && other.last > last,
    )?.part ?? null
  const region = restRegion(measured, last, parts)
  const far = (i: number) => wayInto(region, measured, i)
  let start = last
  let most = far(last)
  const earliest = Math.max(0, last - Math.round((SHIFT.before * measured.root) / measured.dt))
  for (let i = last - 1; i >= earliest && touches(measured, i, parts); i--) {
    const one = far(i)
    if (one.distance <= most.distance) continue
    most = one
    start = i
  }
  return {
    limb,
    parts,
    stays,
    last,
    frame,
    start,
    needed: most.distance,
    left: far(last).distance,
    way: most.distance > 0 ? most.way : null,
    least: [leastOf(measured, whole - 1, limb, parts), leastOf(measured, whole, limb, parts)],
  }
}

const touches = ({ poses }: Base, i: number, parts: readonly ContactPart[]): boolean =>
  parts.every((part) => poses[i]?.pads.some((pad) => pad.part === part))

/** Where the weight could be, held still, without the leaving parts; empty where nowhere. */
function restRegion(measured: Base, i: number, parts: readonly ContactPart[]): readonly Point2[] {
  const pose = measured.poses[i]
  const rest = pose?.pads.filter(({ part }) => !parts.includes(part)) ?? []
  if (!pose || rest.length === 0) return []
  const { ground, gravity, stiffness } = measured.plan
  const body = { mass: pose.mass, com: pose.com, stature: measured.stature, gravity }
  return weigh(
    rest.map((pad) => contactOf(ground, pad, stiffness)),
    body,
    { ranges: false },
  ).region
}

function wayInto(region: readonly Point2[], { com }: Base, i: number): { distance: number; way: Point2 } {
  const at = com[i]
  if (!at || region.length === 0) return { distance: 0, way: [0, 0] }
  const to = nearestIn(region, [at[0], at[2]])
  const [x, z] = [to[0] - at[0], to[1] - at[2]]
  const distance = Math.hypot(x, z)
  return { distance, way: distance > 0 ? [x / distance, z / distance] : [0, 0] }
}

/** W; of the parts together where the limb has no other, else of the one that bears most. Infinity where not weighed. */
function leastOf({ weighed, poses }: Base, i: number, limb: string, parts: readonly ContactPart[]): number {
  const frame = weighed[i]
  const pose = poses[i]
  if (!frame || !pose) return Number.NEGATIVE_INFINITY
  const weight = frame.body.mass * frame.body.gravity
  const own = pose.pads.filter((pad) => pad.limb === limb)
  if (own.every((pad) => parts.includes(pad.part)))
    return (frame.weighing.limbs.find(({ id }) => id === limb)?.least ?? 0) / weight
  const ids = own.filter((pad) => parts.includes(pad.part)).map(({ id }) => id)
  return Math.max(...ids.map((id) => loadOf(frame, id)?.least ?? 0), 0) / weight
}

const loadOf = ({ weighing }: DynamicFrame, id: string) => weighing.contacts.find((one) => one.id === id)
