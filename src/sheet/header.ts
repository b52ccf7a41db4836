import { EMPTY_SHARE } from '../weigh/constants'
import type { ColumnOptions } from './columns'
import { centimetres, lengthText, massText, number, percentText, SPACE, statureText } from './format'
import { dropsFrames, rateText } from './frames'
import type { HalfStance, Sheet, Support } from './types'

/** What stands at the head of a sheet, as terms with their values, in order. */
export function headerFacts({ header }: Sheet, options: ColumnOptions = {}): HeaderFact[] {
  const unit = options.unit ?? centimetres(header.stature)
  const { scene, rate, halfStance } = header
  const size = `${statureText(header.stature)}, ${massText(header.mass, header.mass)}`
  const drop = dropsFrames(rate) ? ', drop-frame' : ''
  return [
    { term: 'take', value: header.take },
    { term: 'character', value: header.character },
    { term: 'size', value: size },
    {
      term: 'scene',
      value: `${number(scene.unitsPerMetre, sceneDecimals(scene.unitsPerMetre))}${SPACE}${scene.unit} to the metre`,
    },
    {
      term: 'half-stance',
      value:
        halfStance === null
          ? 'none'
          : `${lengthText(halfStance.length, unit)}, ${halfStanceWords(halfStance)}`,
    },
    { term: 'thigh', value: lengthText(header.thigh, unit) },
    { term: 'rate', value: `${rateText(rate)}${SPACE}fps${drop}` },
    {
      term: 'frames',
      value: `${header.firstFrame}–${header.firstFrame + header.frames - 1} (${header.frames})`,
    },
  ]
}

export interface HeaderFact {
  readonly term: string
  readonly value: string
}

/** How the sheet is to be read, in sentences. */
export function headerNotes(options: ColumnOptions = {}): string[] {
  const they = options.they ?? 'his'
  return [
    `R and L are ${they} own.`,
    'Travel is from the pose at the first frame.',
    options.angles === 'parent'
      ? 'Chest is to the pelvis, head to the chest; hips and thighs are to the world; wrist is to the forearm.'
      : 'Lean, turn and thigh are to the world; wrist is to the forearm.',
    `Empty: touches and carries under ${percentText(EMPTY_SHARE)} of the weight.`,
  ]
}

/** 'half the distance between the kneecaps' */
function halfStanceWords({ between: [left, right] }: HalfStance): string {
  const ends =
    left === right ? `the ${PLURAL[left]}` : `the left ${SINGULAR[left]} and the right ${SINGULAR[right]}`
  return `half the distance between ${ends} at the first frame`
}

const SINGULAR: Readonly<Record<Support, string>> = {
  kneecap: 'kneecap',
  sole: 'sole',
  ball: 'ball of the foot',
  toes: 'toes',
  instep: 'instep',
}
const PLURAL: Readonly<Record<Support, string>> = {
  kneecap: 'kneecaps',
  sole: 'soles',
  ball: 'balls of the feet',
  toes: 'toes',
  instep: 'insteps',
}

const sceneDecimals = (unitsPerMetre: number): number => {
  const text = String(unitsPerMetre)
  return text.includes('.') && !text.includes('e') ? Math.min(6, text.length - text.indexOf('.') - 1) : 0
}
