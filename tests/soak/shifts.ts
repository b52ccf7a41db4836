import { BUILDS, resized } from '../../src/body/builds'
import { makeBody } from '../../src/body/model'
import { LIMBS, limbOf } from '../../src/document/contacts'
import type { Plan, Take } from '../../src/document/plan'
import { newPlan } from '../../src/plan/new'
import { faultsOf } from '../../src/plan/read'
import { makeMotion } from '../../src/pose/between'
import { makeStance, STANCES } from '../../src/pose/stances'
import type { Goal, ShiftAnswer, ShiftAsk } from '../../src/shift/planner/types'
import { between, random } from '../../src/space/random'
import { weighMotion } from '../../src/weigh/dynamic'
import { pick } from '../plan/random-plan'
import { answerTo } from '../shift/planner/cases'
import { must, mustBeNumbers, type Soak } from './soak'

/** Greatest push from nowhere that a plan may show, W: mechanics' gate of 2 %. */
const GATE = 0.02

/** Any question put to the planner: a plan that is in order, or plain words why there is none. */
export const shifts: Soak = {
  name: 'shifts',
  long: 2_000,
  most: 2_000,
  regressions: [],
  attempt(seed) {
    const { plan, ask } = question(random(seed))
    const answer = answerTo(ask)
    return () => inOrder(plan, ask, answer)
  },
}

function inOrder(plan: Plan, ask: ShiftAsk, answer: ShiftAnswer): void {
  if (!answer.found) {
    const { text, by } = answer.limit
    must(text !== '' && Number.isFinite(by), () => `the reason is "${text}", by ${by}`)
  }
  const options = answer.found ? answer.options : answer.remedies.map(({ option }) => option)
  must(options.length <= 4, () => `${options.length} options`)
  for (const option of options) {
    const { take, ...told } = option
    mustBeNumbers(told, option.id)
    const faults = faultsOf({ ...plan, takes: [take] })
    must(faults.length === 0, () => `${option.id}: ${faults[0]?.message}`)
    must(option.leaves < option.touches && option.touches < take.length, () => `${option.id}: out of order`)
    const { body, ground, gravity, fps } = ask
    const motion = makeMotion(body, take)
    let [push, weighed] = [0, 0]
    // Every frame comes twice, the second time with its ranges, which are not asked for here.
    for (const { weighing } of weighMotion({ body, ground, gravity, take, motion, fps })) {
      push = Math.max(push, weighing.push.size)
      weighed += 1
      if (weighed === take.length) break
    }
    must(push <= GATE + 1e-9, () => `${option.id} is pushed from nowhere: ${push} W`)
  }
}

/** A question of any kind, sensible or not, from any stance of any build. */
function question(next: () => number) {
  const spec = resized(pick(next, BUILDS).spec, 0.5 * 24 ** next())
  const body = makeBody(spec)
  const h = body.stature
  const ground = { grip: pick(next, ['normal', 'rough'] as const), boxes: [] }
  const { controls, contacts } = makeStance(pick(next, STANCES).id, body, ground)
  const plan = newPlan({
    title: 'A question',
    character: 'Somebody',
    body: spec,
    ground,
    controls,
    contacts: contacts.map(({ id: _, from: _f, to: _t, state: _s, ...contact }) => contact),
  })
  const to = [between(next, -0.3, 0.3) * h, between(next, 0, 0.4) * h, between(next, 0, 0.5) * h] as const
  const goals: readonly Goal[] = [
    { kind: 'shuffle', by: between(next, -0.1, 0.1) * h },
    { kind: 'half-kneel' },
    { kind: 'onto-foot' },
    { kind: 'heel-sit' },
    { kind: 'hand-to-wall' },
    { kind: 'reach', to },
    { kind: 'strike', to },
    { kind: 'set-down', to },
    { kind: 'place', to: [to[0], 0, to[2]] },
  ]
  const bearing = LIMBS.filter((limb) => contacts.some(({ part }) => limbOf(part) === limb))
  const ask: ShiftAsk = {
    body,
    ground,
    gravity: 9.81,
    fps: pick(next, [24, 25, 30]),
    take: plan.takes[0] as Take,
    frame: 0,
    mover: next() < 0.8 ? pick(next, bearing) : pick(next, LIMBS),
    goal: pick(next, goals),
    pace: next() < 0.5 ? 0 : next(),
    leads: pick(next, ['pelvis', 'chest'] as const),
    handHelp: next() < 0.5,
    hitches: next() < 0.8 ? 1 : 2,
  }
  return { plan, ask }
}
