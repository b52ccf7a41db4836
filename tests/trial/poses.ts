import { BUILDS } from '../../src/body/builds'
import { type BodyModel, makeBody } from '../../src/body/model'
import type { ChannelId, Controls } from '../../src/document/channels'
import { type ContactSpan, LIMBS, type LimbId, limbOf } from '../../src/document/contacts'
import type { CarriedLoad, Grip } from '../../src/document/plan'
import { reach } from '../../src/pose/reach'
import { makeStance, STANCES } from '../../src/pose/stances'
import { between } from '../../src/space/random'
import { UP, type Vec3 } from '../../src/space/vec'
import { tippingAxis } from '../../src/trial/axis'
import { type LiftProblem, type LiftTrial, tryLift } from '../../src/trial/lift'
import { contactOf } from '../../src/weigh/pose'
import { judge } from '../../src/weigh/verdict'
import { type Contact, weigh } from '../../src/weigh/weigh'

/** What a pose is reached from, so that a test can change it and reach again. */
export interface Asked {
  readonly body: BodyModel
  readonly controls: Controls
  readonly contacts: readonly ContactSpan[]
  readonly loads: readonly CarriedLoad[]
  readonly grip: Grip
  /** The limb that is to lift. */
  readonly limb: LimbId
}

/**
 * Any pose in any stance of any build: pelvis moved, chest and head bent, sometimes a load on the back and,
 * on uneven ground, a fist planted ahead and every contact at a height of its own.
 */
function anyPose(next: () => number, uneven: boolean): Asked {
  const pick = <T>(list: readonly T[]) => list[Math.floor(next() * list.length)] as T
  const body = makeBody(pick(BUILDS).spec)
  const h = body.stature
  const stance = makeStance(pick(STANCES).id, body, { grip: 'rough', boxes: [] })
  const fist = uneven && next() < 0.5 && !stance.contacts.some(({ part }) => part.startsWith('hand'))
  const spans = fist ? [...stance.contacts, fistAhead(next, h)] : stance.contacts
  const contacts = spans.map(({ position: [x, y, z], ...contact }): ContactSpan => {
    const up = uneven ? between(next, 0, contact.part.startsWith('hand') ? 0.25 : 0.1) * h : 0
    return { ...contact, position: [x, y + up, z] }
  })
  const controls: Record<string, number> = { ...stance.controls }
  const shift = (channel: ChannelId, by: number) => {
    controls[channel] = (controls[channel] as number) + between(next, -by, by)
  }
  shift('pelvis.x', 0.12 * h)
  shift('pelvis.z', 0.12 * h)
  shift('pelvis.turn', 0.5)
  shift('chest.list', 0.4)
  shift('chest.tilt', 0.5)
  shift('head.turn', 0.5)
  const pack: CarriedLoad = {
    id: 'pack',
    name: 'Pack',
    mass: body.mass * between(next, 0.05, 0.3),
    on: 'back',
    offset: [0, 0.05 * h, -0.12 * h],
    from: 0,
    to: 0,
  }
  return {
    body,
    controls: controls as Controls,
    contacts,
    loads: next() < 0.3 ? [pack] : [],
    grip: pick(['normal', 'rough']),
    limb: pick(LIMBS.filter((limb) => contacts.some(({ part }) => limbOf(part) === limb))),
  }
}

function fistAhead(next: () => number, h: number): ContactSpan {
  const part = next() < 0.5 ? 'handL' : 'handR'
  const position: Vec3 = [between(next, -0.15, 0.15) * h, 0.12 * h, between(next, 0.1, 0.3) * h]
  return {
    id: part,
    part,
    kind: 'fist',
    position,
    heading: 0,
    normal: UP,
    on: 'ground',
    from: 0,
    to: 0,
    state: 'planted',
  }
}

/** The lift of the pose's limb at 24 frames a second; null where reach has lost its pads or all others. */
function liftOf({ body, controls, contacts: spans, loads, grip, limb }: Asked): LiftProblem | null {
  const pose = reach(body, controls, spans, loads)
  const contacts = pose.pads.map((pad) => contactOf({ grip, boxes: [] }, pad))
  const mover = new Set(pose.pads.filter((pad) => pad.limb === limb).map(({ id }) => id))
  if (mover.size === 0 || mover.size === contacts.length) return null
  return { frozen: { body, pose, loads }, contacts, mover, gravity: 9.81, rate: { num: 24, den: 1 } }
}

/** So many lifts of `anyPose`. */
export function anyLifts(
  next: () => number,
  uneven: boolean,
  count: number,
): { asked: Asked; problem: LiftProblem }[] {
  const lifts: { asked: Asked; problem: LiftProblem }[] = []
  while (lifts.length < count) {
    const asked = anyPose(next, uneven)
    const problem = liftOf(asked)
    if (problem) lifts.push({ asked, problem })
  }
  return lifts
}

export const remaining = ({ contacts, mover }: LiftProblem): Contact[] =>
  contacts.filter(({ id }) => !mover.has(id))

/** The whole of a trial. */
export function tried(problem: LiftProblem): LiftTrial {
  const trial = tryLift(problem)
  for (;;) {
    const { value, done } = trial.next()
    if (done) return value
  }
}

/** Whether the verdict lets the mover go from where the weight is. */
export function verdictLetsGo({ frozen, contacts, mover, gravity }: LiftProblem): boolean {
  const body = { mass: frozen.pose.mass, com: frozen.pose.com, stature: frozen.body.stature, gravity }
  return judge(contacts, body, weigh(contacts, body), mover).empty?.distance === 0
}

/** The pose with its pelvis moved until the weight has this room, m, before it tips; null where it can't. */
export function withRoom(asked: Asked, room: number): LiftProblem | null {
  let controls = asked.controls
  for (let i = 0; i < 20; i++) {
    const problem = liftOf({ ...asked, controls })
    const axis = problem && tippingAxis(remaining(problem), problem.frozen.pose.com, asked.body.stature)
    if (!problem || !axis) return null
    if (Math.abs(axis.room - room) < 1e-5 * asked.body.stature) return problem
    const [x, , z] = axis.outward
    const by = axis.room - room
    controls = {
      ...controls,
      'pelvis.x': controls['pelvis.x'] + x * by,
      'pelvis.z': controls['pelvis.z'] + z * by,
    }
  }
  return null
}
