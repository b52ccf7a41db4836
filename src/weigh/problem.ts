import type { Problem } from '../document/problem'
import { add, cross, scale, sub, type Vec3, ZERO } from '../space/vec'
import type { Body, Contact } from './types'

/** Contacts and body of a plain problem, to be weighed: the contacts must give what weight and outside forces take. */
export function fromProblem(problem: Problem): {
  readonly contacts: readonly Contact[]
  readonly body: Body
} {
  const { mass, com, size, gravity, loads, contacts } = problem
  const weight: Vec3 = [0, -mass * gravity, 0]
  const force = loads.reduce((sum, load) => add(sum, load.force), add(weight, problem.force))
  const moment = loads.reduce((sum, load) => add(sum, cross(sub(load.at, com), load.force)), problem.moment)
  return {
    contacts,
    body: { mass, com, stature: size, gravity, force: sub(ZERO, force), moment: scale(moment, -1) },
  }
}
