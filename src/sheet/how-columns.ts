import { sideOf } from '../document/contacts'
import type { ReachedPose } from '../pose/types'
import { degrees } from '../space/units'
import { sub } from '../space/vec'
import { type Column, textWithUnit } from './column'
import { GEOMETRY, type How, type HowFacts, type HowInput, input } from './how'
import { loadHows } from './how-loads'
import { roomHows } from './how-room'
import { headingOf } from './measures'
import type { SheetHeader, SheetRow } from './types'

/**
 * How a cell of the timing sheet is worked out; null where it holds words, nothing, or something that was typed.
 * @param facts of the row's frame
 * @param first the pose of the first frame, from which travel is measured
 */
export function columnHow(
  column: Column,
  row: SheetRow,
  facts: HowFacts,
  { header, first, angles }: ColumnFacts,
): How | null {
  const value = column.of(row)
  if (typeof value !== 'number') return column.id === 'verdict' ? find(loadHows(facts), 'verdict') : null
  const text = textWithUnit(column, row)
  if (text === '') return null
  const how = (made: Pick<How, 'formula' | 'inputs' | 'words'> & { readonly source?: string }): How => ({
    id: `column.${column.id}`,
    title: [column.group, column.title].filter(Boolean).join(', '),
    source: GEOMETRY,
    ...made,
    result: { value, text },
  })
  const [group = '', part = '', by] = column.id.split('.')
  if (group.startsWith('leg') || (group.startsWith('arm') && part in CARRIED))
    return find(loadHows(facts), `${CARRIED[part]}.${group}`)
  if (group === 'room') return find(roomHows(facts), 'room')
  if (group === 'push') return find(loadHows(facts), 'push')
  if (group === 'seconds')
    return how({
      formula: 't = i ÷ f',
      inputs: [
        input('i', 'frames since the first', row.frame, 'frames'),
        input('f', 'frames a second', header.rate.num / header.rate.den, 'fps'),
      ],
      words: [],
      source: 'The plan’s rate.',
    })
  if (group === 'frame' || group === 'count')
    return how({
      formula: 'n = i + f',
      inputs: [
        input('i', 'frames since the first', row.frame, 'frames'),
        input('f', 'number of the first', group === 'frame' ? header.firstFrame : 1, ''),
      ],
      words: [],
      source: 'The plan’s first frame.',
    })
  if (group === 'pelvis' && part in TRAVEL) {
    const travelled = travel(part as keyof typeof TRAVEL, facts.pose, first)
    const over = by === 'thigh' ? header.thigh : by === 'half-stance' ? header.halfStance?.length : undefined
    const { symbol, value: perMetre, name } = perUnit(over, by, facts)
    return how({
      formula: `d = ${travelled.formula} · ${symbol}`,
      inputs: [...travelled.inputs, input(symbol, name, perMetre, '')],
      words: ['From the pose at the first frame, in the directions that the body faces there.'],
    })
  }
  const angle = angleSteps(column.id, facts.pose, first, angles)
  if (angle) return how({ ...angle, words: ANGLE_WORDS[angles] })
  if (/^arm[LR]$/.test(group) && part === 'elbowBend') return how(elbowSteps(group, facts))
  return null
}

export interface ColumnFacts {
  readonly header: SheetHeader
  readonly first: ReachedPose
  /** What chest and head are measured to. */
  readonly angles: 'world' | 'parent'
}

const find = (hows: readonly How[], id: string): How | null => hows.find((how) => how.id === id) ?? null

/** Columns of a limb, and the explanations they share with the page. */
const CARRIED: Readonly<Record<string, string>> = { share: 'share', load: 'mass', least: 'least' }

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

interface Steps {
  readonly formula: string
  readonly inputs: readonly HowInput[]
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
