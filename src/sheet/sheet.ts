import { makeBody } from '../body/model'
import type { Phase, Plan, Take } from '../document/plan'
import { contactsAt, type Motion } from '../pose/between'
import type { ReachedPose } from '../pose/types'
import { distance } from '../space/vec'
import { PUSH_NONE } from '../weigh/constants'
import type { Verdict, Weighing } from '../weigh/types'
import { clearanceOf, pathsOf } from './clearance'
import { secondsAt, timeCode } from './frames'
import { limbRows, sheetLimbs } from './limbs'
import { marksOf } from './marks'
import { legSupports, measuresOf } from './measures'
import type { BalanceRow, HalfStance, Mark, PhaseRow, Sheet, SheetHeader, SheetRow, Support } from './types'

/**
 * The timing sheet of a take: its header and a row a frame, as plain data.
 * @param motion the take in motion, of the plan's body
 * @param weighedAt the weighing of a frame and the verdict on the take's mover there; undefined while the
 *   frame is not weighed, whose loads, room and verdict are then null
 */
export function sheetOf(plan: Plan, take: Take, motion: Motion, weighedAt: WeighedAt): Sheet {
  const steps = sheetSteps(plan, take, motion, weighedAt)
  let step = steps.next()
  while (!step.done) step = steps.next()
  return step.value
}

/** The same, a row's work at each step. */
export function* sheetSteps(
  plan: Plan,
  take: Take,
  motion: Motion,
  weighedAt: WeighedAt,
): Generator<undefined, Sheet> {
  // Poses are kept by the motion: made here, one by one, they are there for what reads all of them at once.
  for (let frame = 0; frame < take.length; frame++) {
    void motion.poseAt(frame).reached
    yield
  }
  const body = makeBody(plan.body)
  const first = motion.poseAt(0)
  const marks = marksOf(take, motion, body.stature)
  yield
  const paths = pathsOf(take, motion)
  yield
  const rows: SheetRow[] = []
  for (const [frame, mark] of marks.entries()) {
    rows.push(rowOf(frame, mark))
    yield
  }
  const header = headerOf(plan, take, body.lengths.thigh, first)
  return { header, limbs: sheetLimbs(take), mover: take.mover, rows }

  function rowOf(frame: number, mark: Mark): SheetRow {
    const pose = motion.poseAt(frame)
    const weighed = weighedAt(frame)
    return {
      frame,
      label: plan.firstFrame + frame,
      seconds: secondsAt(frame, plan.rate),
      timeCode: timeCode(frame, plan.rate),
      mark,
      phases: phasesAt(take.phases, frame),
      limbs: limbRows(pose, contactsAt(take, frame), weighed?.weighing, plan.gravity),
      balance: weighed === undefined ? null : balanceOf(weighed, pose.mass),
      ...measuresOf(body, first, pose),
      clearance: clearanceOf(body, plan.ground, pose, take.mover),
      path: paths[frame] ?? null,
      note: take.notes
        .filter((note) => note.frame === frame)
        .map((note) => note.text)
        .join('\n'),
    }
  }
}

type WeighedAt = (frame: number) => WeighedFrame | undefined

export interface WeighedFrame {
  readonly weighing: Weighing
  readonly verdict: Verdict
  /** What weighs where that is not the pose's: a load that is being taken up, kg. */
  readonly mass?: number
}

function headerOf(plan: Plan, take: Take, thigh: number, first: ReachedPose): SheetHeader {
  return {
    title: plan.title,
    take: take.name,
    character: plan.character,
    stature: plan.body.stature,
    mass: plan.body.mass,
    scene: plan.scene,
    halfStance: halfStanceOf(first),
    thigh,
    rate: plan.rate,
    firstFrame: plan.firstFrame,
    frames: take.length,
  }
}

/** Null where not both legs bear at the first frame, or both on one spot. */
function halfStanceOf(first: ReachedPose): HalfStance | null {
  const [left, right] = legSupports(first)
  if (left === undefined || right === undefined) return null
  const level = distance([left.centre[0], 0, left.centre[2]], [right.centre[0], 0, right.centre[2]])
  if (level === 0) return null
  return { length: level / 2, between: [left.kind as Support, right.kind as Support] }
}

const phasesAt = (phases: readonly Phase[], frame: number): PhaseRow[] =>
  phases
    .filter(({ from, to }) => from <= frame && frame <= to)
    .map(({ id, name, from, to }) => ({ id, name, begins: frame === from, ends: frame === to }))

function balanceOf({ weighing, verdict, mass: own }: WeighedFrame, mass: number): BalanceRow {
  const { room, push } = weighing
  return {
    room: Number.isFinite(room) ? room : null,
    push: push.size < PUSH_NONE ? 0 : push.size * (own ?? mass),
    verdict: verdict.kind,
  }
}
