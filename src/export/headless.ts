import { makeBody } from '../body/model'
import { LIMBS, type LimbId } from '../document/contacts'
import type { Plan, Take } from '../document/plan'
import { makeMotion } from '../pose/between'
import type { ReachedPose } from '../pose/types'
import { centimetres } from '../sheet/format'
import { sheetOf } from '../sheet/sheet'
import type { Sheet } from '../sheet/types'
import { type VerdictWords, verdictWords } from '../sheet/words'
import type { Vec3 } from '../space/vec'
import { PUSH_NONE } from '../weigh/constants'
import { type PoseWeighing, weighPose } from '../weigh/pose'
import type { Body, Verdict, Weighing } from '../weigh/types'

/** A take of a plan weighed frame by frame, each held still. */
export function weighTake(plan: Plan, take: Take): TakeWeighed {
  const motion = makeMotion(makeBody(plan.body), take)
  const weighed = Array.from({ length: take.length }, (_, frame) =>
    weighPose(plan.ground, plan.gravity, plan.body.stature, motion.poseAt(frame), plan),
  )
  const frames = weighed.map(({ body, weighing, verdicts }, frame) =>
    frameReport(
      plan.firstFrame + frame,
      body,
      weighing,
      LIMBS.map((id) => [id, verdicts[id]] as const),
    ),
  )
  const sheet = sheetOf(plan, take, motion, (frame) => {
    const at = weighed[frame]
    return at && { weighing: at.weighing, verdict: at.judge(take.mover) }
  })
  const said = sheet.rows
    .filter(({ mark }) => mark.kind === 'key')
    .map(({ frame }) => ({
      frame,
      words: wordsAt(plan, take, motion.poseAt(frame), weighed[frame] as PoseWeighing),
    }))
  return { report: { frames }, sheet, said }
}

export interface TakeWeighed {
  readonly report: WeighReport
  readonly sheet: Sheet
  /** Whether the mover can lift, at every key pose; frames from 0. */
  readonly said: readonly { readonly frame: number; readonly words: VerdictWords }[]
}

function wordsAt(plan: Plan, { mover }: Take, pose: ReachedPose, weighed: PoseWeighing): VerdictWords {
  return verdictWords({
    mover,
    verdict: weighed.judge(mover),
    weighing: weighed.weighing,
    pose,
    gravity: plan.gravity,
    unit: centimetres(plan.body.stature),
  })
}

/** SI units: m, N; shares are of the weight. World frame, +X the body's left, +Y up, +Z forward. */
export interface WeighReport {
  readonly frames: readonly FrameReport[]
}

export interface FrameReport {
  /** The frame's number on the sheet; 0 for a problem file. */
  readonly frame: number
  /** Centre of mass. */
  readonly com: Vec3
  /** From the plumb to the edge of where the weight can be, negative outside; null where that is nowhere. */
  readonly room: number | null
  /** Push from nowhere, N: √(|force|² + |moment / L|²) with L a quarter of the stature; 0 where there is none. */
  readonly push: number
  readonly limbs: readonly LimbReport[]
  readonly contacts: readonly ContactReport[]
}

export interface LimbReport {
  readonly id: string
  /** Along the contacts' normals, N. */
  readonly load: number
  /** Load over weight. */
  readonly share: number
  readonly least: number
  readonly most: number
  readonly verdict: Verdict['kind']
  /** How far the weight must go until it could be lifted, and until safely, m; null where that is nowhere. */
  readonly emptyAt: number | null
  readonly safeAt: number | null
}

export interface ContactReport {
  readonly id: string
  readonly load: number
  readonly share: number
  readonly least: number
  readonly most: number
  /** 0 … 1. */
  readonly frictionUsed: number
}

export function frameReport(
  frame: number,
  body: Body,
  weighing: Weighing,
  verdicts: readonly (readonly [limb: LimbId | string, verdict: Verdict])[],
): FrameReport {
  const { push, room } = weighing
  return {
    frame,
    com: body.com,
    room: Number.isFinite(room) ? room : null,
    push: push.size < PUSH_NONE ? 0 : push.size * body.mass * body.gravity,
    limbs: verdicts.map(([id, verdict]) => {
      const limb = weighing.limbs.find((l) => l.id === id)
      return {
        id,
        load: limb?.load ?? 0,
        share: limb?.share ?? 0,
        least: limb?.least ?? 0,
        most: limb?.most ?? 0,
        verdict: verdict.kind,
        emptyAt: verdict.empty?.distance ?? null,
        safeAt: verdict.safe?.distance ?? null,
      }
    }),
    contacts: weighing.contacts.map(({ id, load, share, least, most, frictionUsed }) => ({
      id,
      load,
      share,
      least,
      most,
      frictionUsed,
    })),
  }
}
