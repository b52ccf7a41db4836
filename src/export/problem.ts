import type { Problem } from '../document/problem'
import { add, cross, scale, sub, type Vec3, ZERO } from '../space/vec'
import type { Body, Contact } from '../weigh/types'
import { judge } from '../weigh/verdict'
import { weigh } from '../weigh/weigh'
import { frameReport, type WeighReport } from './headless'

/** A plain problem weighed, as the report of one frame, numbered 0; its limbs are those its contacts name. */
export function weighProblem(problem: Problem): WeighReport {
  const contacts: readonly Contact[] = problem.contacts
  const body = bodyOf(problem)
  const weighing = weigh(contacts, body)
  const verdicts = weighing.limbs.map(({ id }) => {
    const mover = new Set(contacts.filter(({ limb }) => limb === id).map((contact) => contact.id))
    return [id, judge(contacts, body, weighing, mover)] as const
  })
  return { frames: [frameReport(0, body, weighing, verdicts)] }
}

/** What the contacts must give: against the weight, the outside forces and their moments about the centre of mass. */
function bodyOf({ mass, com, size, gravity, force, moment, loads }: Problem): Body {
  const outside = loads.reduce((sum, load) => add(sum, load.force), force)
  const turning = loads.reduce((sum, load): Vec3 => add(sum, cross(sub(load.at, com), load.force)), moment)
  const weight: Vec3 = [0, -mass * gravity, 0]
  return {
    mass,
    com,
    stature: size,
    gravity,
    force: sub(ZERO, add(outside, weight)),
    moment: scale(turning, -1),
  }
}
