import type { Side } from '../../body/model'
import type { Point2 } from '../../contact/hull'
import type { Controls } from '../../document/channels'
import { partKind, sideOf } from '../../document/contacts'
import type { PhaseName } from '../../document/plan'
import { underFloor } from '../../pose/foot'
import { put } from '../../pose/grasp'
import type { ReachedPose } from '../../pose/types'
import { fromAngles } from '../../space/rotation'
import { add, addScaled, lerp, sub, type Vec3 } from '../../space/vec'
import type { Placing } from './balance'
import { CLEARANCE, HIKE, STRIKE } from './constants'
import {
  firstHeld,
  HEAD_CHANNELS,
  hiked,
  hold,
  type Job,
  staying,
  swingEase,
  TRUNK_CHANNELS,
  unlisted,
} from './job'
import { type KeyName, type KeyPose, keyPose } from './key-pose'
import { aheadOf, comesDown, leftOf, outward } from './moves'
import { plumbOf } from './region'
import { type Solved, solved } from './sound'
import { type LegInAir, placingLeg } from './swing'

/** The limb just off the ground, and at its passing breakdown. */
export function* inTheAir(job: Job, over: KeyPose, touch: KeyPose): Generator<null, Solved<KeyPose[]>> {
  const steps = job.transfer.limb.startsWith('leg') ? legSteps(job, over, touch) : handSteps(job, over, touch)
  const keys: KeyPose[] = []
  for (const { name, phase, places, hike, along, rise = 0 } of steps) {
    const way = between(unlisted(job, over.still.controls), touch.still.controls, along)
    const controls = { ...way, 'pelvis.y': way['pelvis.y'] + rise * job.scene.body.stature }
    const base = { controls: hiked(job, controls, hike), contacts: staying(job) }
    const from = midway(plumbOf(over.pose), plumbOf(touch.pose), along)
    const held = yield* firstHeld(places, (place) => hold(job, base, from, swingEase(job.way), place))
    if (!held.ok) return held
    keys.push(keyPose(name, phase, held.value))
  }
  return solved(keys)
}

interface Step {
  readonly name: KeyName
  readonly phase: PhaseName
  /** Ways to hold the limb, the plainest first. */
  readonly places: readonly Placing[]
  readonly hike: number
  /** How far the trunk is on its way to the touch. */
  readonly along: number
  /** How much higher the pelvis is than on that way, over H. */
  readonly rise?: number
}

/** The weight goes on evenly while the limb is in the air. */
const midway = (a: Point2, b: Point2, along: number): Point2 => [
  a[0] + (b[0] - a[0]) * along,
  a[1] + (b[1] - a[1]) * along,
]

/** Trunk controls part of the way; limbs as in the first. */
function between(from: Controls, to: Controls, along: number): Controls {
  const out: Record<string, number> = { ...from }
  for (const id of [...TRUNK_CHANNELS, ...HEAD_CHANNELS]) out[id] = from[id] + (to[id] - from[id]) * along
  return out as Controls
}

function legSteps({ scene, transfer }: Job, over: KeyPose, touch: KeyPose): Step[] {
  const { body } = scene
  const side = sideOf(transfer.limb)
  const kneels = (k: KeyPose) => k.still.contacts.some(({ part }) => part === `knee${side}`)
  const at = ({ pose: { joints } }: KeyPose) => ({
    knee: joints[`knee${side}`],
    ankle: joints[`ankle${side}`],
  })
  const [a, b] = [at(over), at(touch)]
  const angle = (id: `leg${Side}.${'pitch' | 'turn'}`, share: number) => mix(over, touch, id, share)
  const ahead = kneels(over) ? levelWay(a.ankle, a.knee, aheadOf(over.pose)) : aheadOf(over.pose)
  const shuffles = kneels(over) && kneels(touch)
  const clear = (shuffles ? CLEARANCE.knee : CLEARANCE.foot) * body.stature
  const floor = Math.max(floorUnder(over.pose, side), floorUnder(touch.pose, side))
  const knee = Math.max(a.knee[1], shuffles ? b.knee[1] : a.knee[1])
  const leg = (
    share: number,
    turned: number,
    rise: number,
    kneeRise: number,
    free: number,
    out = 0,
  ): LegInAir => {
    const [x, y, z] = lerp(a.ankle, b.ankle, share)
    const high = (share > 0.3 ? Math.max(a.ankle[1], b.ankle[1]) : y) + rise
    const [pitch, turn] = [angle(`leg${side}.pitch`, turned), angle(`leg${side}.turn`, turned)]
    const foot = fromAngles({ turn, list: 0, tilt: pitch })
    return {
      ankle: [x, high + underFloor(body, [x, high - floor - free, z], foot), z],
      ahead: addScaled(ahead, leftOf(over.pose), outward(side) * out),
      knee: kneels(over) && (share < 0.4 || shuffles) ? knee + kneeRise : Number.NEGATIVE_INFINITY,
      pitch,
      turn,
    }
  }
  const lift = (air: LegInAir, along: number): Step => ({
    name: 'lift',
    phase: 'lift',
    hike: HIKE.lift / HIKE.pass,
    along,
    places: [placingLeg(body, side, air)],
  })
  const pass = (airs: readonly LegInAir[]): Step => ({
    name: 'pass',
    phase: 'travel',
    hike: 1,
    along: 0.5,
    places: airs.map((air) => placingLeg(body, side, air)),
  })
  return shuffles
    ? [
        lift(leg(0.08, 0.1, clear * 0.4, clear * 0.7, clear * 0.25), 0.15),
        pass([leg(0.5, 0.5, clear, clear, clear * 0.5)]),
      ]
    : [
        lift(leg(0.06, 0.12, clear * 0.25, clear * 0.4, clear * 0.25), 0.1),
        pass(KNEE_OUT.map((out) => leg(0.52, 0.72, 0, clear, clear * 0.7, out))),
      ]
}

/** A knee that comes forward goes round his own belly, the other thigh, an arm: so far out for one ahead. */
const KNEE_OUT: readonly number[] = [0.35, 1.2]

/** Height of what the leg's pads bear on, m; of the ground where none does. */
const floorUnder = (pose: ReachedPose, side: Side) =>
  pose.pads.reduce(
    (high, { part, centre }) =>
      sideOf(part) === side && partKind(part) !== 'hand' ? Math.max(high, centre[1]) : high,
    0,
  )

/** The level direction from one place to another. */
function levelWay(from: Vec3, to: Vec3, fallback: Vec3): Vec3 {
  const [x, , z] = sub(to, from)
  const size = Math.hypot(x, z)
  return size < 1e-6 ? fallback : [x / size, 0, z / size]
}

const mix = (a: KeyPose, b: KeyPose, id: keyof Controls, share: number) =>
  a.pose.reached[id] + (b.pose.reached[id] - a.pose.reached[id]) * share

/** The hand's way is an arc: off what it leaves, past, and onto what it goes to. */
function handSteps({ scene, transfer }: Job, over: KeyPose, touch: KeyPose): Step[] {
  const side = sideOf(transfer.limb)
  const [a, b] = [over.pose.joints[`knuckle${side}`], touch.pose.joints[`knuckle${side}`]]
  const normal: Vec3 = transfer.plant[0]?.normal ?? [0, 1, 0]
  const clear = CLEARANCE.hand * scene.body.stature
  const hand = (share: number, off: number): Placing => {
    const at = addScaled(add(lerp(a, b, share), [0, off * clear * 0.5, 0]), normal, off * clear)
    return () => ({
      ...put(`arm${side}.hand`, at),
      [`arm${side}.wrist`]: mix(over, touch, `arm${side}.wrist`, share),
    })
  }
  const lift: Step = { name: 'lift', phase: 'lift', places: [hand(0.06, 0.5)], hike: 0, along: 0.15 }
  const pass: Step = comesDown(transfer)
    ? { name: 'pass', phase: 'travel', places: [hand(0.4, STRIKE.raise)], hike: 0, ...STRIKE }
    : { name: 'pass', phase: 'travel', places: [hand(0.6, 1)], hike: 0, along: 0.6 }
  return transfer.release.length > 0 ? [lift, pass] : [pass]
}
