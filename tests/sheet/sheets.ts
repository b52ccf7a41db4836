import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { makeBody } from '../../src/body/model'
import type { Controls } from '../../src/document/channels'
import type { Plan, Take } from '../../src/document/plan'
import { setControls } from '../../src/plan/edit/keys'
import { readPlan } from '../../src/plan/read'
import { type Motion, makeMotion } from '../../src/pose/between'
import type { Column } from '../../src/sheet/column'
import { type ColumnOptions, columnsOf } from '../../src/sheet/columns'
import { centimetres } from '../../src/sheet/format'
import { sheetOf } from '../../src/sheet/sheet'
import type { Sheet, SheetRow } from '../../src/sheet/types'
import { type Judged, type VerdictWords, verdictWords } from '../../src/sheet/words'
import { type PoseWeighing, weighPose } from '../../src/weigh/pose'

/** A take of a plan, weighed, with its sheet. */
export interface Weighed {
  readonly plan: Plan
  readonly take: Take
  readonly motion: Motion
  readonly sheet: Sheet
  at(frame: number): PoseWeighing
}

export function weighed(plan: Plan): Weighed {
  const take = firstTake(plan)
  const motion = makeMotion(makeBody(plan.body), take)
  const at = (frame: number) => weighPose(plan.ground, plan.gravity, plan.body.stature, motion.poseAt(frame))
  const sheet = sheetOf(plan, take, motion, (frame) => {
    const weighing = at(frame)
    return { weighing: weighing.weighing, verdict: weighing.judge(take.mover) }
  })
  return { plan, take, motion, sheet, at }
}

export const firstTake = (plan: Plan): Take => plan.takes[0] as Take

/** The demo: kneeling, the left fist on a course of stone, the weight over the left knee, the left leg pinned. */
export function capstone(): Plan {
  const read = readPlan(readFileSync(join(import.meta.dirname, '../../static/capstone.json')))
  if (!read.ok) throw new Error(read.faults.map(({ message }) => message).join('\n'))
  return read.plan
}

/** The plan with a key pose at a frame: the asked pose of frame 0 with some changes. */
export function withPose(plan: Plan, frame: number, changes: Partial<Controls>): Plan {
  const take = firstTake(plan)
  const start = makeMotion(makeBody(plan.body), take).askedAt(0)
  return setControls(plan, take.id, frame, { ...start, ...changes })
}

export const rowAt = (sheet: Sheet, frame: number): SheetRow => {
  const row = sheet.rows[frame]
  if (row === undefined) throw new Error(`the sheet has ${sheet.rows.length} rows, asked for ${frame}`)
  return row
}

export function columnOf(sheet: Sheet, id: string, options?: ColumnOptions): Column {
  const column = columnsOf(sheet, options).find((one) => one.id === id)
  if (column === undefined) throw new Error(`there is no column ${id}`)
  return column
}

export function wordsAt(made: Weighed, frame: number, options: Partial<Judged> = {}): VerdictWords {
  const { plan, take, motion } = made
  const { weighing, judge } = made.at(frame)
  const mover = options.mover ?? take.mover
  return verdictWords({
    mover,
    verdict: judge(mover),
    weighing,
    pose: motion.poseAt(frame),
    gravity: plan.gravity,
    unit: centimetres(plan.body.stature),
    ...options,
  })
}

/** Text with plain spaces, as it would be typed. */
export const spaced = (text: string): string => text.replace(/[\u00a0\u202f]/g, ' ')
