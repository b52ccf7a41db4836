import { expect, test } from 'vitest'
import { random } from '../../src/space/random'
import { scale, type Vec3 } from '../../src/space/vec'
import { tippingAxis } from '../../src/trial/axis'
import { type LiftProblem, tryLift } from '../../src/trial/lift'
import { sliceAt } from '../../src/trial/slice'
import type { Contact } from '../../src/weigh/weigh'
import { anyLifts, remaining, tried, verdictLetsGo, withRoom } from './poses'

/** On level pads trial and verdict must agree from this far on either side of the edge, over the stature. */
const BAND = 0.001

test('on level pads it holds or tips as the verdict says, and over the edge that is nearest', () => {
  let held = 0
  let compared = 0
  for (const { problem } of anyLifts(random(1), false, 500)) {
    const trial = tried(problem)
    const { stature } = problem.frozen.body
    const { room, outward } = edgeByTrial(remaining(problem), problem.frozen.pose.com)
    if (Math.abs(room) < BAND * stature) continue
    compared++
    // Level pads never slip, and friction has no part in it: what holds or tips here is matter-js's word.
    expect(trial.outcome).toBe(room > 0 ? 'holds' : 'tips')
    expect(trial.outcome === 'holds').toBe(verdictLetsGo(problem))
    if (trial.outcome !== 'holds' && trial.outcome !== 'tips') continue
    const { axis } = trial.edge as NonNullable<typeof trial.edge>
    expect(axis.room).toBeCloseTo(room, 9)
    expect(axis.outward[0] * outward[0] + axis.outward[2] * outward[1]).toBeCloseTo(1, 6)
    if (trial.outcome === 'holds') held++
  }
  expect(compared).toBeGreaterThan(480)
  expect(held).toBeGreaterThan(80)
  expect(compared - held).toBeGreaterThan(80)
})

test('on uneven pads it holds or tips as the verdict says', () => {
  const outcomes = { pads: 0, friction: 0, tips: 0 }
  for (const { problem } of anyLifts(random(2), true, 500)) {
    const trial = tried(problem)
    const { room } = edgeByTrial(remaining(problem), problem.frozen.pose.com)
    if (Math.abs(room) < BAND * problem.frozen.body.stature) continue
    expect(trial.outcome === 'holds').toBe(verdictLetsGo(problem))
    if (trial.outcome === 'holds') outcomes[trial.by]++
    else outcomes.tips++
    // Over pads that face up the weight holds itself inside the hull; outside, friction may.
    if (room > 0) expect(trial).toMatchObject({ outcome: 'holds', by: 'pads' })
    else expect(trial).toMatchObject(trial.outcome === 'tips' ? {} : { outcome: 'holds', by: 'friction' })
  }
  expect(outcomes.pads).toBeGreaterThan(80)
  expect(outcomes.tips).toBeGreaterThan(80)
  expect(outcomes.friction).toBeGreaterThan(2)
})

test('a pose moved across the edge by 0.2 % of the stature flips the verdict and the trial alike', () => {
  let flipped = 0
  for (const { asked } of anyLifts(random(3), false, 120)) {
    const { stature } = asked.body
    const inside = withRoom(asked, 0.002 * stature)
    const outside = withRoom(asked, -0.002 * stature)
    if (!inside || !outside) continue
    expect(tried(inside)).toMatchObject({ outcome: 'holds', by: 'pads' })
    expect(verdictLetsGo(inside)).toBe(true)
    expect(tried(outside).outcome).toBe('tips')
    expect(verdictLetsGo(outside)).toBe(false)
    flipped++
  }
  expect(flipped).toBeGreaterThan(40)
})

test('the same lift gives the same bits, whatever was tried before', () => {
  const [first, ...others] = anyLifts(random(4), true, 60).map(({ problem }) => problem) as [LiftProblem]
  const tipping = [first, ...others].filter((problem) => tried(problem).outcome === 'tips')
  expect(tipping.length).toBeGreaterThan(10)
  const once = tipping.map(tried)
  expect(tipping.toReversed().map(tried).toReversed()).toEqual(once)
})

test('frames are seconds at the plan’s rate, and the turn is told frame by frame', () => {
  const problem = tippingLift()
  const trial = tried(problem)
  if (trial.outcome !== 'tips' || trial.seconds === null) throw new Error('this one tips')
  expect(trial.frames).toBeCloseTo(trial.seconds * 24, 12)
  const five = Math.PI / 36
  expect(trial.angles[0]).toBe(0)
  expect(trial.angles.at(Math.floor(trial.seconds * 24))).toBeLessThanOrEqual(five)
  expect(trial.angles.at(Math.ceil(trial.seconds * 24))).toBeGreaterThanOrEqual(five)
  expect(trial.angles).toEqual(trial.angles.toSorted((a, b) => a - b))
  expect(trial.angles.at(-1)).toBeGreaterThan(Math.PI / 18)
  const film = { num: 24000, den: 1001 }
  const slower = tried({ ...problem, rate: film })
  expect(slower).toMatchObject({ seconds: trial.seconds, frames: (trial.seconds * 24000) / 1001 })
  const twice = tried({ ...problem, rate: { num: 48, den: 1 } })
  expect(twice.outcome === 'tips' && twice.angles.filter((_, i) => i % 2 === 0).slice(0, 5)).toEqual(
    trial.angles.slice(0, 5),
  )
})

test('it can be dropped between two frames', () => {
  const trial = tryLift(tippingLift())
  expect(trial.next()).toEqual({ done: false, value: expect.any(Number) })
  expect(trial.next().done).toBe(false)
  trial.return({ outcome: 'falls' })
  expect(trial.next()).toEqual({ done: true, value: undefined })
})

test('a quarter of the gravity takes twice the time', () => {
  const problem = tippingLift()
  const slow = tried({ ...problem, gravity: problem.gravity / 4 })
  const trial = tried(problem)
  if (trial.outcome !== 'tips' || slow.outcome !== 'tips') throw new Error('this one tips')
  expect((slow.seconds as number) / (trial.seconds as number)).toBeCloseTo(2, 9)
})

test('with nothing else that touches it falls', () => {
  const problem = tippingLift()
  expect(tried({ ...problem, mover: new Set(problem.contacts.map(({ id }) => id)) })).toEqual({
    outcome: 'falls',
  })
})

test('a mover that doesn’t touch leaves the pose as it stands', () => {
  const standing = anyLifts(random(6), false, 20).map(({ problem }) => ({
    ...problem,
    mover: new Set<string>(),
  }))
  const trials = standing.map((problem) => ({
    trial: tried(problem),
    room: edgeByTrial(problem.contacts, problem.frozen.pose.com).room,
  }))
  for (const { trial, room } of trials) expect(trial.outcome).toBe(room > 0 ? 'holds' : 'tips')
  expect(trials.some(({ room }) => room > 0)).toBe(true)
})

test('between two walls friction holds or it slips', () => {
  const problem = tippingLift()
  const { com } = problem.frozen.pose
  const wall = (side: 1 | -1, friction: number): Contact => ({
    id: `wall${side}`,
    limb: `arm${side}`,
    vertices: [-0.05, 0.05].flatMap((y) =>
      [-0.05, 0.05].map((z): Vec3 => [com[0] + side * 0.4, com[1] + y, com[2] + z]),
    ),
    normal: [-side, 0, 0],
    friction,
    stiffness: 1,
    limit: 2,
  })
  const between = (friction: number) =>
    tried({
      ...problem,
      contacts: [...problem.contacts, wall(1, friction), wall(-1, friction)],
      mover: new Set(problem.contacts.map(({ id }) => id)),
    })
  expect(between(0.9)).toEqual({ outcome: 'holds', by: 'friction', edge: null, loose: null })
  expect(between(0.1)).toEqual({ outcome: 'slips', edge: null })
})

test('a wall in the way of the turn lets it slip, not tip', () => {
  const problem = tippingLift()
  const { com } = problem.frozen.pose
  const { outward } = tippingAxis(remaining(problem), com, problem.frozen.body.stature) as { outward: Vec3 }
  const wall: Contact = {
    id: 'wall',
    limb: 'arm',
    vertices: [[com[0] + outward[0] * 0.5, com[1] + 0.3, com[2] + outward[2] * 0.5]],
    normal: scale(outward, -1),
    friction: 0,
    stiffness: 1,
    limit: 2,
  }
  const smooth = problem.contacts.map((contact) => ({ ...contact, friction: 0.001 }))
  expect(tried({ ...problem, contacts: smooth }).outcome).toBe('tips')
  expect(tried({ ...problem, contacts: [...smooth, wall] }).outcome).toBe('slips')
})

test('in a slice square to a sloping edge only part of the gravity turns the body', () => {
  const { frozen } = tippingLift()
  const slope: Vec3 = [0.6, 0.8, 0]
  const slice = sliceAt(
    {
      point: [0, 0, 0],
      direction: slope,
      outward: [0, 0, 1],
      room: 0,
      level: false,
      overCorner: false,
      ends: [],
    },
    frozen,
    10,
  )
  expect(slice.gravity).toBeCloseTo(6, 12)
  // Up in the slice is world up without its part along the edge.
  const { com } = frozen.pose
  expect(slice.com[0]).toBeCloseTo(com[2], 12)
  expect(slice.com[1]).toBeCloseTo(-0.8 * com[0] + 0.6 * com[1], 12)
})

/** A lift that tips without friction's help, on level ground. */
function tippingLift(): LiftProblem {
  const lift = anyLifts(random(5), false, 40).find(({ problem }) => tried(problem).outcome === 'tips')
  if (!lift) throw new Error('none of these poses tips')
  return lift.problem
}

/**
 * Room and way to the edge by trying all lines through two vertices that have every other vertex on one
 * side, and all vertices: slower than a hull, and nothing of it shared with the code it checks.
 */
function edgeByTrial(contacts: readonly Contact[], com: Vec3): { room: number; outward: [number, number] } {
  const points = contacts
    .filter(({ normal }) => normal[1] > 0.7)
    .flatMap(({ vertices }) => vertices.map(([x, , z]) => [x, z] as const))
  let inside = { room: Number.POSITIVE_INFINITY, outward: [0, 0] as [number, number] }
  let outside = { room: Number.NEGATIVE_INFINITY, outward: [0, 0] as [number, number] }
  for (const [ax, az] of points) {
    const far = Math.hypot(com[0] - ax, com[2] - az)
    if (-far > outside.room) outside = { room: -far, outward: [(com[0] - ax) / far, (com[2] - az) / far] }
    for (const [bx, bz] of points) {
      const long = Math.hypot(bx - ax, bz - az)
      if (long < 1e-3 * Math.abs(com[1])) continue
      const out: [number, number] = [(bz - az) / long, (ax - bx) / long]
      if (points.some(([x, z]) => (x - ax) * out[0] + (z - az) * out[1] > 1e-9)) continue
      const room = (ax - com[0]) * out[0] + (az - com[2]) * out[1]
      if (room < inside.room) inside = { room, outward: out }
      const along = ((com[0] - ax) * (bx - ax) + (com[2] - az) * (bz - az)) / long
      if (room < 0 && along > 0 && along < long && room > outside.room) outside = { room, outward: out }
    }
  }
  return inside.room >= 0 ? inside : outside
}
