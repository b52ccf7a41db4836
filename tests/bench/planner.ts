import { search } from '../../src/shift/planner/plan'
import { random } from '../../src/space/random'
import { answerTo, anyCase, type Kind, type Case as Question } from '../shift/planner/cases'
import type { Case } from './measure'

/** Goals are the project's own: an answer comes while one still looks at the question. */
export function plannerCases(): Case[] {
  return KINDS.map(([kind, input]): Case => {
    const next = random(7)
    const questions = Array.from({ length: QUESTIONS }, () => anyCase(next, kind))
    const found = questions.filter(answered).length
    return {
      name: 'plan of a shift, verified',
      input: `${input}; ${kind === 'hopeless' ? 'none shown as he kneels for' : 'an option found for'} ${found} of ${QUESTIONS}`,
      goal: { median: 500, p99: 2000 },
      inputs: QUESTIONS,
      run: (turn) => void answerTo((questions[turn % QUESTIONS] as Question).ask),
    }
  })
}

const QUESTIONS = 12

const KINDS: readonly (readonly [Kind, string])[] = [
  ['plain', 'half knee spacing 0.085–0.105 of the stature, no hands'],
  ['hand', 'a hand on a block is needed'],
  ['narrow', 'knees must come nearer first'],
  ['hopeless', 'knees 0.115–0.17 apart, no hands'],
]

function answered({ kind, ask }: Question): boolean {
  const steps = search(ask)
  let step = steps.next()
  while (!step.done) step = steps.next()
  const { options } = step.value
  return kind === 'hopeless' ? options.every(({ id }) => id === 'narrow') : options.length > 0
}
