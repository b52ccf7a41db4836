import { beforeAll, describe, expect, it } from 'vitest'
import { BUILDS, resized } from '../../../src/body/builds'
import type { Plan } from '../../../src/document/plan'
import { newPlan } from '../../../src/plan/new'
import { makeMotion } from '../../../src/pose/between'
import { random } from '../../../src/space/random'
import { answerTo, anyCase, type Case } from '../../shift/planner/cases'
import { breaking, FAULTS, type Good, isNamed } from './faults'

/*
 * The planner's options as good takes: nothing in them breaks the weight. With one deliberate fault each, the right
 * rule names it where it is. A few of those without a hand's help here, all of them named; NOTES_OPTIONS=200 runs the
 * long form with every kind, of which a few in a hundred are missed.
 */
const OPTIONS = Number(process.env.NOTES_OPTIONS ?? 4)
const KINDS = OPTIONS > 4 ? (['plain', 'hand', 'plain', 'narrow'] as const) : (['plain'] as const)
/** Rules that may never be wrong on a good take; of the others one *breaks* in ten takes may be. */
const NEVER = ['slides', 'lifts-early', 'turns', 'push']

const goods: Good[] = []

beforeAll(() => {
  const next = random(23)
  for (let i = 0; goods.length < OPTIONS; i++) {
    const asked = anyCase(next, KINDS[i % KINDS.length] ?? 'plain')
    const answer = answerTo(asked.ask)
    if (!answer.found) continue
    for (const option of answer.options.slice(0, 2)) goods.push({ plan: planOf(asked, option.take), option })
  }
}, 3_600_000)

describe('options of the planner', { timeout: 3_600_000 }, () => {
  it('break nothing', () => {
    const wrong = goods.map(({ plan }) => breaking(plan)).filter((notes) => notes.length > 0)
    expect(wrong.flat().filter(({ rule }) => NEVER.includes(rule))).toEqual([])
    expect(wrong.length).toBeLessThanOrEqual(0.1 * goods.length)
  })

  it.each(FAULTS)('with a fault are named: $name', (fault) => {
    const faulty = goods.flatMap((good) => fault.make(good) ?? [])
    expect(faulty.length).toBeGreaterThan(0)
    const named = faulty.filter((one) => isNamed(fault, one))
    expect(named.length / faulty.length).toBeGreaterThanOrEqual(0.95)
  })
})

function planOf({ name, ask }: Case, take: Plan['takes'][number]): Plan {
  const build = BUILDS.find(({ id }) => name.startsWith(`${id} of `)) ?? BUILDS[0]
  if (!build) throw new Error('there are no builds')
  const plan = newPlan({
    title: name,
    character: build.name,
    body: resized(build.spec, ask.body.stature),
    ground: ask.ground,
    controls: makeMotion(ask.body, take).askedAt(0),
    contacts: [],
    rate: { num: ask.fps, den: 1 },
  })
  return { ...plan, takes: [{ ...take, mover: { limb: ask.mover, toesStay: false } }] }
}
