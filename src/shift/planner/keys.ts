import type { ContactPart } from '../../document/contacts'
import { inTheAir } from './air'
import { carriedAfter } from './carried'
import type { Job } from './job'
import { type KeyPose, type Keys, keyPose } from './key-pose'
import { weightOver } from './over'
import { poseOf, regionOf } from './region'
import { shared } from './rest'
import { failed, type Solved, solved } from './sound'
import { touching } from './touch'
import type { Scene, Still, Transfer } from './types'
import type { Way } from './ways'

/**
 * Solves the key poses of a transfer: the weight over what stays, the limb up, past and down, and the weight
 * shared again. Each has its weight where the contacts that bear can hold it with room to spare. Yields between
 * poses.
 * @param push 1 … 2: how far lean and drop are driven past what the weight needs
 */
export function* solveKeys(
  scene: Scene,
  start: Still,
  transfer: Transfer,
  way: Way,
  push = 1,
): Generator<null, Solved<Keys>> {
  const pose = poseOf(scene, start)
  const stays = (part: ContactPart) => !transfer.release.includes(part)
  const region = regionOf(scene, pose, stays)
  if (region.length === 0) return failed('nothing', 0, 'Nothing that stays could hold him.')
  const job: Job = { scene, start, pose, transfer, way, region, push }
  const ready: KeyPose = { name: 'ready', phase: 'ready', still: start, pose }
  const keys: KeyPose[] = [ready]
  let over = ready
  if (transfer.release.length > 0) {
    const solvedOver = yield* weightOver(job)
    if (!solvedOver.ok) return solvedOver
    over = keyPose('over', 'sink', solvedOver.value)
    keys.push(over)
  }
  const touch = yield* touching(job, over)
  if (!touch.ok) return touch
  if (transfer.release.length > 0 || transfer.limb.startsWith('arm')) {
    const air = yield* inTheAir(job, over, touch.value)
    if (!air.ok) return air
    keys.push(...air.value)
  }
  if (touch.value !== over) keys.push(touch.value)
  const after = { ...job, scene: { ...scene, loads: carriedAfter(scene, transfer) } }
  const rest = yield* shared(after, landed(after, touch.value))
  if (!rest.ok) return rest
  keys.push(...rest.value)
  const at = (name: KeyPose['name']) => keys.findIndex((key) => key.name === name)
  return solved({ transfer, keys, leaves: at('over'), touches: at('touch') })
}

/** What bears once the mover is down, or has left for good. */
function landed({ scene, transfer }: Job, touch: KeyPose): KeyPose {
  const gone = transfer.plant.length > 0 ? [] : transfer.release
  const contacts = touch.still.contacts.filter(({ part }) => !gone.includes(part))
  return { ...touch, still: { ...touch.still, contacts }, pose: poseOf(scene, touch.still) }
}
