import type { Plan, Take } from '../document/plan'
import type { FrameSpan } from '../plan/edit/retime'
import type { Note } from '../sheet/notes/types'
import type { Sheet } from '../sheet/types'
import type { LeastFrames } from '../shift/least-frames'
import type { Progress, ShiftAnswer, ShiftAsk } from '../shift/planner/types'
import type { Reading } from '../shift/reads-as'
import type { GravitySpan } from '../shift/reads-spans'
import type { LiftTrial } from '../trial/lift'
import type { Opinion } from '../trial/rest'
import type { DynamicFrame } from '../weigh/dynamic'
import type { Verdict, Weighing } from '../weigh/types'

/** What the calculation thread can do: what each job takes and what its pieces are. All of it is plain data. */
export interface Jobs {
  readonly 'weigh take': { readonly input: TakeProblem; readonly piece: TakePiece }
  readonly 'weigh motion': { readonly input: TakeProblem; readonly piece: MotionPiece }
  readonly 'least frames': { readonly input: SpanProblem; readonly piece: LeastPiece }
  readonly 'read notes': { readonly input: ReadingProblem; readonly piece: PlainNotes }
  readonly 'do remedy': { readonly input: RemedyProblem; readonly piece: RemedyPiece }
  readonly 'reads as': { readonly input: ReadsProblem; readonly piece: ReadsPiece }
  /** Null only stops the one before. */
  readonly 'plan shift': { readonly input: ShiftProblem | null; readonly piece: ShiftPiece }
  readonly 'try lift': { readonly input: FrameProblem; readonly piece: LiftTrial }
  /** All opinions on the frame's loads in one piece; none where no view shows two places that bear. */
  readonly 'second opinion': { readonly input: FrameProblem; readonly piece: readonly Opinion[] }
}
export type JobName = keyof Jobs

/** A take to be weighed. */
export interface TakeProblem {
  /** The plan with this one take in it. */
  readonly plan: Plan
  /** The frame whose neighbourhood is wanted first. */
  readonly near: number
}

/** Its frames one by one, and last its timing sheet. */
export type TakePiece = FrameWeighing | { readonly sheet: Sheet }

/** Its frames weighed in motion, each twice, the second time with ranges; last its sheet with those loads. */
export type MotionPiece = DynamicFrame | { readonly sheet: Sheet }

/** A span of a take, frames from 0, `to` > `from`. */
export interface SpanProblem {
  /** The plan with this one take in it. */
  readonly plan: Plan
  readonly from: number
  readonly to: number
}

/** Nothing while it is being worked out; then the answer. */
export type LeastPiece = LeastFrames | null

/** A take to be read for its weight. */
export interface ReadingProblem {
  /** The plan with this one take in it. */
  readonly plan: Plan
  /** Counts the readings, so that a remedy can say which of them it belongs to. */
  readonly reading: number
}

/** A note on weight as plain data: `fixable` where its remedy can be done by a press. */
export interface PlainNote extends Omit<Note, 'remedy'> {
  readonly remedy: string
  readonly fixable: boolean
  /** Its place among all notes of its reading. */
  readonly index: number
}

/** A take read for its weight; as `Notes` in the sheet's room. */
export interface PlainNotes {
  readonly notes: readonly PlainNote[]
  readonly shown: readonly PlainNote[]
  readonly aside: readonly { readonly note: PlainNote; readonly reason: string }[]
  readonly stepped: boolean
  /** The take in one line, and all of it as plain text. */
  readonly line: string
  readonly text: string
}

/** The remedy of one note of a reading to be done; by its place among all notes. */
export interface RemedyProblem extends ReadingProblem {
  readonly index: number
}

/** The take with the remedy done; null where it changes nothing. */
export interface RemedyPiece {
  readonly take: Take | null
}

/** A take whose timing is to be read, and a stretch of it that was chosen by hand, frames from 0. */
export interface ReadsProblem {
  /** The plan with this one take in it. */
  readonly plan: Plan
  readonly chosen: FrameSpan | null
}

/** What a span of a take reads as. */
export interface SpanReading {
  readonly span: Omit<GravitySpan, 'kind'> & {
    readonly kind: GravitySpan['kind'] | 'chosen'
    /** Which of its limb's moves, or of the settles, it is, from 1. */
    readonly turn: number
  }
  readonly least: LeastFrames
  /** Null where no even pace will do. */
  readonly reading: Reading | null
}

/** All that gravity times, in order, and before it the chosen stretch. */
export type ReadsPiece = readonly SpanReading[]

/** A shift that is asked for, of a plan's only take. */
export interface ShiftProblem {
  readonly plan: Plan
  readonly wish: ShiftWish
}

/** A question to the planner without what the plan says anyway. */
export type ShiftWish = Omit<ShiftAsk, 'body' | 'ground' | 'gravity' | 'stiffness' | 'fps' | 'take'>

/** How far it is, and last the answer. */
export type ShiftPiece = Progress | ShiftAnswer

/** One frame of a take, weighed held still. */
export interface FrameWeighing {
  readonly frame: number
  readonly weighing: Weighing
  /** The verdict on the take's mover. */
  readonly verdict: Verdict
}

/** One frame of a take, and the take's mover. */
export interface FrameProblem {
  /** The plan with this one take in it. */
  readonly plan: Plan
  readonly frame: number
}

/** To the calculation thread: do a job, and forget an older one of the same name. */
export type Request = {
  [N in JobName]: { readonly id: number; readonly job: N; readonly input: Jobs[N]['input'] }
}[JobName]

/** From the calculation thread: some pieces of the request `id`, or why there will be none. */
export type Answer =
  | { readonly id: number; readonly pieces: readonly unknown[]; readonly done: boolean }
  | { readonly id: number; readonly failed: string }
