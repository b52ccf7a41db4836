import { BUILDS } from '../../src/body/builds'
import { makeBody } from '../../src/body/model'
import { FLAT } from '../../src/contact/ground'
import type { Plan } from '../../src/document/plan'
import { newPlan } from '../../src/plan/new'
import { makeStance, type StanceId } from '../../src/pose/stances'

/** A grown person in a stance on flat ground, one key pose at frame 0 of 48. */
export function stancePlan(stance: StanceId = 'tall-kneel', title = 'A test'): Plan {
  const spec = BUILDS[0]?.spec
  if (spec === undefined) throw new Error('there are no builds')
  const { controls, contacts } = makeStance(stance, makeBody(spec), FLAT)
  return newPlan({
    title,
    character: 'Grown person',
    body: spec,
    controls,
    contacts: contacts.map(({ part, kind, position, heading, normal, on }) => ({
      part,
      kind,
      position,
      heading,
      normal,
      on,
    })),
  })
}
