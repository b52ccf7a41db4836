import { makeBody } from '../../src/body/model'
import type { Take } from '../../src/document/plan'
import { setControls } from '../../src/plan/edit/keys'
import { makeMotion } from '../../src/pose/between'
import { leastFrames } from '../../src/shift/least-frames'
import { type DynamicFrame, type MotionProblem, weighMotion } from '../../src/weigh/dynamic'
import { capstone } from '../support/capstone'
import type { Case } from './measure'

const SHORT = 240
const LONG = 2_400
const FPS = 24

/** Goals are the project's own; the long take's are ten times the short one's: cost is linear. */
export function motionCases(): Case[] {
  const [short, long] = [swaying(SHORT), swaying(LONG)]
  return [
    posed('loads and push in motion', short, 40),
    bare('loads and push in motion', short, 40),
    ranged('ranges and region in motion', short, 200),
    posed('loads and push in motion', long, 400),
    bare('loads and push in motion', long, 400),
    ranged('ranges and region in motion', long, 2_000),
    {
      name: 'least frames of a span',
      input: 'five pads of eight vertices, two keys 6 frames apart, poses made on the way',
      goal: {},
      run: () => void leastFrames(short(), { from: 24, to: 30 }),
    },
  ]
}

/** A kneeling body with its fist on a course of stone sways from key to key, all five pads planted. */
function swaying(length: number): () => MotionProblem {
  const start = capstone()
  const body = makeBody(start.body)
  const one = start.takes[0] as Take
  const contacts = one.contacts.filter(({ from }) => from === 0).map((span) => ({ ...span, to: length - 1 }))
  const channels = Object.fromEntries(
    Object.entries(one.channels).map(([id, keys]) => [id, keys.slice(0, 1)]),
  ) as unknown as Take['channels']
  let plan = { ...start, takes: [{ ...one, length, contacts, loads: [], channels }] }
  const first = makeMotion(body, plan.takes[0] as Take).askedAt(0)
  for (let frame = 6, key = 1; frame < length; frame += 6, key++) {
    const at = {
      'pelvis.x': 0.1 * Math.sin(key),
      'pelvis.z': 0.03 * Math.cos(2 * key),
      'chest.list': 0.1 * Math.sin(3 * key),
    }
    const sway = Object.entries(at).map(([id, by]) => [id, first[id as keyof typeof at] + by])
    plan = setControls(plan, one.id, frame, { ...first, ...Object.fromEntries(sway) }) as typeof plan
  }
  const take = plan.takes[0] as Take
  return () => ({
    body,
    ground: plan.ground,
    gravity: plan.gravity,
    take,
    motion: makeMotion(body, take),
    fps: FPS,
  })
}

const input = (frames: number, poses: string) => `${frames} frames, five pads of eight vertices, ${poses}`

function posed(name: string, make: () => MotionProblem, median: number): Case {
  const frames = make().take.length
  return {
    name,
    input: input(frames, 'poses made on the way'),
    goal: { median },
    run: () => through(weighMotion(make(), { ranges: false, region: false }), frames),
  }
}

function bare(name: string, make: () => MotionProblem, median: number): Case {
  const problem = make()
  const frames = problem.take.length
  through(weighMotion(problem, { ranges: false, region: false }), frames)
  return {
    name,
    input: input(frames, 'poses known'),
    goal: { median },
    run: () => through(weighMotion(problem, { ranges: false, region: false }), frames),
  }
}

/** The second half of the work, after loads and push. */
function ranged(name: string, make: () => MotionProblem, median: number): Case {
  const problem = make()
  const frames = problem.take.length
  let rest: Iterator<DynamicFrame>
  return {
    name,
    input: input(frames, 'loads and push known'),
    goal: { median },
    ready: () => {
      rest = weighMotion(problem)
      through(rest, frames)
    },
    run: () => through(rest, frames),
  }
}

function through(frames: Iterator<DynamicFrame>, count: number): void {
  for (let i = 0; i < count; i++) frames.next()
}
