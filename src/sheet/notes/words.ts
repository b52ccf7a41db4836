import { type ContactKind, type ContactPart, type LimbId, partKind, sideOf } from '../../document/contacts'
import { bodyWays, wayWords } from '../directions'
import { centimetres, degreesText, lengthText, massText, number, SPACE } from '../format'
import { headingOf } from '../measures'
import type { Measured, PartId } from './types'

/** 'Left knee', 'Right fist', 'Left foot'. */
export function partName(part: ContactPart, kind?: ContactKind): string {
  const noun = kind === undefined || kind === 'kneecap' ? partKind(part) : NOUNS[kind]
  return `${sideOf(part) === 'L' ? 'Left' : 'Right'} ${noun}`
}

const NOUNS: Readonly<Record<ContactKind, string>> = {
  kneecap: 'knee',
  toes: 'foot',
  instep: 'foot',
  sole: 'foot',
  ball: 'foot',
  palm: 'palm',
  fist: 'fist',
}

/** 'left leg', 'right hand'. */
export const limbName = (limb: LimbId): string =>
  `${sideOf(limb) === 'L' ? 'left' : 'right'} ${limb.startsWith('leg') ? 'leg' : 'hand'}`

/** 'pelvis', 'chest', 'left leg', 'right arm'. */
export const partWord = (part: PartId): string =>
  /^(leg|arm)/.test(part) ? `${part.endsWith('L') ? 'left' : 'right'} ${part.slice(0, 3)}` : part

export const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`

export const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1)

/** Numbers in a person's words, fine enough for this body. */
export const length = (measured: Measured, metres: number): string =>
  lengthText(metres, centimetres(measured.stature))

export const mass = (measured: Measured, kilograms: number): string => massText(kilograms, measured.body.mass)

export const angle = degreesText

export const seconds = (time: number): string => `${number(time, time < 1 ? 2 : 1)}${SPACE}s`

/** The number that a frame of the take carries on the sheet. */
export const label = ({ plan }: Measured, frame: number): number => plan.firstFrame + frame

export const labelAt = (measured: Measured, i: number): number => label(measured, frameAt(measured, i))

export const frameAt = ({ frames }: Measured, i: number): number => frames[i] as number

/** 'to his right', 'forward and to his left'. */
export function wayText(measured: Measured, x: number, z: number): string {
  const pose = measured.poses[0]
  return wayWords(...bodyWays(pose ? headingOf(pose) : 0, x, z), 'his')
}

/** '3 frames', 'a frame'. */
export const framesText = (frames: number): string => (frames === 1 ? 'a frame' : `${frames} frames`)

/** Two decimals: speeds in m/s. */
export const number2 = (value: number): string => number(value, 2)
