import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { BUILDS } from '../../src/body/builds'
import { type BodyModel, makeBody } from '../../src/body/model'
import type { ChannelId, Controls } from '../../src/document/channels'
import type { ContactKind, ContactPart } from '../../src/document/contacts'
import type { Box, Phase, PhaseName, Plan, Take } from '../../src/document/plan'
import { setControls } from '../../src/plan/edit/keys'
import { retimeSpan } from '../../src/plan/edit/retime'
import { newPlan } from '../../src/plan/new'
import { writePlan } from '../../src/plan/write'
import { contactsAt } from '../../src/pose/between'
import { kneelReach } from '../../src/pose/foot'
import { reach } from '../../src/pose/reach'
import { makeStance } from '../../src/pose/stances'
import { radians } from '../../src/space/units'
import { UP, type Vec3 } from '../../src/space/vec'

/**
 * Writes the demo plan, static/capstone.json. Everything in it is invented: a stone-troll mason kneels
 * at a low wall with his left fist on a course of stone, shifts onto his right knee, brings the left
 * foot up to a half kneel and takes a capstone's weight between both hands.
 * Run with `npx tsx tests/support/capstone.ts`.
 */
export function capstone(): Plan {
  const body = makeBody(mason)
  let plan = newPlan({
    title: 'Capstone',
    character: 'Stone-troll mason',
    body: mason,
    ground: { grip: 'rough', boxes: [COURSE] },
    length: FRAMES,
    mover: { limb: 'legL', toesStay: false },
    takeName: 'Corrected lean',
    controls: start(body),
  })
  const take = plan.takes[0] as Take
  plan = { ...plan, takes: [{ ...take, contacts: contacts(body), loads: LOADS, phases, notes }] }
  let controls = start(body)
  for (const { frame, set } of KEYS) {
    controls = { ...controls, ...set }
    plan = setControls(plan, take.id, frame, controls)
    const reached = reach(body, controls, contactsAt(plan.takes[0] as Take, frame)).reached
    // What is planted at one key is where the next one starts from.
    controls = { ...controls, ...limbs(reached) }
  }
  return retimeSpan(plan, take.id, { from: LEAVES, to: TOUCHES }, TRAVEL)
}

const mason = BUILDS.find((build) => build.id === 'mason')?.spec as Plan['body']

const FRAMES = 152
/** The left leg's last frame down and its first one down again; its move then takes as long as his size asks. */
const LEAVES = 33
const TOUCHES = 70
const TRAVEL = 52
const KNEE_X = 0.25
const FIST: Vec3 = [-0.15, 0.45, 0.66]
const FOOT: Vec3 = [0.46, 0, 0.5]

const COURSE: Box = {
  id: 'course',
  name: 'Course of stone',
  position: [-0.12, 0, 0.77],
  size: [0.6, 0.45, 0.44],
  turn: 0,
  grip: 'rough',
}

const LOADS = [
  {
    id: 'stone',
    name: 'Capstone',
    mass: 55,
    on: 'hands' as const,
    offset: [0, 0, 0] as Vec3,
    from: 108,
    to: FRAMES - 1,
  },
]

/** The left knee and toes leave after frame 33; the sole is down from frame 70; the fist leaves after 88. */
function contacts(body: BodyModel): Take['contacts'] {
  const last = FRAMES - 1
  const { kneeAhead, footBehind } = kneelReach(body, 'L', 'toes')
  const span = (
    part: ContactPart,
    kind: ContactKind,
    position: Vec3,
    from: number,
    to: number,
    on = 'ground',
  ) => ({
    id: `${part}-${from}`,
    part,
    kind,
    position,
    heading: 0,
    normal: UP,
    on,
    from,
    to,
    state: 'planted' as const,
  })
  return [
    span('kneeL', 'kneecap', [KNEE_X, 0, kneeAhead], 0, 33),
    span('footL', 'toes', [KNEE_X, 0, -footBehind], 0, 33),
    span('kneeR', 'kneecap', [-KNEE_X, 0, kneeAhead], 0, last),
    span('footR', 'toes', [-KNEE_X, 0, -footBehind], 0, last),
    span('handL', 'fist', FIST, 0, 88, 'course'),
    span('footL', 'sole', FOOT, 70, last),
  ]
}

/** The first pose: kneeling tall, leaning a little onto the fist. */
function start(body: BodyModel): Controls {
  const stance = makeStance('tall-kneel', body, { grip: 'rough', boxes: [] })
  return {
    ...stance.controls,
    'pelvis.x': 0.12,
    'pelvis.z': -0.03,
    'pelvis.tilt': radians(14),
    'chest.turn': radians(-12),
    'chest.tilt': radians(9),
    'head.tilt': radians(-16),
    'armL.elbow': radians(20),
    'armL.hand.x': FIST[0],
    'armL.hand.y': FIST[1],
    'armL.hand.z': FIST[2],
    'armR.hand.x': -0.52,
    'armR.hand.y': 0.42,
    'armR.hand.z': 0.3,
  }
}

const at = (part: string, [x, y, z]: Vec3): Partial<Record<ChannelId, number>> => ({
  [`${part}.x` as ChannelId]: x,
  [`${part}.y` as ChannelId]: y,
  [`${part}.z` as ChannelId]: z,
})

/** Key poses; what a key does not name it keeps from the one before. */
const KEYS: readonly { frame: number; set: Partial<Record<ChannelId, number>> }[] = [
  { frame: 0, set: {} },
  // Press: the weight goes to the left leg for a moment while he gathers.
  {
    frame: 9,
    set: { 'pelvis.x': 0.16, 'pelvis.y': 0.61, 'chest.tilt': radians(13), 'head.turn': radians(-6) },
  },
  // Lean: pelvis leads to his right, the chest follows, shoulders oppose the hip line.
  {
    frame: 22,
    set: {
      'pelvis.x': -0.17,
      'pelvis.y': 0.58,
      'pelvis.z': 0.03,
      'pelvis.turn': radians(-4),
      'chest.list': radians(9),
      'chest.tilt': radians(16),
      'head.list': radians(-4),
      ...at('armR.hand', [-0.72, 0.46, 0.28]),
    },
  },
  // Sink: dropped onto the right knee; the left leg touches but is empty.
  {
    frame: 31,
    set: {
      'pelvis.x': -0.27,
      'pelvis.y': 0.55,
      'pelvis.list': radians(-4),
      'chest.list': radians(16),
      ...at('armR.hand', [-0.82, 0.44, 0.26]),
    },
  },
  // Lift: the free hip hikes, the knee peels off first and the toes leave last.
  {
    frame: 48,
    set: {
      'pelvis.x': -0.26,
      'pelvis.y': 0.57,
      'pelvis.list': radians(-2),
      ...at('legL.knee', [0.3, 0.2, 0.16]),
      ...at('legL.ankle', [0.29, 0.27, -0.42]),
      'legL.pitch': radians(88),
    },
  },
  // Travel: the left knee passes, foot clear of the ground.
  {
    frame: 60,
    set: {
      'pelvis.x': -0.24,
      'pelvis.y': 0.6,
      'pelvis.list': radians(3),
      'pelvis.turn': radians(-8),
      'chest.list': radians(4),
      ...at('legL.knee', [0.56, 0.6, 0.4]),
      ...at('legL.ankle', [0.46, 0.24, 0.02]),
      'legL.pitch': radians(20),
      'legL.turn': radians(4),
    },
  },
  // Touch: the sole is down with next to no load.
  {
    frame: 70,
    set: {
      'pelvis.x': -0.22,
      'pelvis.y': 0.6,
      'pelvis.list': radians(2),
      ...at('legL.knee', [0.56, 0.72, 0.6]),
      'legL.pitch': 0,
    },
  },
  // Share: the weight comes back between the right knee and the left foot.
  {
    frame: 88,
    set: {
      'pelvis.x': -0.04,
      'pelvis.y': 0.6,
      'pelvis.z': 0.1,
      'pelvis.turn': radians(-2),
      'pelvis.list': 0,
      'chest.list': 0,
      'chest.tilt': radians(14),
      'head.turn': 0,
      'armL.elbow': radians(56),
      'armR.wrist': radians(16),
      ...at('armR.hand', [-0.45, 0.72, 0.55]),
    },
  },
  // Both hands to the stone.
  {
    frame: 104,
    set: {
      'pelvis.tilt': radians(10),
      'chest.tilt': radians(20),
      'head.tilt': radians(-22),
      'armL.elbow': radians(74),
      'armL.wrist': radians(10),
      'armR.wrist': 0,
      ...at('armL.hand', [0.3, 0.62, 0.72]),
      ...at('armR.hand', [-0.3, 0.62, 0.72]),
    },
  },
  // He has its weight: the chest goes back against it, a little too far, the head after it.
  {
    frame: 132,
    set: {
      'pelvis.y': 0.575,
      'pelvis.z': 0.11,
      'pelvis.tilt': radians(2),
      'chest.tilt': radians(2.5),
      'head.tilt': radians(-16),
      'armL.wrist': 0,
      ...at('armL.hand', [0.3, 0.84, 0.52]),
      ...at('armR.hand', [-0.3, 0.84, 0.52]),
    },
  },
  // Settle: forward again by less, and into a hold that still moves.
  {
    frame: 142,
    set: {
      'pelvis.y': 0.582,
      'chest.tilt': radians(5),
      'head.tilt': radians(-10),
      ...at('armL.hand', [0.3, 0.83, 0.53]),
      ...at('armR.hand', [-0.3, 0.83, 0.53]),
    },
  },
  {
    frame: 151,
    set: {
      'pelvis.y': 0.579,
      'chest.tilt': radians(4),
      'head.tilt': radians(-12),
      ...at('armL.hand', [0.3, 0.834, 0.526]),
      ...at('armR.hand', [-0.3, 0.834, 0.526]),
    },
  },
]

const limbs = (controls: Controls) =>
  Object.fromEntries(Object.entries(controls).filter(([id]) => /^(leg|arm)/.test(id)))

const phases: Phase[] = (
  [
    ['ready', 0, 4],
    ['press', 5, 12],
    ['lean', 10, 26],
    ['sink', 26, 33],
    ['lift', 34, 50],
    ['travel', 50, 69],
    ['touch', 70, 70],
    ['take-up', 71, 76],
    ['share', 76, 90],
    ['settle', 132, 151],
  ] as const
).map(([name, from, to]: readonly [PhaseName, number, number]) => ({ id: name, name, from, to }))

const notes = [
  { id: 'note-1', frame: 31, text: 'Hold the hip line down on his left until the knee is free.' },
  { id: 'note-2', frame: 108, text: 'The stone’s weight arrives here: let the chest give.' },
]

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(fileURLToPath(new URL('../../static/capstone.json', import.meta.url)), writePlan(capstone()))
