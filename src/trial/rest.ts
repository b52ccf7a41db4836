import Matter from 'matter-js'
import { PUSH_NONE } from '../weigh/constants'
import type { Body, Contact, ContactLoad, Weighing } from '../weigh/types'
import {
  BEARS,
  EVEN,
  FOOT,
  MEAN_STEPS,
  ONE_PLACE,
  PIXELS_PER_STATURE,
  REST_HZ,
  REST_RADIUS,
  SETTLE_STEPS,
  SLOP,
  TRIAL_GRAVITY,
  TWO_PLACES,
} from './constants'
import { makeEngine, pixelGravity, setMass } from './engine'

/**
 * A second opinion on the loads of a still pose: wherever the front or the side view shows just two places
 * that bear, a rigid body is set down on those two in matter-js, and what they carry once it rests is put
 * beside the split. Given are where the pads press and how hard they hold sideways; asked is how heavily.
 *
 * None where the pose has no balance, where something bears that doesn't face straight up, or where a view
 * shows one place or more than two: matter-js's loads on three contacts depend on the order of its parts.
 */
export function secondOpinions(contacts: readonly Contact[], body: Body, weighing: Weighing): Opinion[] {
  if (body.force || body.moment || weighing.push.size >= PUSH_NONE) return []
  const bearing = weighing.contacts.filter(({ share }) => share > BEARS)
  const faces = (id: string) => contacts.find((contact) => contact.id === id)?.normal ?? [0, 0, 0]
  if (bearing.some(({ id }) => faces(id)[1] < 1 - EVEN)) return []
  return VIEWS.flatMap(({ view, axis }) => {
    const places = twoPlaces(bearing, axis, body.stature)
    if (places === null) return []
    const trial = restingShares(asSlice(places, axis, body))
    const compared = places.map((place, i) => ({
      ids: place.map(({ id }) => id),
      split: total(place, ({ vertical }) => vertical),
      trial: trial[i] as number,
    })) as unknown as Opinion['places']
    return [
      { view, places: compared, difference: Math.max(...compared.map((p) => Math.abs(p.split - p.trial))) },
    ]
  })
}

export interface Opinion {
  /** Which view shows two places. */
  readonly view: 'front' | 'side'
  readonly places: readonly [OpinionPlace, OpinionPlace]
  /** The larger of the two differences, share of the weight. */
  readonly difference: number
}

export interface OpinionPlace {
  /** The contacts there. */
  readonly ids: readonly string[]
  /** What they carry together, share of the weight: by the split, and in matter-js. */
  readonly split: number
  readonly trial: number
}

/** Two points under a rigid body, to the right of and above where its weight acts, over the stature. */
export type TwoPoints = readonly [readonly [number, number], readonly [number, number]]

/** What the two points carry at rest in matter-js, shares of the weight: the mean over MEAN_STEPS. */
export function restingShares(points: TwoPoints): [number, number] {
  const pull = pixelGravity(TRIAL_GRAVITY)
  const places = points.map(([x, y]) => ({ x: x * PIXELS_PER_STATURE, y: -y * PIXELS_PER_STATURE }))
  const body = Matter.Body.create({ parts: places.map(foot), ...SMOOTH })
  setMass(body, { x: 0, y: 0 }, (REST_RADIUS * PIXELS_PER_STATURE) ** 2)
  const blocks = places.map(block)
  const engine = makeEngine(TRIAL_GRAVITY, [body, ...blocks])
  const step = 1000 / REST_HZ
  const sums: [number, number] = [0, 0]
  for (let i = 0; i < SETTLE_STEPS + MEAN_STEPS; i++) {
    Matter.Engine.update(engine, step)
    if (i < SETTLE_STEPS) continue
    for (const pair of engine.pairs.list) {
      const at = blocks.findIndex((one) => one === pair.bodyA || one === pair.bodyB) as 0 | 1
      if (pair.isActive) sums[at] += upward(pair) / (step * step * pull * MEAN_STEPS)
    }
  }
  return sums
}

/** Upward impulse of a step, for a mass of 1, px/ms² × ms²; entries past `contactCount` are stale. */
function upward(pair: Matter.Pair): number {
  const { contacts, contactCount, collision } = pair as Matter.Pair & { readonly contactCount: number }
  let impulse = 0
  for (let i = 0; i < contactCount; i++) impulse -= contacts[i]?.normalImpulse ?? 0
  return impulse * Math.abs(collision.normal.y)
}

const SMOOTH = { friction: 0, frictionStatic: 0, frictionAir: 0, restitution: 0, slop: SLOP } as const

/** A foot comes to a point, so that it touches at one place only. */
function foot({ x, y }: Matter.Vector): Matter.Body {
  const vertices = [
    { x, y },
    { x: x + FOOT / 2, y: y - FOOT },
    { x: x - FOOT / 2, y: y - FOOT },
  ]
  return Matter.Body.create({ position: Matter.Vertices.centre(vertices), vertices, ...SMOOTH })
}

const block = ({ x, y }: Matter.Vector): Matter.Body =>
  Matter.Bodies.rectangle(x, y + FOOT / 2 - RESTING_DEPTH, 2 * FOOT, FOOT, { isStatic: true, ...SMOOTH })

/** How deep a foot at rest stands in its block, px: the slop as matter-js scales it to the length of a step. */
const RESTING_DEPTH = (SLOP * 60) / REST_HZ

const VIEWS = [
  { view: 'front', axis: 0 },
  { view: 'side', axis: 2 },
] as const
type Axis = (typeof VIEWS)[number]['axis']

/** Loads that bear at two places along an axis, those at the lesser coordinate first; null where they don't. */
function twoPlaces(
  loads: readonly ContactLoad[],
  axis: Axis,
  stature: number,
): [ContactLoad[], ContactLoad[]] | null {
  const at = ({ centre }: ContactLoad) => centre?.[axis] ?? 0
  const sorted = [...loads].sort((a, b) => at(a) - at(b))
  const gaps = sorted.slice(1).map((load, i) => at(load) - at(sorted[i] as ContactLoad))
  const cut = gaps.indexOf(Math.max(...gaps)) + 1
  const places: [ContactLoad[], ContactLoad[]] = [sorted.slice(0, cut), sorted.slice(cut)]
  const narrow = places.every(
    (p) => p.length > 0 && at(p.at(-1) as ContactLoad) - at(p[0] as ContactLoad) <= ONE_PLACE * stature,
  )
  return narrow && Math.max(...gaps) >= TWO_PLACES * stature ? places : null
}

/**
 * The two points where the places press, each the middle of its loads. What its pads hold sideways makes a
 * moment about the centre of mass, which acts as if the weight stood moment / weight further on.
 */
function asSlice(
  places: readonly [ContactLoad[], ContactLoad[]],
  axis: Axis,
  { com, stature, mass, gravity }: Body,
): TwoPoints {
  const moment = total(places.flat(), ({ centre, force }) => ((centre?.[1] ?? 0) - com[1]) * force[axis])
  const on = moment / (mass * gravity)
  const point = (loads: readonly ContactLoad[]) => {
    const middle = (i: 0 | 1 | 2) =>
      total(loads, ({ vertical, centre }) => vertical * (centre?.[i] ?? 0)) /
      total(loads, ({ vertical }) => vertical)
    return [(middle(axis) - com[axis] - on) / stature, (middle(1) - com[1]) / stature] as const
  }
  return [point(places[0]), point(places[1])]
}

const total = (loads: readonly ContactLoad[], of: (load: ContactLoad) => number): number =>
  loads.reduce((sum, load) => sum + of(load), 0)
