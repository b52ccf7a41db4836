import type { Side } from '../../body/model'
import type { Controls } from '../../document/channels'
import { sideOf } from '../../document/contacts'
import { put } from '../../pose/grasp'
import type { ReachedPose } from '../../pose/types'
import { addScaled, distance, sub } from '../../space/vec'
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
    return hold(job, still, from, swingEase(job.way))
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

/** The hand on its place: the trunk leans on toward it until the arm reaches. */
function* handDown(job: Job, base: Still, over: KeyPose): Generator<null, Solved<KeyPose>> {
  const { scene, transfer } = job
  const side = sideOf(transfer.limb)
  const to = transfer.reach ?? (transfer.plant[0] as Spot).position
  const [ahead, left] = [aheadOf(over.pose), leftOf(over.pose)]
  const way = sub(to, over.pose.joints[`shoulder${side}`])
  const [x, z] = [way[0] * left[0] + way[2] * left[2], way[0] * ahead[0] + way[2] * ahead[2]]
  const level = Math.hypot(x, z) || 1
  const place = transfer.reach ? () => put(`arm${side}.hand`, to) : null
  let last: Solved<KeyPose> = failed('place', 0, 'His hand cannot reach there.')
  for (let i = 0; i <= LEAN_STEPS; i++) {
    const lean = (i / LEAN_STEPS) * LEAN_MOST
    const [fore, aside] = [(lean * z) / level, (lean * x) / level]
    const c = base.controls
    const controls: Controls = {
      ...c,
      'pelvis.tilt': c['pelvis.tilt'] + 0.45 * fore,
      'chest.tilt': c['chest.tilt'] + 0.55 * fore,
      'chest.list': c['chest.list'] - 0.5 * aside,
      'head.tilt': c['head.tilt'] - 0.5 * fore,
      ...place?.(),
    }
    const still = { ...base, controls }
    const held = yield* hold(job, still, plumbOfStill(scene, still), swingEase(job.way), place)
    if (!held.ok) {
      if (!last.ok && last.limit.code === 'place') last = held
      continue
    }
    const off = transfer.reach ? distance(held.value.pose.joints[`knuckle${side}`], to) : 0
    if (off < GATE.miss * scene.body.stature) return solved(keyPose('touch', 'touch', held.value))
    last = failed('limb', off, `His ${side === 'L' ? 'left' : 'right'} hand stays ${centimetres(off)} short.`)
  }
  return last
}

const LEAN_STEPS = 9
/** Furthest lean toward a place, rad: 75°. */
const LEAN_MOST = 1.3
