import type { Controls } from '../../document/channels'
import { contactOf } from '../../weigh/pose'
import { weigh } from '../../weigh/weigh'
import type { Balanced } from './balance'
import { HEAD_LEVEL, OPPOSE, ROOMS, SINK_DROP, STILL_CARRIES } from './constants'
import { riding } from './hang'
import { hold, type Job, plumbOfStill, TRUNK_CHANNELS } from './job'
import { aheadOf } from './moves'
import { plumbOf, poseOf, roomAt } from './region'
import { type Solved, solved } from './sound'
import type { Still } from './types'

/** The weight over what stays while everything still touches; the shoulders oppose the hip line. */
export function* weightOver(job: Job): Generator<null, Solved<Balanced>> {
  const { scene, start, pose, way } = job
  const base = { ...start, controls: leaning(job) }
  const from = way.sit > 0 ? plumbOfStill(scene, base) : plumbOf(pose)
  const enough = (at: Balanced) => emptied(job, at)
  const plain = yield* hold(job, base, from, way.ease, null, job.region, enough)
  if (!plain.ok) return plain
  // The same weight again, with the shoulders opposed.
  const room = roomAt(scene, job.region, plumbOf(plain.value.pose)) - 1e-3
  const opposing = yield* hold(job, opposed(job, plain.value), from, way.ease, null, job.region, enough, [
    Math.max(ROOMS[0] ?? 0, room),
  ])
  const best = opposing.ok ? opposing.value : plain.value
  return solved(job.push > 1 ? pushed(job, best) : best)
}

/** Whether the mover, its pads all but taken off, carries next to nothing. */
function emptied({ scene, transfer }: Job, { pose }: Balanced): boolean {
  const contacts = pose.pads.map((pad) => {
    const contact = contactOf(scene.ground, pad)
    return transfer.release.includes(pad.part) ? { ...contact, stiffness: 0 } : contact
  })
  const body = { mass: pose.mass, com: pose.com, stature: scene.body.stature, gravity: scene.gravity }
  const { contacts: loads } = weigh(contacts, body, { ranges: false, region: false })
  return loads.every(({ share }, c) => {
    const pad = pose.pads[c]
    return !pad || !transfer.release.includes(pad.part) || share <= STILL_CARRIES
  })
}

/** What he starts from to lean: a little lower, or sitting back. */
function leaning({ scene, pose, way }: Job): Controls {
  const controls = pose.reached
  const thigh = scene.body.lengths.thigh
  const angle = (way.sit * Math.PI) / 2
  const ahead = aheadOf(pose)
  const back = -thigh * Math.sin(angle)
  return {
    ...controls,
    'pelvis.x': controls['pelvis.x'] + ahead[0] * back,
    'pelvis.z': controls['pelvis.z'] + ahead[2] * back,
    'pelvis.y': controls['pelvis.y'] - thigh * (1 - Math.cos(angle)) - SINK_DROP * scene.body.stature,
  }
}

/** Shoulders against the hip line, the head nearer to level. */
function opposed({ pose, scene }: Job, { still, pose: now }: Balanced): Still {
  const list = (p: typeof pose) => Math.asin(p.segments.lowerTrunk.rotation[3])
  const tipped = list(now) - list(pose)
  const before = pose.reached
  const oppose = -OPPOSE * tipped
  const chest = still.controls['chest.list'] - before['chest.list']
  const lean = Math.abs(chest) > Math.abs(oppose) && chest * oppose > 0 ? chest : oppose
  const controls = {
    ...still.controls,
    'chest.list': before['chest.list'] + lean,
    'head.list': before['head.list'] - HEAD_LEVEL * (tipped + lean),
    'head.tilt': before['head.tilt'] - HEAD_LEVEL * (still.controls['chest.tilt'] - before['chest.tilt']),
  }
  return riding({ ...still, controls }, pose, poseOf(scene, { ...still, controls }))
}

/** Past what the weight needs, on purpose: the trunk's departure from the start scaled. */
function pushed({ scene, pose, push }: Job, { still, pose: now, ...rest }: Balanced): Balanced {
  const controls: Record<string, number> = { ...now.reached }
  for (const id of TRUNK_CHANNELS)
    controls[id] = pose.reached[id] + (now.reached[id] - pose.reached[id]) * push
  const past = { ...still, controls: controls as Controls }
  return { ...rest, still: past, pose: poseOf(scene, past) }
}
