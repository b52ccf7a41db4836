import type { BodyModel } from '../body/model'
import type { Point2 } from '../contact/hull'
import type { Controls } from '../document/channels'
import { type ContactSpan, limbOf } from '../document/contacts'
import type { CarriedLoad, Ground, Mover, Stiffness } from '../document/plan'
import { reach } from '../pose/reach'
import { ride } from '../pose/ride'
import type { Limit, ReachedPose } from '../pose/types'
import { LEAN } from './constants'
import { weighPose } from './pose'
import type { Verdict } from './types'

/**
 * Which ways of leaning empty a mover: the pelvis shifted, sitting back, the chest leaned. Each is
 * solved through reach for the weight to come to rest where the other contacts can hold it with room to
 * spare (SAFE_ROOM), and weighed again before it counts as found. In the order in which an animator
 * would want them: pelvis first.
 */
export function findLeans(stance: LeanStance): Lean[] {
  const start = reach(stance.body, stance.controls, stance.contacts, stance.loads)
  const search: Search = { ...stance, start }
  const verdict = judged(search, start)
  const move = verdict.safe ?? verdict.empty
  if (verdict.kind === 'off' || move === null || move.distance === 0) return []
  const target: Point2 = [start.com[0] + move.move[0], start.com[2] + move.move[1]]
  return [shiftPelvis(search, target), sitBack(search), leanChest(search, target)].filter(
    (lean) => lean !== null,
  )
}

export interface LeanStance {
  readonly body: BodyModel
  readonly ground: Ground
  readonly gravity: number
  /** The plan's own stiffness of pads. */
  readonly stiffness?: Stiffness
  /** The asked pose. */
  readonly controls: Controls
  readonly contacts: readonly ContactSpan[]
  readonly loads: readonly CarriedLoad[]
  readonly mover: Mover
}

interface Search extends LeanStance {
  readonly start: ReachedPose
}

export interface Lean {
  readonly kind: 'pelvis' | 'sit-back' | 'chest'
  /** Whether, weighed again, the mover is empty or could let go. */
  readonly works: boolean
  /** The pose that it leads to, and how it weighs. */
  readonly controls: Controls
  readonly verdict: Verdict
  /** Level travel of the reached pelvis, x and z, m. */
  readonly travel: Point2
  /** Change of the chest's list and tilt, rad. */
  readonly list: number
  readonly tilt: number
  /** How far the weight still is from where the mover is empty, m; 0 where it works. */
  readonly short: number
  /** What stops it; null where it works, or where nothing but the range of leans tried does. */
  readonly limit: Limit | null
}

/** Free hands and feet hang from the trunk wherever it leans. */
function poseOf(s: Search, controls: Controls): ReachedPose {
  return reach(s.body, carried(s, controls), s.contacts, s.loads)
}

function carried(s: Search, controls: Controls): Controls {
  if (controls === s.controls) return controls
  return ride(controls, s.controls, s.contacts, s.start, reach(s.body, controls, s.contacts))
}

const judged = ({ ground, gravity, body, stiffness, mover }: Search, pose: ReachedPose) =>
  weighPose(ground, gravity, body.stature, pose, { ...(stiffness && { stiffness }) }).judge(mover)

/** The asked pelvis goes on until the weight, not the pelvis, stands over the target. */
function shiftPelvis(s: Search, target: Point2): Lean {
  let controls = s.controls
  let best = controls
  let least = Number.POSITIVE_INFINITY
  for (let step = 0; step < LEAN.steps; step++) {
    const { com } = poseOf(s, controls)
    const miss: Point2 = [target[0] - com[0], target[1] - com[2]]
    const far = Math.hypot(...miss)
    if (far < least) {
      least = far
      best = controls
    }
    if (far < LEAN.near * s.body.stature) break
    const gain = Math.min(1 / LEAN.weightPerPelvis, (LEAN.longest * s.body.stature) / far)
    controls = {
      ...controls,
      'pelvis.x': controls['pelvis.x'] + miss[0] * gain,
      'pelvis.z': controls['pelvis.z'] + miss[1] * gain,
    }
  }
  return concluded(s, 'pelvis', best, target)
}

/** The pelvis goes back and down onto the heels, as far as it must. Only a kneeling body can. */
function sitBack(s: Search): Lean | null {
  const knees = s.start.pads.filter((pad) => pad.kind === 'kneecap')
  const feet = s.start.pads.filter((pad) => pad.kind === 'toes' || pad.kind === 'instep')
  if (knees.length === 0 || feet.length === 0) return null
  const back = away(mean(feet.map((pad) => pad.centre)), mean(knees.map((pad) => pad.centre)))
  const { thigh } = s.body.lengths
  const at = (share: number): Controls => {
    const angle = share * (Math.PI / 2)
    return {
      ...s.controls,
      'pelvis.x': s.controls['pelvis.x'] + back[0] * thigh * Math.sin(angle),
      'pelvis.z': s.controls['pelvis.z'] + back[1] * thigh * Math.sin(angle),
      'pelvis.y': s.controls['pelvis.y'] - thigh * (1 - Math.cos(angle)),
    }
  }
  const free = (share: number) => works(judged(s, poseOf(s, at(share))))
  const steps = LEAN.sitSteps
  let share = 1
  while (share <= steps && !free(share / steps)) share++
  // Sitting back that doesn't empty the mover is no answer, and is not offered.
  if (share > steps) return null
  let [low, high] = [(share - 1) / steps, share / steps]
  for (let i = 0; i < LEAN.halvings; i++) {
    const middle = (low + high) / 2
    if (free(middle)) high = middle
    else low = middle
  }
  const { com } = poseOf(s, at(high))
  return concluded(s, 'sit-back', at(high), [com[0], com[2]])
}

/** The chest's list and tilt, by Newton's method with differences, within the spine's range. */
function leanChest(s: Search, target: Point2): Lean {
  const lean = (list: number, tilt: number): Controls => ({
    ...s.controls,
    'chest.list': s.controls['chest.list'] + list,
    'chest.tilt': s.controls['chest.tilt'] + tilt,
  })
  const weightAt = (list: number, tilt: number): Point2 => {
    const { com } = poseOf(s, lean(list, tilt))
    return [com[0], com[2]]
  }
  let [list, tilt] = [0, 0]
  for (let step = 0; step < LEAN.steps; step++) {
    const at = weightAt(list, tilt)
    const miss: Point2 = [target[0] - at[0], target[1] - at[1]]
    if (Math.hypot(...miss) < LEAN.near * s.body.stature) break
    const h = LEAN.difference
    const byList = weightAt(list + h, tilt)
    const byTilt = weightAt(list, tilt + h)
    const [a, c] = [(byList[0] - at[0]) / h, (byList[1] - at[1]) / h]
    const [b, d] = [(byTilt[0] - at[0]) / h, (byTilt[1] - at[1]) / h]
    const det = a * d - b * c
    if (Math.abs(det) < 1e-9 * s.body.stature ** 2) break
    const within = (value: number, low: number, high: number) => Math.max(low, Math.min(high, value))
    list = within(list + (miss[0] * d - miss[1] * b) / det, -LEAN.list, LEAN.list)
    tilt = within(tilt + (miss[1] * a - miss[0] * c) / det, -LEAN.tiltBack, LEAN.tiltForward)
  }
  return concluded(s, 'chest', lean(list, tilt), target)
}

const works = (verdict: Verdict) => verdict.kind === 'empty' || verdict.kind === 'could let go'

function concluded(s: Search, kind: Lean['kind'], controls: Controls, target: Point2): Lean {
  const before = s.start
  const pose = poseOf(s, controls)
  const verdict = judged(s, pose)
  const found = works(verdict) && pose.pads.length === before.pads.length
  return {
    kind,
    works: found,
    controls: carried(s, controls),
    verdict,
    travel: [
      pose.joints.midHip[0] - before.joints.midHip[0],
      pose.joints.midHip[2] - before.joints.midHip[2],
    ],
    list: controls['chest.list'] - s.controls['chest.list'],
    tilt: controls['chest.tilt'] - s.controls['chest.tilt'],
    short: found ? 0 : Math.hypot(target[0] - pose.com[0], target[1] - pose.com[2]),
    limit: found ? null : (pose.limits.find((limit) => planted(s, limit.limb)) ?? null),
  }
}

/** Only a limb that is planted stops the weight; a free one just hangs. */
const planted = (s: Search, limb: Limit['limb']) =>
  limb === 'trunk' || s.contacts.some((contact) => limbOf(contact.part) === limb)

function mean(points: readonly (readonly [number, number, number])[]): Point2 {
  const sum = (i: 0 | 2) => points.reduce((total, p) => total + p[i], 0) / points.length
  return [sum(0), sum(2)]
}

function away(to: Point2, from: Point2): Point2 {
  const d = Math.hypot(to[0] - from[0], to[1] - from[1])
  return d < 1e-9 ? [0, -1] : [(to[0] - from[0]) / d, (to[1] - from[1]) / d]
}
