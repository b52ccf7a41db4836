import type { Problem } from '../document/problem'
import { fromProblem } from '../weigh/problem'
import { judge } from '../weigh/verdict'
import { weigh } from '../weigh/weigh'
import { frameReport, type WeighReport } from './headless'

/** A plain problem weighed, as the report of one frame, numbered 0; its limbs are those its contacts name. */
export function weighProblem(problem: Problem): WeighReport {
  const { contacts, body } = fromProblem(problem)
  const weighing = weigh(contacts, body)
  const verdicts = weighing.limbs.map(({ id }) => {
    const mover = new Set(contacts.filter(({ limb }) => limb === id).map((contact) => contact.id))
    return [id, judge(contacts, body, weighing, mover)] as const
  })
  return { frames: [frameReport(0, body, weighing, verdicts)] }
}
