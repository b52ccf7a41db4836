import { limbOf, sideOf } from '../document/contacts'
import type { ReachedPose } from '../pose/types'
import type { Edge, LiftTrial, Turn } from '../trial/lift'
import type { Way } from '../trial/way'
import type { They } from './directions'
import { type LengthUnit, lengthText, number, SPACE } from './format'
import { limbNoun } from './limbs'

/**
 * What came of a lift trial, in a headline ('He tips to his left.') and the sentences under it ('Past 5° in
 * 0.27 s, 6½ frames.').
 */
export function liftWords({ trial, pose, unit, they = 'his' }: TriedLift): LiftWords {
  const he = SUBJECT[they]
  const He = capital(he)
  switch (trial.outcome) {
    case 'falls':
      return { headline: `${He} falls.`, sentences: ['Nothing else touches.'] }
    case 'slips':
      return {
        headline: `${He} slips.`,
        sentences: [
          `No balance is to be found, but ${he} goes over no edge: grip is short, a load limit is passed, or a wall is in the way.`,
        ],
      }
    case 'holds':
      return trial.by === 'pads'
        ? { headline: `${He} holds.`, sentences: [roomWords(trial.edge, unit, he, they)] }
        : { headline: `${He} holds, if ${he} braces.`, sentences: bracedWords(trial, unit, he, they) }
    case 'tips':
      return {
        headline: `${He} tips ${waysText(trial.edge.way, they)}.`,
        sentences: [tipWords(trial), ...edgeWords(trial.edge, pose, he, they)],
      }
  }
}

export interface TriedLift {
  readonly trial: LiftTrial
  readonly pose: ReachedPose
  readonly unit: LengthUnit
  readonly they?: They
}

export interface LiftWords {
  readonly headline: string
  readonly sentences: readonly string[]
}

/** 'to his left', 'forward', 'to his left and forward': the main way first. */
export const waysText = (ways: readonly Way[], they: They): string =>
  ways.map((way) => (way === 'left' || way === 'right' ? `to ${they} ${way}` : way)).join(' and ')

/** Frames to the nearest half, as an animator counts them: 6.47 → '6½ frames'. */
export function framesText(frames: number): string {
  const halves = Math.max(1, Math.round(frames * 2))
  const whole = Math.floor(halves / 2)
  const size = `${whole === 0 ? '' : number(whole, 0)}${halves % 2 === 1 ? '½' : ''}`
  return `${size}${SPACE}${halves <= 2 ? 'frame' : 'frames'}`
}

/** 0.2697 → '0.27 s'; whole tenths from 10 s on. */
export const secondsText = (seconds: number): string => `${number(seconds, seconds < 10 ? 2 : 1)}${SPACE}s`

function tipWords({ seconds, frames }: Turn): string {
  if (seconds === null || frames === null) return 'It turns, but not as far as 5°.'
  return `Past 5° in ${secondsText(seconds)}, ${framesText(frames)}.`
}

function roomWords({ axis, way }: Edge, unit: LengthUnit, he: string, they: They): string {
  return `${lengthText(Math.max(0, axis.room), unit)} of room before ${he} would tip ${waysText(way, they)}.`
}

function bracedWords(
  { edge, loose }: Extract<LiftTrial, { readonly by: 'friction' }>,
  unit: LengthUnit,
  he: string,
  they: They,
): string[] {
  if (edge === null) return ['Nothing that is left bears from below: friction alone can hold the weight.']
  const past = `The weight is ${lengthText(Math.max(0, -edge.axis.room), unit)} past the edge ${waysText(edge.way, they)}: friction can hold it, if ${he} braces.`
  const slack = loose?.frames ? [`Slack, ${he} tips: ${tipWords(loose).toLowerCase()}`] : []
  return [past, ...slack]
}

/** What it goes over, and how sure the way is. */
function edgeWords({ axis }: Edge, pose: ReachedPose, he: string, they: They): string[] {
  const over = [...new Set(axis.ends.map((end) => padAt(pose, end, they)).filter((name) => name !== null))]
  if (axis.overCorner)
    return [`${capital(he)} goes over a corner${over[0] ? `, ${over[0]}` : ''}: the way is approximate.`]
  if (over.length === 0) return []
  return [
    over.length === 1
      ? `${capital(he)} goes over the edge of ${over[0]}.`
      : `${capital(he)} goes over the line from ${over.join(' to ')}.`,
  ]
}

/** The pad that a vertex belongs to: 'his right knee', 'his left fist'. */
function padAt(pose: ReachedPose, [x, y, z]: readonly [number, number, number], they: They): string | null {
  const pad = pose.pads.find(({ vertices }) => vertices.some((v) => v[0] === x && v[1] === y && v[2] === z))
  if (pad === undefined) return null
  const side = sideOf(pad.part) === 'L' ? 'left' : 'right'
  const noun = pad.part.startsWith('hand') ? limbNoun(limbOf(pad.part), new Set([pad.kind])) : NOUN[pad.kind]
  return `${they} ${side} ${noun}`
}

const NOUN: Readonly<Record<string, string>> = {
  kneecap: 'knee',
  toes: 'toes',
  instep: 'instep',
  sole: 'foot',
  ball: 'ball of the foot',
}

const SUBJECT: Readonly<Record<They, string>> = { his: 'he', her: 'she', its: 'it', their: 'they' }

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
