import { sideOf } from '../document/contacts'
import type { Motion } from '../pose/between'
import type { ReachedPose } from '../pose/types'
import { degrees } from '../space/units'
import { sub } from '../space/vec'
import { type Gone, goneOf, lowestOf } from './clearance'
import { type Column, textWithUnit } from './column'
import { GEOMETRY, type How, type HowFacts, input } from './how'
import { loadHows } from './how-loads'
import { roomHows } from './how-room'
import { type Change, changeAt } from './marks'
import { headingOf } from './measures'
import type { SheetHeader, SheetRow } from './types'

/**
 * How a cell of the timing sheet is worked out; null where it holds words, nothing, or something that was typed.
 * @param facts of the row's frame
 */
export function columnHow(
  column: Column,
  row: SheetRow,
  facts: HowFacts,
  columnFacts: ColumnFacts,
): How | null {
  const value = column.of(row)
  const text = textWithUnit(column, row)
  if (text === '') return null
  const shared = sharedId(column.id)
  if (shared !== null) return [...loadHows(facts), ...roomHows(facts)].find(({ id }) => id === shared) ?? null
  if (typeof value !== 'number') return null
  const steps = stepsOf(column.id, row, facts, columnFacts)
  if (steps === null) return null
  const title = [column.group, column.title].filter(Boolean).join(', ')
  return { id: `column.${column.id}`, title, words: [], source: GEOMETRY, ...steps, result: { value, text } }
}

export interface ColumnFacts {
  readonly header: SheetHeader
  /** Of the take; travel is measured from its first frame. */
  readonly motion: Motion
  /** What chest and head are measured to. */
  readonly angles: 'world' | 'parent'
}

/** The explanation that a cell shares with the page. */
export function sharedId(column: string): string | null {
  if (column === 'room' || column === 'push' || column === 'verdict') return column
  const [limb, part = ''] = column.split('.')
  const page = { share: 'share', load: 'mass', least: 'least' }[part]
  return page === undefined ? null : `${page}.${limb}`
}

interface Steps extends Pick<How, 'formula' | 'inputs'> {
  readonly words?: readonly string[]
  readonly source?: string
}

function stepsOf(
  id: string,
  row: SheetRow,
  facts: HowFacts,
  { header, motion, angles }: ColumnFacts,
): Steps | null {
  const [group = '', part = ''] = id.split('.')
  const first = motion.poseAt(0)
  if (group === 'seconds' || group === 'frame' || group === 'count') return timeSteps(group, row, header)
  if (group === 'chart') return chartSteps(changeAt(facts.take, motion, header.stature, row.frame))
  if (group === 'pelvis' && part in TRAVEL) return travelSteps(id, facts, header, first)
  if (id === 'mover.clearance') return clearSteps(facts)
  if (id === 'mover.path') {
    const gone = goneOf(facts.take, motion)[row.frame]
    return gone ? pathSteps(gone) : null
  }
  if (part === 'elbowBend') return elbowSteps(group, facts)
  const angle = angleSteps(id, facts.pose, first, angles)
  return angle && { words: ANGLE_WORDS[angles], ...angle }
}

function timeSteps(id: 'seconds' | 'frame' | 'count', row: SheetRow, header: SheetHeader): Steps {
  const since = input('i', 'frames since the first', row.frame, 'frames')
  if (id === 'seconds')
    return {
      formula: 't = i ÷ f',
      inputs: [since, input('f', 'frames a second', header.rate.num / header.rate.den, 'fps')],
      source: 'The plan’s rate.',
    }
  return {
    formula: 'n = i + f',
    inputs: [since, input('f', 'number of the first', id === 'frame' ? header.firstFrame : 1, '')],
    source: 'The plan’s first frame.',
  }
}

function travelSteps(id: string, facts: HowFacts, header: SheetHeader, first: ReachedPose): Steps {
  const [, part, by] = id.split('.')
  const travelled = travel(part as keyof typeof TRAVEL, facts.pose, first)
  const over = by === 'thigh' ? header.thigh : by === 'half-stance' ? header.halfStance?.length : undefined
  const { symbol, value: perMetre, name } = perUnit(over, by, facts)
  return {
    formula: `d = ${travelled.formula} · ${symbol}`,
    inputs: [...travelled.inputs, input(symbol, name, perMetre, '')],
    words: ['From the pose at the first frame, in the directions that the body faces there.'],
  }
}

const TRAVEL = { side: true, up: true, fore: true } as const

function travel(of: keyof typeof TRAVEL, pose: ReachedPose, first: ReachedPose) {
  const [x, y, z] = sub(pose.joints.midHip, first.joints.midHip)
  const h = input('h', 'which way he faces at the first frame', degrees(headingOf(first)), '°')
  const level = [
    input('x', 'the hips have gone along the world’s x', x, 'm'),
    input('z', 'along the world’s z', z, 'm'),
    h,
  ]
  return {
    side: { formula: '(x · cos(h) − z · sin(h))', inputs: level },
    fore: { formula: '(x · sin(h) + z · cos(h))', inputs: level },
    up: { formula: 'y', inputs: [input('y', 'the hips have gone up', y, 'm')] },
  }[of]
}

function perUnit(over: number | undefined, by: string | undefined, { unit }: HowFacts) {
  if (over === undefined) return { symbol: 'u', name: `${unit.name} in a metre`, value: unit.perMetre }
  return { symbol: 'u', name: `per cent of his ${by} in a metre`, value: 100 / over }
}

const clearSteps = ({ body, plan, pose, take, unit }: HowFacts) => {
  const lowest = lowestOf(body, plan.ground, pose, take.mover) ?? { height: 0, under: 0 }
  return {
    formula: 'c = (y − u) · f',
    inputs: [
      input('y', 'height of the mover’s lowest point', lowest.height, 'm'),
      input('u', 'height of what lies below it', lowest.under, 'm'),
      input('f', `${unit.name} in a metre`, unit.perMetre, ''),
    ],
    words: ['Nothing while a part of it touches; less than nothing where it is sunk in.'],
  }
}

const pathSteps = ({ gone, whole }: Gone) => ({
  formula: 'p = 100 · g ÷ w',
  inputs: [
    input('g', 'the mover has gone, frame by frame', gone, 'm'),
    input('w', 'its whole way, from leaving to touching', whole, 'm'),
  ],
  words: ['The way of the part that touches next: knee, ankle or knuckles.'],
})

function chartSteps(change: Change | null) {
  const { along, whole } = change ?? { along: 0, whole: 1 }
  return {
    formula: 'p = 100 · a ÷ w',
    inputs: [
      input('a', 'change since the last key pose, along the whole change', along, ''),
      input('w', 'whole change to the next key pose, squared', whole, ''),
    ],
    words: [
      'Changes of all controls as reached, lengths over his height and a radian as a quarter of it; at a key pose there is none yet.',
    ],
    source: 'Ours: the part of the change that goes the way of the whole.',
  }
}

const ANGLE_WORDS = {
  world: ['The order is turn, then list, then tilt; a list raises his left side.'],
  parent: [
    'The order is turn, then list, then tilt, to the part it hangs from; as his limbs let it be reached.',
  ],
} as const

function angleSteps(
  id: string,
  pose: ReachedPose,
  first: ReachedPose,
  angles: ColumnFacts['angles'],
): Steps | null {
  const [group = '', part = ''] = id.split('.')
  if (group.startsWith('thigh')) return thighSteps(part, group.endsWith('L') ? 'L' : 'R', pose, first)
  if (group.startsWith('arm') && part === 'wrist')
    return asSet('a', pose.reached[`arm${group.endsWith('L') ? 'L' : 'R'}.wrist`])
  const about = { side: 'list', list: 'list', fore: 'tilt', turn: 'turn' }[part]
  if (about === undefined || !['pelvis', 'chest', 'head'].includes(group)) return null
  if (group !== 'pelvis' && angles === 'parent')
    return asSet('a', pose.reached[`${group as 'chest' | 'head'}.${about as 'list' | 'tilt' | 'turn'}`])
  const segment = { pelvis: 'lowerTrunk', chest: 'upperTrunk', head: 'head' }[group] as
    | 'lowerTrunk'
    | 'upperTrunk'
    | 'head'
  const r = pose.segments[segment].rotation
  const entry = (symbol: string, i: number, name: string) => input(symbol, name, r[i] as number, '')
  return {
    list: {
      formula: 'a = asin(b)',
      inputs: [entry('b', 3, 'how much his left side points up')],
    },
    tilt: {
      formula: 'a = atan2(0 − b, c)',
      inputs: [
        entry('b', 5, 'how much his front points up'),
        entry('c', 4, 'how much his upper end points up'),
      ],
    },
    turn: {
      formula: 'a = atan2(0 − b, c)',
      inputs: [
        entry('b', 6, 'how much his left side points forward'),
        entry('c', 0, 'how much his left side points along the world’s x'),
      ],
    },
  }[about as 'list' | 'tilt' | 'turn']
}

const asSet = (symbol: string, value: number): Steps => ({
  formula: `a = ${symbol}₀`,
  inputs: [input(`${symbol}₀`, 'the control, as it is reached', degrees(value), '°')],
})

function thighSteps(part: string, side: 'L' | 'R', { joints }: ReachedPose, first: ReachedPose): Steps {
  const [x, y, z] = sub(joints[`hip${side}`], joints[`knee${side}`])
  const h = headingOf(first)
  const left = x * Math.cos(h) - z * Math.sin(h)
  const ahead = x * Math.sin(h) + z * Math.cos(h)
  const s = input('s', 'the hip is to the left of the knee', left, 'm')
  const f = input('f', 'the hip is ahead of the knee', ahead, 'm')
  const u = input('u', 'the hip is above the knee', y, 'm')
  if (part === 'side') return { formula: 'a = atan2(s, u)', inputs: [s, u] }
  if (part === 'fore') return { formula: 'a = atan2(f, u)', inputs: [f, u] }
  return { formula: 'a = atan2(√(s² + f²), u)', inputs: [s, f, u] }
}

function elbowSteps(arm: string, { body, pose }: HowFacts) {
  const side = sideOf(arm as 'armL' | 'armR')
  const [shoulder, wrist] = [pose.joints[`shoulder${side}`], pose.joints[`wrist${side}`]]
  return {
    formula: 'a = π − acos((u² + f² − r²) ÷ (2 · u · f))',
    inputs: [
      input('u', 'upper arm', body.lengths.upperArm, 'm'),
      input('f', 'forearm', body.lengths.forearm, 'm'),
      input('r', 'from shoulder to wrist', Math.hypot(...sub(wrist, shoulder)), 'm'),
    ],
    words: ['The law of cosines in the triangle of shoulder, elbow and wrist; 0 is straight.'],
  }
}
