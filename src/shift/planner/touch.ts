import type { Side } from '../../body/model'
import type { Controls } from '../../document/channels'
import { sideOf } from '../../document/contacts'
import { put } from '../../pose/grasp'
import type { ReachedPose } from '../../pose/types'
import { add, addScaled, distance, scale, sub, type Vec3 } from '../../space/vec'
import type { Balanced } from './balance'
import { GATE } from './constants'
import { firstHeld, hiked, hold, type Job, plumbOfStill, spanOf, staying, swingEase, unlisted } from './job'
import { type KeyPose, keyPose } from './key-pose'
import { aheadOf, leftOf, outward } from './moves'
import { plumbOf, poseOf } from './region'
import { centimetres, failed, type Solved, solved } from './sound'
import type { Spot, Still } from './types'

/** The mover down where it should be, with the weight still on the others. */
export function* touching(job: Job, over: KeyPose): Generator<null, Solved<KeyPose>> {
  const { transfer } = job
  // What only leaves touches nothing: the pose goes on from over.
  if (transfer.plant.length === 0 && transfer.reach === null) return solved(over)
  const contacts = [...staying(job), ...transfer.plant.map(spanOf)]
  const base = { controls: hiked(job, unlisted(job, over.still.controls), 0.3), contacts }
  if (transfer.limb.startsWith('arm')) return yield* handDown(job, base, over)
  const held = yield* kneelsDown(job) ? kneeDown(job, base, over) : footDown(job, base, over)
  return held.ok ? solved(keyPose('touch', 'touch', held.value)) : held
}

const kneelsDown = ({ transfer }: Job) => transfer.plant.some(({ kind }) => kind === 'kneecap')

function* footDown(job: Job, base: Still, over: KeyPose): Generator<null, Solved<Balanced>> {
  const pose = poseOf(job.scene, base)
  return yield* firstHeld(KNEE_OUT, (out) => {
    const knee = kneeAhead(job, pose, sideOf(job.transfer.limb), out)
    const still = { ...base, controls: { ...base.controls, ...knee } }
    // What the weight has come to stays while the limb is in the air.
    return hold(job, still, plumbOf(over.pose), swingEase(job.way))
  })
}

/**
 * With both knees down the pelvis hangs on the two thighs: the wider they stand, the further it drops and lists
 * and the less of the weight goes with it. Sitting back, with the free hip turned forward, makes room for it.
 */
function* kneeDown(job: Job, base: Still, over: KeyPose): Generator<null, Solved<Balanced>> {
  const { scene, transfer } = job
  const { thigh } = scene.body.lengths
  const ahead = aheadOf(over.pose)
  const forward = -outward(sideOf(transfer.limb))
  return yield* firstHeld(WIDER, ({ sit, turn }) => {
    const c = base.controls
    const back = -thigh * Math.sin(sit)
    const controls: Controls = {
      ...c,
      'pelvis.x': c['pelvis.x'] + ahead[0] * back,
      'pelvis.z': c['pelvis.z'] + ahead[2] * back,
      'pelvis.y': c['pelvis.y'] - thigh * (1 - Math.cos(sit)),
      'pelvis.turn': c['pelvis.turn'] + forward * turn,
      // The chest keeps half of its facing.
      'chest.turn': c['chest.turn'] - (forward * turn) / 2,
    }
    const still = { ...base, controls }
    const from = sit === 0 ? plumbOf(over.pose) : plumbOfStill(scene, still)
    return hold(job, still, from, { ...swingEase(job.way), ...(turn > 0 && { 'pelvis.turn': 0.3 }) })
  })
}
/** How far he sits back, as an angle of the thighs, and turns the free hip forward, rad; the least first. */
const WIDER: readonly { readonly sit: number; readonly turn: number }[] = [
  { sit: 0, turn: 0 },
  { sit: 0.3, turn: 0.2 },
  { sit: 0.55, turn: 0.35 },
  { sit: 0.85, turn: 0.4 },
]

/** A knee over a planted foot points where the pelvis does, a little outward: by `out`, over H. */
function kneeAhead({ scene }: Job, pose: ReachedPose, side: Side, out: number): Partial<Controls> {
  const ahead = addScaled(pose.joints[`hip${side}`], aheadOf(pose), scene.body.lengths.thigh)
  return put(`leg${side}.knee`, addScaled(ahead, leftOf(pose), outward(side) * out * scene.body.stature))
}
const KNEE_OUT: readonly number[] = [0.05, 0.16]

/**
 * The hand on its place: the trunk leans on toward it, sitting back where that alone doesn't do, until the arm
 * reaches. Found with the hand in the air, since a planted one would pull the trunk after it.
 */
function* handDown(job: Job, base: Still, over: KeyPose): Generator<null, Solved<KeyPose>> {
  const { scene, transfer } = job
  const side = sideOf(transfer.limb)
  const part = `hand${side}` as const
  const to = transfer.reach ?? (transfer.plant[0] as Spot).position
  const free = base.contacts.filter((contact) => contact.part !== part)
  const place = () => put(`arm${side}.hand`, to)
  let last: Solved<KeyPose> = failed('place', 0, 'His hand cannot reach there.')
  for (const still of leansToward(job, over, base.controls, to)) {
    const inAir = { contacts: free, controls: { ...still, ...place() } }
    const leant = poseOf(scene, inAir)
    const away = distance(leant.joints[`knuckle${side}`], to)
    yield null
    // Balancing brings it no nearer than that.
    if (away >= NEARLY * scene.body.stature) {
      if (!last.ok && last.limit.code !== 'weight') last = short(side, away)
      continue
    }
    const near = yield* hold(job, inAir, plumbOf(leant), swingEase(job.way), place)
    if (!near.ok) {
      if (!last.ok && (last.limit.code === 'place' || last.limit.code === 'limb')) last = near
      continue
    }
    const off = distance(near.value.pose.joints[`knuckle${side}`], to)
    const allowed = transfer.reach ? GATE.miss : ONTO
    if (off >= allowed * scene.body.stature) {
      last = short(side, off)
      continue
    }
    if (transfer.reach) return solved(keyPose('touch', 'touch', near.value))
    const down = { contacts: base.contacts, controls: near.value.still.controls }
    const held = yield* hold(job, down, plumbOf(near.value.pose), swingEase(job.way))
    if (held.ok) return solved(keyPose('touch', 'touch', held.value))
    last = held
  }
  return last
}

const short = (side: Side, by: number) =>
  failed('limb', by, `His ${side === 'L' ? 'left' : 'right'} hand stays ${centimetres(by)} short.`)

/** Trunks that lean toward a place, further and further, first as he is and then sitting back. */
function* leansToward({ scene }: Job, { pose }: KeyPose, c: Controls, to: Vec3): Generator<Controls> {
  const { thigh } = scene.body.lengths
  const [ahead, left] = [aheadOf(pose), leftOf(pose)]
  const middle = scale(add(pose.joints.shoulderL, pose.joints.shoulderR), 0.5)
  const way = sub(to, middle)
  const [x, z] = [way[0] * left[0] + way[2] * left[2], way[0] * ahead[0] + way[2] * ahead[2]]
  const level = Math.hypot(x, z) || 1
  for (const sit of SITS)
    for (let i = 0; i <= LEAN_STEPS; i++) {
      const lean = (i / LEAN_STEPS) * LEAN_MOST
      const [fore, aside] = [(lean * z) / level, (lean * x) / level]
      const back = -thigh * Math.sin(sit)
      yield {
        ...c,
        'pelvis.x': c['pelvis.x'] + ahead[0] * back,
        'pelvis.z': c['pelvis.z'] + ahead[2] * back,
        'pelvis.y': c['pelvis.y'] - thigh * (1 - Math.cos(sit)),
        'pelvis.tilt': c['pelvis.tilt'] + 0.45 * fore,
        'chest.tilt': c['chest.tilt'] + 0.55 * fore,
        'chest.list': c['chest.list'] - 0.5 * aside,
        'head.tilt': c['head.tilt'] - 0.5 * fore,
      }
    }
}

/** How near a hand must come before the weight is balanced, over H. */
const NEARLY = 0.06
/** How near a hand in the air must come to its place before it is planted there, over H. */
const ONTO = 0.006
/** How far he sits back to reach low, as an angle of the thighs, rad. */
const SITS: readonly number[] = [0, 0.5, 1]
const LEAN_STEPS = 7
/** Furthest lean toward a place, rad: 100°, pelvis and chest together. */
const LEAN_MOST = 1.75
