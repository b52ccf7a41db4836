import { beforeAll, describe, expect, it } from 'vitest'
import { BUILDS, resized } from '../../../src/body/builds'
import { makeBody } from '../../../src/body/model'
import { CHANNELS, type ChannelId, type Key } from '../../../src/document/channels'
import type { Plan, Take } from '../../../src/document/plan'
import { scaleTime } from '../../../src/plan/edit/frames'
import { setControls } from '../../../src/plan/edit/keys'
import { newPlan } from '../../../src/plan/new'
import { makeMotion } from '../../../src/pose/between'
import { makeStance } from '../../../src/pose/stances'
import { notesOf } from '../../../src/sheet/notes/notes'
import type { Note } from '../../../src/sheet/notes/types'
import { planShift } from '../../../src/shift/planner/plan'
import type { ShiftOption } from '../../../src/shift/planner/types'
import { type DynamicFrame, weighMotion } from '../../../src/weigh/dynamic'

/*
 * The planner's options as good takes: nothing in them breaks the weight. With one deliberate fault each, it does.
 * Few bodies here, since planning takes long.
 */

interface Good {
  readonly plan: Plan
  readonly option: ShiftOption
}

const FPS = 24
const goods: Good[] = []

beforeAll(() => {
  for (const [id, stature] of [
    ['adult', 1.75],
    ['round', 1.3],
    ['longarms', 3.5],
  ] as const)
    goods.push(...optionsFor(id, stature))
}, 240_000)

describe('options of the planner', () => {
  it('are there to be read', () => {
    expect(goods.length).toBeGreaterThanOrEqual(3)
  })

  it('break nothing', () => {
    for (const { plan } of goods) expect(breaking(plan)).toEqual([])
  })

  it('without their lean leave too early or don’t travel, before the leg leaves', () => {
    for (const { plan, option } of goods) {
      const found = breaking(still(plan)).filter(({ rule }) => rule === 'turns' || rule === 'lifts-early')
      expect(found.length).toBeGreaterThan(0)
      for (const note of found) expect(Math.abs(note.to - option.leaves)).toBeLessThanOrEqual(1)
    }
  })

  it('with a pelvis that only turns don’t travel', () => {
    for (const { plan, option } of goods) {
      const turned = setControls(still(plan), option.take.id, option.leaves, { 'pelvis.turn': 0.25 })
      expect(breaking(turned).map(({ rule }) => rule)).toContain('turns')
    }
  })

  it('in half their time are pushed or read as no body', () => {
    for (const { plan, option } of goods) {
      const rules = breaking(scaleTime(plan, option.take.id, 0.5)).map(({ rule }) => rule)
      expect(rules.includes('push') || rules.includes('small')).toBe(true)
    }
  })
})

function optionsFor(id: string, stature: number): Good[] {
  const spec = resized((BUILDS.find((build) => build.id === id) ?? BUILDS[0])?.spec as Plan['body'], stature)
  const body = makeBody(spec)
  const ground = { grip: 'normal', boxes: [] } as const
  const { controls, contacts } = makeStance('tall-kneel', body, ground)
  const plan = newPlan({
    title: 'Good',
    character: id,
    body: spec,
    ground,
    controls,
    contacts: contacts.map(({ id: _, from: __, to: ___, ...contact }) => contact),
    rate: { num: FPS, den: 1 },
  })
  const steps = planShift({
    body,
    ground,
    gravity: plan.gravity,
    fps: FPS,
    take: plan.takes[0] as Take,
    frame: 0,
    mover: 'legL',
    goal: { kind: 'half-kneel' },
  })
  for (;;) {
    const { done, value } = steps.next()
    if (!done) continue
    const options = value.found ? value.options.slice(0, 2) : []
    return options.map((option) => ({ plan: { ...plan, takes: [option.take] }, option }))
  }
}

function breaking(plan: Plan): readonly Note[] {
  const take = plan.takes[0] as Take
  const body = makeBody(plan.body)
  const motion = makeMotion(body, take)
  const { ground, gravity } = plan
  const frames: DynamicFrame[] = []
  for (const one of weighMotion({ body, ground, gravity, take, motion, fps: FPS })) frames[one.frame] = one
  const { notes } = notesOf({ plan, take, motion, weighed: (frame) => frames[frame] })
  return notes.filter(({ level }) => level === 'breaks')
}

/** The lean taken out: pelvis and chest stay where they began. */
function still(plan: Plan): Plan {
  const take = plan.takes[0] as Take
  const leans = CHANNELS.filter((id) => /^(pelvis\.(x|z|list)|chest\.(list|tilt))$/.test(id))
  const channels: Record<ChannelId, readonly Key[]> = { ...take.channels }
  for (const id of leans) {
    const value = channels[id][0]?.value ?? 0
    channels[id] = channels[id].map((key) => ({ ...key, value }))
  }
  return { ...plan, takes: [{ ...take, channels }] }
}
