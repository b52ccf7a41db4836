import { type BodyModel, SIDES, type Side } from '../body/model'
import { padOutline } from '../contact/pads'
import type { Controls } from '../document/channels'
import { type ContactSpan, contactOfPart, limbOf, sideOf } from '../document/contacts'
import type { CarriedLoad } from '../document/plan'
import { apply, type Mat3, multiply, toAngles } from '../space/rotation'
import { add, distance, sub, type Vec3 } from '../space/vec'
import { anchor, pelvisRotation } from './anchor'
import { type ReachedArm, reachArm, reachToKnuckles, tieArm } from './arm'
import { fleshLimits } from './flesh'
import { type LegBase, legBase, type ReachedLeg, reachLeg, tieLeg } from './leg'
import { askedEnd } from './limb'
import { reachLimits } from './limits'
import { massOf } from './mass'
import { askedPelvis, solvePelvis, type Ties } from './solve'
import type { TieLists } from './ties'
import { spine, trunkJoints } from './trunk'
import type { Joints, PosePad, ReachedPose } from './types'

/**
 * Brings an asked pose within reach: what is planted stays exactly where its contact says, every limb
 * keeps its lengths, and pelvis and list move as little as that allows.
 *
 * World frame, m and rad. Where the planted contacts cannot all be met, the limb that misses keeps its
 * length, its pads are left out and it is named in `limits`. Never throws on finite numbers.
 * @param contacts those that hold at this frame
 * @param loads those carried at this frame
 */
export function reach(
  body: BodyModel,
  controls: Controls,
  contacts: readonly ContactSpan[],
  loads: readonly CarriedLoad[] = [],
): ReachedPose {
  const back = spine(controls)
  const local = trunkJoints(body, back)
  const turn = controls['pelvis.turn']
  const tilt = controls['pelvis.tilt']
  const place: Vec3 = [controls['pelvis.x'], controls['pelvis.y'], controls['pelvis.z']]
  const bases = both((side) => legBase(body, side, controls, contacts))
  const hands = both((side) => contactOfPart(contacts, 'hand', side))

  const ties = tiesOf(body, local, turn, tilt, bases, hands)
  const asked = { place, list: controls['pelvis.list'] }
  const solution = solvePelvis({ stature: body.stature, asked, ...ties })
  const pelvis = pelvisRotation(turn, solution.list, tilt)
  const chest = multiply(pelvis, back.chest)
  const at = solution.place
  const leg = {
    L: reachLeg(body, bases.L, moved(at, pelvis, local.hipL), controls),
    R: reachLeg(body, bases.R, moved(at, pelvis, local.hipR), controls),
  }
  const arm = {
    L: reachArm(body, 'L', hands.L, moved(at, pelvis, local.shoulderL), chest, controls),
    R: reachArm(body, 'R', hands.R, moved(at, pelvis, local.shoulderR), chest, controls),
  }
  const joints = collectJoints(local, at, pelvis, leg, arm)
  const rotations = {
    lowerTrunk: pelvis,
    middleTrunk: multiply(pelvis, back.middle),
    upperTrunk: chest,
    head: multiply(pelvis, back.head),
  }
  return new LazyPose(controls, joints, massOf(body, joints, rotations, leg, arm, loads), {
    bearings: () => bearingsOf(body, contacts, bases, leg, arm),
    pads: (bearings) => bearings.map((bearing) => padOf(body, bearing, bases)),
    reached: () => settledControls(body, controls, joints, pelvis, ties, leg, arm),
    limits: () => [
      ...reachLimits(body, controls, solution, bases, leg, arm, hands),
      ...fleshLimits(body, joints),
    ],
  })
}

interface Later {
  bearings(): readonly Bearing[]
  pads(bearings: readonly Bearing[]): ReachedPose['pads']
  reached(): Controls
  limits(): ReachedPose['limits']
}

/**
 * A motion is sampled between frames for its momentum alone: the rest of a pose is made when it is asked for.
 * A class, because an object with getters of its own costs the engine a shape of its own.
 */
class LazyPose implements ReachedPose {
  readonly segments
  readonly com
  readonly mass
  #bearings: readonly Bearing[] | null = null
  #pads: ReachedPose['pads'] | null = null
  #reached: Controls | null = null
  #limits: ReachedPose['limits'] | null = null
  readonly #make: Later

  constructor(
    readonly asked: Controls,
    readonly joints: Joints,
    { segments, mass, com }: ReturnType<typeof massOf>,
    make: Later,
  ) {
    this.segments = segments
    this.com = com
    this.mass = mass
    this.#make = make
  }

  get bearings() {
    this.#bearings ??= this.#make.bearings()
    return this.#bearings
  }
  get pads() {
    this.#pads ??= this.#make.pads(this.bearings)
    return this.#pads
  }
  get reached() {
    this.#reached ??= this.#make.reached()
    return this.#reached
  }
  get limits() {
    this.#limits ??= this.#make.limits()
    return this.#limits
  }
}

export type Both<T> = Readonly<Record<Side, T>>
const both = <T>(f: (side: Side) => T): Both<T> => ({ L: f('L'), R: f('R') })

/** A point of the pelvis's frame in the world. */
const moved = (at: Vec3, pelvis: Mat3, point: Vec3): Vec3 => add(at, apply(pelvis, point))

function collectJoints(
  local: ReturnType<typeof trunkJoints>,
  at: Vec3,
  pelvis: Mat3,
  leg: Both<ReachedLeg>,
  arm: Both<ReachedArm>,
): Joints {
  // Names written out: names put together at every pose are looked up slowly.
  const [legL, legR, armL, armR] = [leg.L, leg.R, arm.L, arm.R]
  return {
    midHip: moved(at, pelvis, local.midHip),
    hipL: moved(at, pelvis, local.hipL),
    hipR: moved(at, pelvis, local.hipR),
    waist: moved(at, pelvis, local.waist),
    breastbone: moved(at, pelvis, local.breastbone),
    neck: moved(at, pelvis, local.neck),
    crown: moved(at, pelvis, local.crown),
    shoulderL: moved(at, pelvis, local.shoulderL),
    shoulderR: moved(at, pelvis, local.shoulderR),
    kneeL: legL.knee,
    kneeR: legR.knee,
    ankleL: legL.ankle,
    ankleR: legR.ankle,
    heelL: legL.heel,
    heelR: legR.heel,
    ballL: legL.ball,
    ballR: legR.ball,
    toeL: legL.toe,
    toeR: legR.toe,
    elbowL: armL.elbow,
    elbowR: armR.elbow,
    wristL: armL.wrist,
    wristR: armR.wrist,
    knuckleL: armL.knuckle,
    knuckleR: armR.knuckle,
  }
}

/** Missing a planted place by less than this over stature still counts as touching it. */
const TOUCHES = 1e-6

/** A contact that is met, and where its pad's middle is. */
interface Bearing {
  readonly id: string
  readonly centre: Vec3
  readonly contact: ContactSpan
}

function bearingsOf(
  body: BodyModel,
  contacts: readonly ContactSpan[],
  bases: Both<LegBase>,
  leg: Both<ReachedLeg>,
  arm: Both<ReachedArm>,
): Bearing[] {
  const bearings: Bearing[] = []
  for (const contact of contacts) {
    const side = sideOf(contact.part)
    const over = contact.part.startsWith('hand') ? arm[side].over : leg[side].over
    if (Math.abs(over) > TOUCHES * body.stature) continue
    const centre = contact.part.startsWith('foot') ? slidCentre(contact, bases[side]) : contact.position
    bearings.push({ id: contact.id, centre, contact })
  }
  return bearings
}

function padOf(body: BodyModel, { centre, contact }: Bearing, bases: Both<LegBase>): PosePad {
  const { id, part, kind, on, normal } = contact
  const side = sideOf(part)
  const kneels = part.startsWith('foot') && bases[side].knee !== null
  const heading = kneels ? kneelingHeading(contact, bases[side]) : contact.heading
  const vertices = padOutline(body, kind, side, centre, heading, normal)
  return { id, part, limb: limbOf(part), kind, on, vertices, centre, normal }
}

/** Tucked toes and insteps of a kneeling leg lie along its shin, as the pose has it. */
function kneelingHeading(contact: ContactSpan, base: LegBase): number {
  if (base.kneeJoint === null || base.ankle === null) return contact.heading
  const shin = sub(base.kneeJoint, base.ankle)
  return Math.atan2(shin[0], shin[2])
}

function slidCentre(contact: ContactSpan, base: LegBase): Vec3 {
  if (Math.abs(base.slid) === 0 || base.kneeJoint === null) return contact.position
  const flat: Vec3 = [base.kneeJoint[0] - contact.position[0], 0, base.kneeJoint[2] - contact.position[2]]
  const far = distance(flat, [0, 0, 0])
  if (far < 1e-9) return contact.position
  return add(contact.position, [(flat[0] / far) * base.slid, 0, (flat[2] / far) * base.slid])
}

/**
 * The controls that, asked for with other contacts, give this very pose, as far as those allow it: a
 * curve that starts from them starts where the pose is.
 */
export function settledWith(body: BodyModel, pose: ReachedPose, contacts: readonly ContactSpan[]): Controls {
  const controls = pose.reached
  const place = pose.joints.midHip
  const pelvis = pose.segments.lowerTrunk.rotation
  const bases = both((side) => legBase(body, side, controls, contacts))
  const hands = both((side) => contactOfPart(contacts, 'hand', side))
  const { turn, list, tilt } = {
    turn: controls['pelvis.turn'],
    list: Math.asin(pelvis[3]),
    tilt: controls['pelvis.tilt'],
  }
  const ties = tiesOf(body, trunkJoints(body, spine(controls)), turn, tilt, bases, hands)
  return { ...controls, ...askedTrunk(body, place, list, ties) }
}

function tiesOf(
  body: BodyModel,
  local: ReturnType<typeof trunkJoints>,
  turn: number,
  tilt: number,
  bases: Both<LegBase>,
  hands: Both<ContactSpan | null>,
): Ties {
  const ties: TieLists = { rods: [], ropes: [] }
  tieLeg(ties, body, bases.L, anchor(local.hipL, turn, tilt))
  tieLeg(ties, body, bases.R, anchor(local.hipR, turn, tilt))
  if (hands.L) tieArm(ties, body, 'L', hands.L, anchor(local.shoulderL, turn, tilt))
  if (hands.R) tieArm(ties, body, 'R', hands.R, anchor(local.shoulderR, turn, tilt))
  return ties
}

function askedTrunk(body: BodyModel, place: Vec3, list: number, ties: Ties) {
  const [[x, y, z], asked] = askedPelvis(body.stature, place, list, ties)
  return { 'pelvis.x': x, 'pelvis.y': y, 'pelvis.z': z, 'pelvis.list': asked }
}

/** The controls that, asked for with the same contacts, give this very pose; freed limbs stay where they are. */
function settledControls(
  body: BodyModel,
  asked: Controls,
  joints: Joints,
  pelvis: Mat3,
  ties: Ties,
  leg: Both<ReachedLeg>,
  arm: Both<ReachedArm>,
): Controls {
  const { thigh, shank, upperArm, forearm, hand } = body.lengths
  const out: Record<string, number> = {
    ...asked,
    ...askedTrunk(body, joints.midHip, Math.asin(pelvis[3]), ties),
  }
  const put = (id: string, [x, y, z]: Vec3) => {
    out[`${id}.x`] = x
    out[`${id}.y`] = y
    out[`${id}.z`] = z
  }
  for (const side of SIDES) {
    put(`leg${side}.knee`, leg[side].knee)
    put(`leg${side}.ankle`, askedEnd(joints[`hip${side}`], leg[side].ankle, thigh, shank, 'leg'))
    const foot = footAngles(leg[side].footRotation)
    out[`leg${side}.pitch`] = foot.pitch
    out[`leg${side}.turn`] = foot.turn
    const lower = reachToKnuckles(forearm, hand, arm[side].bend)
    put(`arm${side}.hand`, askedEnd(joints[`shoulder${side}`], arm[side].knuckle, upperArm, lower, 'arm'))
    out[`arm${side}.wrist`] = arm[side].bend
  }
  return out as Controls
}

/** Pitch −90° … 270°, so that a foot lying on its instep (about 180°) doesn't flip its sign. */
function footAngles(rotation: Mat3): { pitch: number; turn: number } {
  const { turn, tilt } = toAngles(rotation)
  return { turn, pitch: tilt < -Math.PI / 2 ? tilt + 2 * Math.PI : tilt }
}
