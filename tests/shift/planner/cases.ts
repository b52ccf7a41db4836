import { BUILDS, resized } from '../../../src/body/builds'
import { type BodyModel, makeBody } from '../../../src/body/model'
import type { Controls } from '../../../src/document/channels'
import type { ContactPart, ContactSpan } from '../../../src/document/contacts'
import type { Box, Ground, Take } from '../../../src/document/plan'
import { newPlan } from '../../../src/plan/new'
import { reach } from '../../../src/pose/reach'
import { makeStance } from '../../../src/pose/stances'
import type { ReachedPose } from '../../../src/pose/types'
import { planShift } from '../../../src/shift/planner/plan'
import type { Goal, ShiftAnswer, ShiftAsk } from '../../../src/shift/planner/types'
import { between } from '../../../src/space/random'
import { UP } from '../../../src/space/vec'
import { roomIn } from '../../../src/weigh/polygon'
import { contactOf } from '../../../src/weigh/pose'
import { weigh } from '../../../src/weigh/weigh'

/** Which question a case asks: can it be done as he kneels, only with a hand, or only with nearer knees? */
export type Kind = 'plain' | 'hand' | 'narrow' | 'hopeless'

export interface Case {
  readonly kind: Kind
  readonly name: string
  readonly ask: ShiftAsk
}

/**
 * A seeded case of a kind. Feasible ones are those for which a coarse search over whole poses, which knows
 * nothing of the planner, finds one that can be held with the mover taken away: half a percent of the stature to
 * spare, hip line within 20°.
 */
export function anyCase(next: () => number, kind: Kind): Case {
  for (;;) {
    const made = draw(next, kind)
    if (made) return made
  }
}

function draw(next: () => number, kind: Kind): Case | null {
  const build = pick(next, BUILDS)
  const stature = 0.5 * 24 ** next()
  const spec = resized(build.spec, stature)
  const body = makeBody(spec)
  const half = halfSpacing(next, kind)
  const goal = pick(next, GOALS)(stature)
  const mover = next() < 0.5 ? 'legL' : 'legR'
  const { controls, contacts } = kneeling(body, half)
  const boxes = kind === 'hand' ? [block(next, body, mover === 'legL' ? 1 : -1)] : []
  const ground: Ground = { grip: 'normal', boxes }
  const plan = newPlan({
    title: 'A case',
    character: build.name,
    body: spec,
    ground,
    controls,
    contacts: contacts.map(({ id: _, from: _f, to: _t, state: _s, ...contact }) => contact),
  })
  const ask: ShiftAsk = {
    body,
    ground,
    gravity: 9.81,
    fps: 24,
    take: plan.takes[0] as Take,
    frame: 0,
    mover,
    goal: mover === 'legR' && goal.kind === 'shuffle' ? { kind: 'shuffle', by: -goal.by } : goal,
    handHelp: kind === 'hand',
  }
  const name = `${build.id} of ${stature.toFixed(2)} m, half spacing ${half.toFixed(3)}, ${mover} ${goal.kind}`
  return fits(kind, ask, half) ? { kind, name, ask } : null
}

/** Over the stature. */
function halfSpacing(next: () => number, kind: Kind): number {
  if (kind === 'plain') return between(next, 0.085, 0.105)
  if (kind === 'hopeless') return between(next, 0.115, 0.17)
  return between(next, 0.105, 0.135)
}

const GOALS: readonly ((stature: number) => Goal)[] = [
  () => ({ kind: 'half-kneel' }),
  (stature) => ({ kind: 'shuffle', by: -0.03 * stature }),
]

function fits(kind: Kind, ask: ShiftAsk, half: number): boolean {
  const start = kneeling(ask.body, half)
  const plain = holdable(ask, start)
  if (kind === 'plain') return plain
  if (plain) return false
  if (kind === 'hopeless') return true
  if (kind === 'narrow') return holdable(ask, kneeling(ask.body, half - 0.03))
  return hands(ask).some((hand) => holdable(ask, { ...start, contacts: [...start.contacts, hand] }))
}

/** Kneeling tall on knees so far from the midline, over the stature. */
function kneeling(body: BodyModel, half: number): { controls: Controls; contacts: readonly ContactSpan[] } {
  const stance = makeStance('tall-kneel', body, { grip: 'normal', boxes: [] })
  const contacts = stance.contacts.map((contact): ContactSpan => {
    const [x, y, z] = contact.position
    return { ...contact, position: [Math.sign(x) * half * body.stature, y, z] }
  })
  return { controls: reach(body, stance.controls, contacts).reached, contacts }
}

function block(next: () => number, body: BodyModel, side: number): Box {
  const h = body.stature
  return {
    id: 'block',
    name: 'Block',
    position: [side * between(next, 0, 0.12) * h, 0, between(next, 0.28, 0.36) * h],
    size: [0.3 * h, between(next, 0.16, 0.26) * h, 0.2 * h],
    turn: 0,
    grip: 'normal',
  }
}

/** Fists on the block, the mover's own. */
function hands({ ground, body, mover }: ShiftAsk): ContactSpan[] {
  const part = `hand${mover.at(-1)}` as ContactPart
  return ground.boxes
    .flatMap(({ id, position: [x, y, z], size: [w, h, d] }) =>
      [-0.3, 0, 0.3].flatMap((u) =>
        [-0.3, 0].map(
          (v): ContactSpan => ({
            id: part,
            part,
            kind: 'fist',
            position: [x + u * w, y + h, z + v * d],
            heading: 0,
            normal: UP,
            on: id,
            from: 0,
            to: 0,
            state: 'planted',
          }),
        ),
      ),
    )
    .filter(({ position }) => position[1] < body.stature)
}

/** Whether any pose of a coarse grid could be held without the mover. */
function holdable(ask: ShiftAsk, { controls, contacts }: ReturnType<typeof kneeling>): boolean {
  const { body, mover } = ask
  const away = mover === 'legL' ? -1 : 1
  for (const z of [0, -0.05, -0.1])
    for (const list of [0, 0.3, 0.6])
      for (const x of [0.06, 0.08, 0.1, 0.12, 0.15])
        for (const tilt of [0, 0.4]) {
          const pose = reach(
            body,
            {
              ...controls,
              'pelvis.x': controls['pelvis.x'] + away * x * body.stature,
              'pelvis.z': controls['pelvis.z'] + z * body.stature,
              'chest.list': -away * list,
              'chest.tilt': tilt,
            },
            contacts,
          )
          if (pose.pads.length === contacts.length && held(ask, pose)) return true
        }
  return false
}

function held({ ground, body, gravity, mover }: ShiftAsk, pose: ReachedPose): boolean {
  const [l, r] = [pose.joints.hipL, pose.joints.hipR]
  const line = Math.atan2(Math.abs(l[1] - r[1]), Math.hypot(l[0] - r[0], l[2] - r[2]))
  if (line > (20 * Math.PI) / 180 || pose.limits.some(({ code }) => code === 'flesh')) return false
  const others = pose.pads.filter(({ limb }) => limb !== mover).map((pad) => contactOf(ground, pad))
  const { region } = weigh(
    others,
    { mass: pose.mass, com: pose.com, stature: body.stature, gravity },
    { ranges: false },
  )
  return roomIn(region, [pose.com[0], pose.com[2]]) >= 0.005 * body.stature
}

const pick = <T>(next: () => number, list: readonly T[]): T => list[Math.floor(next() * list.length)] as T

/** The planner's answer, run to its end. */
export function answerTo(ask: ShiftAsk): ShiftAnswer {
  const steps = planShift(ask)
  let step = steps.next()
  while (!step.done) step = steps.next()
  return step.value
}
