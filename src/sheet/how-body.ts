import { naturalMass } from '../body/builds'
import { HIP_WIDTH, NATURAL_MASS, NATURAL_STATURE } from '../body/constants'
import type { BodyModel } from '../body/model'
import { FRICTION, STIFFNESS } from '../contact/constants'
import type { ContactKind } from '../document/contacts'
import type { Grip, Plan } from '../document/plan'
import { type LengthUnit, lengthText, massText, number } from './format'
import { type How, input } from './how'

/** How the body's own figures come about: its mass with what it carries, its natural mass, its hips. */
export function bodyHows({ plan, body, carried, unit }: BodyFacts): How[] {
  const { stature, mass, hipWidth } = plan.body
  const whole = mass + carried.reduce((sum, one) => sum + one, 0)
  const natural = naturalMass(plan.body)
  return [
    {
      id: 'mass',
      title: 'All that weighs',
      formula: `m = ${['b', ...carried.map((_, i) => `c${i + 1}`)].join(' + ')}`,
      inputs: [
        input('b', 'his own mass, as it was typed or chosen', mass, 'kg'),
        ...carried.map((one, i) => input(`c${i + 1}`, 'what he carries at this frame', one, 'kg')),
      ],
      result: { value: whole, text: massText(whole, whole) },
      words: ['Each part of the body has its share of it by its length and thickness.'],
      source:
        'Shares of the segments: P. de Leva (1996), Adjustments to Zatsiorsky-Seluyanov’s segment inertia parameters, J. Biomechanics 29(9), table 4.',
    },
    {
      id: 'natural',
      title: 'The mass that is natural for him',
      formula: `m = ${NATURAL_MASS} · (H ÷ ${NATURAL_STATURE})³ · v`,
      inputs: [
        input('H', 'his height', stature, 'm'),
        input('v', 'his volume over that of the table’s body of the same height', body.volume, ''),
      ],
      result: { value: natural, text: massText(natural, natural) },
      words: ['Flesh is as dense in a giant as in a child, so mass goes with the cube of the height.'],
      source: `Ours: ${NATURAL_MASS} kg at ${NATURAL_STATURE} m.`,
    },
    {
      id: 'hips',
      title: 'Hip joint to hip joint',
      formula: `w = ${HIP_WIDTH} · H · q`,
      inputs: [
        input('H', 'his height', stature, 'm'),
        input(
          'q',
          'how broad for his height, as it was typed or chosen',
          hipWidth / (HIP_WIDTH * stature),
          '',
        ),
      ],
      result: { value: hipWidth, text: lengthText(hipWidth, { ...unit, decimals: unit.decimals + 1 }) },
      words: ['No segment table gives it, and it decides how far the weight has to go: measure your rig.'],
      source: `Ours: ${HIP_WIDTH} of the height, 17 cm for 1.74 m (from memory of published regressions).`,
    },
  ]
}

export interface BodyFacts {
  readonly plan: Plan
  readonly body: BodyModel
  /** Masses of what is carried at the frame, kg. */
  readonly carried: readonly number[]
  readonly unit: LengthUnit
}

export function frictionHow(grip: Grip): How {
  const coefficient = FRICTION[grip]
  return {
    id: `friction.${grip}`,
    title: `What ${grip} ground holds sideways`,
    formula: 'μ = h ÷ p',
    inputs: [
      input('h', 'sideways a pad can hold, of 100 kg that press it', 100 * coefficient, 'kg'),
      input('p', 'it is pressed with', 100, 'kg'),
    ],
    result: { value: coefficient, text: String(coefficient) },
    words: ['The same for a turn on the spot: what holds against it is taken from the same friction.'],
    source:
      'Coulomb’s friction. Values of static friction from University Physics, table 6.1: shoes on ice 0.1, wood on wood 0.5, shoes on wood 0.9.',
  }
}

/** How stiff a kind of pad is in a plan. */
export function stiffnessHow(kind: ContactKind, plan: Plan): How {
  const own = plan.stiffness[kind] ?? STIFFNESS[kind]
  return {
    id: `stiffness.${kind}`,
    title: `How stiff a whole ${kind} is`,
    formula: 'k = c · q',
    inputs: [
      input('c', 'beside a kneecap, which has 1', STIFFNESS[kind], ''),
      input('q', 'this plan’s own, over that', own / STIFFNESS[kind], ''),
    ],
    result: { value: own, text: stiffnessText(own) },
    words: [
      'Only the ratios count. Of two pads that could share a load either way, the stiffer takes more, in proportion.',
    ],
    source: 'Ours: soft parts take less of what they could share.',
  }
}

/** Two figures are enough to tell pads apart. */
const stiffnessText = (stiffness: number): string => String(Number(stiffness.toPrecision(3)))

/** An input's value as it is read: four figures. */
export function inputText(value: number): string {
  if (value === 0) return '0'
  const size = Math.floor(Math.log10(Math.abs(value)))
  return number(value, Math.max(0, Math.min(6, 3 - size)))
}
