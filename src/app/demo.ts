import { BUILDS } from '../body/builds'
import { makeBody } from '../body/model'
import { FLAT } from '../contact/ground'
import type { Plan } from '../document/plan'
import { newPlan } from '../plan/new'
import { readPlan } from '../plan/read'
import { makeStance } from '../pose/stances'

/** Fetches the demo plan that stands beside the page; asked for once, while the page loads. */
export async function fetchDemo(): Promise<Plan> {
  try {
    const answer = await fetch('./capstone.json')
    const read = readPlan(await answer.text())
    if (read.ok) return read.plan
    console.error('The demo plan is damaged:', read.faults)
  } catch (reason) {
    console.info('The demo plan could not be fetched:', reason)
  }
  return stancePlan()
}

/** What there is when there is nothing else: a person in a tall kneel. */
function stancePlan(): Plan {
  const build = BUILDS[0]
  if (build === undefined) throw new Error('there are no builds')
  const { controls, contacts } = makeStance('tall-kneel', makeBody(build.spec), FLAT)
  return newPlan({
    title: 'New plan',
    character: build.name,
    body: build.spec,
    controls,
    contacts: contacts.map(({ id: _, from: __, to: ___, ...contact }) => contact),
  })
}
