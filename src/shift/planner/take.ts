import { CHANNELS, type ChannelId, type Controls, type Key } from '../../document/channels'
import { type LimbId, sideOf } from '../../document/contacts'
import type { Phase, PhaseName, Take } from '../../document/plan'
import { distance } from '../../space/vec'
import { TAKE_UP, TIME_STATURE } from '../../weigh/dynamic-constants'
import { DRIFT, PRESS_SHARE, SECONDS, SINK_SHARE, SPANS, STRIKE, THROWN } from './constants'
import type { KeyName, KeyPose, Keys } from './key-pose'
import { loadsOf, spansOf } from './spans'
import type { KeyFrame, Scene } from './types'

/** What a chain of transfers is played in. */
export interface Pacing {
  /** 0 careful … 1 thrown. */
  readonly pace: number
  /** How much longer each span is than its table, one row a transfer; see `spansOf`. */
  readonly stretch: readonly (readonly number[])[]
  /** How long before the weight rests the mover leaves, as a share of that span, one number a transfer. */
  readonly early: readonly number[]
  /** Frames to wait before the first move. */
  readonly wait: number
}

/** A chain laid out in frames. */
export interface Layout {
  readonly take: Take
  readonly keys: readonly KeyFrame[]
  /** First and last frame of the shift. */
  readonly from: number
  readonly to: number
  /** Of each transfer: the frames of its keys. */
  readonly frames: readonly (readonly number[])[]
  /** Of each transfer: the last frame before the released parts leave; null where none do. */
  readonly leaves: readonly (number | null)[]
}

/**
 * Lays a chain of key poses out in frames as a new take: the old one up to `frame`, then the shift. What
 * was carried or planted there goes on.
 */
export function layOut(
  scene: Scene,
  old: Take,
  frame: number,
  chain: readonly Keys[],
  pacing: Pacing,
  limb: Take['mover'],
): Layout {
  const frames: number[][] = []
  const marks: Mark[] = []
  const phases: Omit<Phase, 'id'>[] = []
  let at = frame
  chain.forEach((stage, s) => {
    const row: number[] = []
    stage.keys.forEach((pose, i) => {
      if (i === 0) {
        if (s === 0) marks.push({ frame: at, pose, ...EASES.rest })
        const ready = s === 0 ? framesOf(scene, SECONDS.ready, 1, 1) + pacing.wait : 0
        if (ready > 0) phases.push({ name: 'ready', from: at, to: at + ready })
        at += ready
        if (ready > 0 || s === 0) marks.push({ frame: at, pose, ...EASES.ready })
        row.push(at)
        return
      }
      const before = at
      at += framesOf(
        scene,
        secondsOf(scene, i, stage),
        paceOf(pose.name, pacing.pace),
        pacing.stretch[s]?.[i] ?? 1,
      )
      row.push(at)
      marks.push({
        frame: at,
        pose,
        ...EASES[pose.name],
        strikes: strikes(scene, stage, pose.name, pacing.stretch[s]?.[i] ?? 1),
      })
      phases.push(...phasesOf(scene, pose.name, before, at))
    })
    frames.push(row)
  })
  const leaves = chain.map(({ leaves: i }, s) => leaveOf(frames[s] ?? [], i, pacing.early[s] ?? 0))
  const end = at + framesOf(scene, SECONDS.hold, 1, 1)
  const lastPhase = phases.at(-1)
  if (lastPhase?.name === 'settle') phases[phases.length - 1] = { ...lastPhase, to: end }
  const take: Take = {
    ...old,
    length: end + 1,
    channels: channelsOf(scene, old, frame, marks, end),
    contacts: spansOf(old, frame, chain, frames, leaves, end),
    loads: loadsOf(old, frame, chain, frames, end),
    phases: [
      ...old.phases.filter(({ to }) => to < frame),
      ...merged(phases).map((phase, i) => ({ ...phase, id: `shift-${frame}-${i + 1}` })),
    ],
    notes: old.notes.filter((note) => note.frame <= frame),
    mover: limb,
    pace: pacing.pace,
  }
  return {
    take,
    keys: marks.slice(1).map(({ frame: f, pose }) => ({ frame: f, phase: pose.phase })),
    from: frame,
    to: end,
    frames,
    leaves,
  }
}

/** While the weight still slows down it presses further over than it stands: the mover is empty before it rests. */
function leaveOf(row: readonly number[], i: number, early: number): number | null {
  const [from, to] = [row[i - 1], row[i]]
  return from === undefined || to === undefined ? null : Math.round(to - early * (to - from))
}

interface Mark extends Ease {
  readonly frame: number
  readonly pose: KeyPose
  /** The arm that comes down with this key, and in how many frames. */
  readonly strikes?: { readonly arm: LimbId; readonly frames: number } | null
}

const strikes = (scene: Scene, { transfer: { kind, limb } }: Keys, name: KeyName, stretch: number) =>
  kind === 'strike' && name === 'touch'
    ? { arm: limb, frames: framesOf(scene, STRIKE.falls, 1, stretch) }
    : null

interface Ease {
  readonly in: number
  readonly out: number
}

/** Strong and short going, weak and long arriving; through the passing breakdown without slowing. */
const EASES: Readonly<Record<KeyName, Ease>> = {
  ready: { in: 1, out: 0.2 },
  over: { in: 1, out: 0.8 },
  lift: { in: 0.35, out: 0.35 },
  pass: { in: 0, out: 0 },
  touch: { in: 0.5, out: 0.3 },
  share: { in: 0.9, out: 0.9 },
  back: { in: 0.9, out: 0.9 },
  rest: { in: 1, out: 1 },
}

/**
 * Seconds at √s = 1 that lead to a key. At one push a way takes its square root in time: the table's seconds are
 * for the ways of SPANS.
 */
function secondsOf({ body }: Scene, i: number, { transfer, keys }: Keys): number {
  const [was, now] = [keys[i - 1], keys[i]] as [KeyPose, KeyPose]
  const weight = Math.hypot(now.pose.com[0] - was.pose.com[0], now.pose.com[2] - was.pose.com[2])
  const far = (way: number, usual: number) =>
    Math.max(SPANS.least, Math.min(SPANS.most, Math.sqrt(way / (usual * body.stature))))
  const limb = () => far(travelOf(transfer, keys), SPANS.limb)
  switch (now.name) {
    case 'over':
      return SECONDS.over * far(weight, SPANS.over)
    case 'lift':
      return SECONDS.lift
    case 'pass':
      return SECONDS.pass * limb()
    case 'touch':
      return SECONDS.reach * limb()
    case 'share':
      return transfer.kind === 'strike' ? STRIKE.seconds : SECONDS.share * far(weight, SPANS.share)
    default:
      return SECONDS.settle
  }
}

/** How far the mover's end goes in all, m. */
function travelOf({ limb }: Keys['transfer'], keys: readonly KeyPose[]): number {
  const side = sideOf(limb)
  const end = limb.startsWith('arm') ? (`knuckle${side}` as const) : (`ankle${side}` as const)
  const [first, last] = [keys[0] as KeyPose, keys.at(-1) as KeyPose]
  return distance(first.pose.joints[end], last.pose.joints[end])
}

/** A thrown move hurries where it may; a settle takes what the body's size takes. */
const paceOf = (name: KeyName, pace: number) => (name === 'back' || name === 'rest' ? 1 : 1 - THROWN * pace)

/** Times go with √(H / g). */
export function timeScale({ body, gravity }: Pick<Scene, 'body' | 'gravity'>): number {
  return Math.sqrt((body.stature / TIME_STATURE) * (9.81 / gravity))
}

const framesOf = (scene: Scene, seconds: number, pace: number, stretch: number) =>
  Math.max(1, Math.round(seconds * timeScale(scene) * scene.fps * pace * stretch))

function phasesOf(scene: Scene, name: KeyName, from: number, to: number): Omit<Phase, 'id'>[] {
  const part = (share: number) => Math.round(from + (to - from) * share)
  const span = (phase: PhaseName, a: number, b: number) => ({ name: phase, from: a, to: Math.max(a, b) })
  switch (name) {
    case 'over':
      return [
        span('press', from + 1, part(PRESS_SHARE)),
        span('lean', part(PRESS_SHARE / 2), part(SINK_SHARE)),
        span('sink', part(SINK_SHARE), to),
      ]
    case 'lift':
      return [span('lift', from + 1, to)]
    case 'pass':
      return [span('travel', from, to)]
    case 'touch':
      return [span('travel', from, Math.max(from, to - 1)), span('touch', to, to)]
    case 'share': {
      const taken = Math.min(to, from + framesOf(scene, TAKE_UP, 1, 1))
      return [span('take-up', from + 1, taken), span('share', Math.min(taken + 1, to), to)]
    }
    default:
      return [span('settle', from, to)]
  }
}

/** Neighbouring spans of one name as one. */
function merged(phases: readonly Omit<Phase, 'id'>[]): Omit<Phase, 'id'>[] {
  const out: Omit<Phase, 'id'>[] = []
  for (const phase of phases) {
    const last = out.at(-1)
    if (last && last.name === phase.name && phase.from <= last.to + 1)
      out[out.length - 1] = { ...last, to: Math.max(last.to, phase.to) }
    else out.push(phase)
  }
  return out
}

const FOLLOWS: ReadonlySet<ChannelId> = new Set([
  'chest.turn',
  'chest.list',
  'chest.tilt',
  'head.turn',
  'head.list',
  'head.tilt',
] as const)

function channelsOf(
  scene: Scene,
  old: Take,
  frame: number,
  marks: readonly Mark[],
  end: number,
): Take['channels'] {
  const last = marks.at(-1) as Mark
  return Object.fromEntries(
    CHANNELS.map((id) => {
      const keys: Key[] = old.channels[id].filter((key) => key.frame < frame)
      marks.forEach((mark, i) => {
        const value = mark.pose.still.controls[id]
        // The chest follows the pelvis, the head the chest: slow out, and late in.
        const late = FOLLOWS.has(id) && (mark.pose.name === 'ready' || mark.pose.name === 'over')
        const ease = late ? { in: mark.pose.name === 'over' ? 0 : 1, out: 1 } : { in: mark.in, out: mark.out }
        const before = marks[i - 1]
        if (before) keys.push(...raised(before, mark, id))
        keys.push({ frame: mark.frame, value, ...ease })
      })
      keys.push({ frame: end, value: drifted(scene, id, last.pose.still.controls), in: 1, out: 1 })
      return [id, keys]
    }),
  ) as Record<ChannelId, Key[]>
}

/** A striking hand stays up while the body comes on, and then has half of its way before it in a few frames. */
function raised(before: Mark, { frame: touches, pose, strikes: how }: Mark, id: ChannelId): Key[] {
  if (!how || !id.startsWith(how.arm)) return []
  const frame = touches - how.frames
  if (frame <= before.frame) return []
  const [from, to] = [before.pose.still.controls[id], pose.still.controls[id]]
  return [{ frame, value: (from + to) / 2, in: 0, out: 0 }]
}

/** A hold that doesn't stop dead: the pelvis goes on sinking by a hair. */
const drifted = (scene: Scene, id: ChannelId, controls: Controls) =>
  controls[id] - (id === 'pelvis.y' ? DRIFT * scene.body.stature : 0)
