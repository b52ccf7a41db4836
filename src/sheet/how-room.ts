import type { Point2 } from '../contact/hull'
import { SAFE_ROOM } from '../weigh/constants'
import { edgeNearest, nearestIn } from '../weigh/polygon'
import type { Move } from '../weigh/types'
import { bodyWays } from './directions'
import { lengthText, neededText } from './format'
import { GEOMETRY, type How, type HowFacts, type HowInput, input } from './how'
import { headingOf } from './measures'

/** How the ways to where the mover is empty and safe, and the room before it tips, are worked out. */
export function roomHows(facts: HowFacts): How[] {
  const { empty, safe } = facts.verdict
  const room = roomHow(facts)
  return [
    ...(empty === null || empty.distance === 0 ? [] : [moveHow(facts, 'empty', empty)]),
    ...(safe === null ? [] : [moveHow(facts, 'safe', safe)]),
    ...(room ? [room] : []),
  ]
}

function moveHow({ pose, unit, body }: HowFacts, id: 'empty' | 'safe', { move, distance }: Move): How {
  const [side, fore] = bodyWays(headingOf(pose), ...move)
  const spare = lengthText(SAFE_ROOM * body.stature, { ...unit, decimals: unit.decimals + 1 })
  return {
    id,
    title: id === 'empty' ? 'How far to where it is empty' : 'How far to where it is safe',
    formula: 'd = √(a² + b²)',
    inputs: [
      input('a', 'the weight has to go to his left', side, 'm'),
      input('b', 'the weight has to go forward', fore, 'm'),
    ],
    result: { value: distance, text: neededText(distance, unit) },
    words: [
      'From the plumb to the nearest place where the other pads can hold the body without the mover: the patch in the floor view.',
      ...(id === 'safe'
        ? [`The patch is taken ${spare} narrower all round: half a hundredth of his height.`]
        : []),
      'Rounded up, so that whoever goes as far is there.',
    ],
    source: `${GEOMETRY} The patch: on level pads their hull; else linear programmes of the same forces, by our own solver.${id === 'safe' ? ' The room to spare is ours.' : ''}`,
  }
}

/** Null where the weight could be nowhere. */
function roomHow({ weighed, unit }: HowFacts): How | null {
  const { region, plumb, room, push } = weighed.weighing
  if (region.length === 0) return null
  const at: Point2 = [plumb[0], plumb[2]]
  const inside = region.length > 2 && edgeNearest(region, at).height >= 0
  const steps = inside ? insideSteps(region, at) : outsideSteps(nearestIn(region, at), at)
  // At the very edge the push decides which side it is on.
  const atEdge = push.size < 1e-4 ? !inside : inside
  return {
    id: 'room',
    title: 'Room before it tips',
    formula: atEdge ? 'r = 0 · h' : steps.formula,
    inputs: atEdge ? [input('h', 'room as drawn', steps.room, 'm')] : steps.inputs,
    result: { value: room, text: lengthText(room, unit) },
    words: [
      'From the plumb to the nearest edge of where the weight can be held; less than nothing beyond it.',
      ...(atEdge ? ['It stands on the very edge.'] : []),
    ],
    source: `${GEOMETRY} On level pads the edge is their hull’s; else it comes of linear programmes of the same forces.`,
  }
}

interface Steps {
  readonly formula: string
  readonly inputs: readonly HowInput[]
  readonly room: number
}

function insideSteps(region: readonly Point2[], at: Point2): Steps {
  const { height, outward } = edgeNearest(region, at)
  const i = region.findIndex((a, k) => {
    const b = region[(k + 1) % region.length] as Point2
    const long = Math.hypot(b[0] - a[0], b[1] - a[1])
    const over = ((b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0])) / long
    return Math.abs(over - height) < 1e-12 && Math.abs((b[1] - a[1]) / long - outward[0]) < 1e-9
  })
  const [a, b] = [region[Math.max(0, i)], region[(Math.max(0, i) + 1) % region.length]] as [Point2, Point2]
  return { ...distanceSteps(a, b, at), room: height }
}

/** The distance of a place from the line through an edge. */
export function distanceSteps(a: Point2, b: Point2, at: Point2): Pick<Steps, 'formula' | 'inputs'> {
  return {
    formula: 'r = ((x₂ − x₁) · (z − z₁) − (z₂ − z₁) · (x − x₁)) ÷ √((x₂ − x₁)² + (z₂ − z₁)²)',
    inputs: [
      ...place('₁', 'one end of the edge', a),
      ...place('₂', 'other end of the edge', b),
      ...place('', 'plumb', at),
    ],
  }
}

function outsideSteps(near: Point2, at: Point2): Steps {
  return { ...beyondSteps(near, at), room: -Math.hypot(at[0] - near[0], at[1] - near[1]) }
}

/** The distance of a place beyond a point of the edge, less than nothing. */
export function beyondSteps(near: Point2, at: Point2): Pick<Steps, 'formula' | 'inputs'> {
  return {
    formula: 'r = 0 − √((x − x₁)² + (z − z₁)²)',
    inputs: [...place('₁', 'nearest place of the edge', near), ...place('', 'plumb', at)],
  }
}

const place = (mark: string, name: string, [x, z]: Point2): HowInput[] => [
  input(`x${mark}`, `${name}, along the world’s x`, x, 'm'),
  input(`z${mark}`, `${name}, along the world’s z`, z, 'm'),
]
