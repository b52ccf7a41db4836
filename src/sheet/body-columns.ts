import { SIDES, type Side } from '../body/model'
import { degrees } from '../space/units'
import { type Column, column, joined } from './column'
import { STRAIGHT_WITHIN } from './constants'
import type { They } from './directions'
import { degreesText, type LengthUnit, number, sided } from './format'
import type { HandRow, PelvisRow, Sheet, SheetRow, ThighRow } from './types'

/** The columns that say how the body stands: pelvis, hip line, thighs, chest, head, the mover's way, hands. */
export function bodyColumns(sheet: Sheet, settings: BodyColumnSettings): Column[] {
  return [
    ...travelColumns(sheet, settings),
    ...hipColumns(settings),
    ...SIDES.flatMap((side) => thighColumns(side, settings)),
    ...leanColumns('chest', settings),
    ...leanColumns('head', settings),
    ...moverColumns(sheet, settings),
    ...SIDES.flatMap((side) => handColumns(side)),
  ]
}

export interface BodyColumnSettings {
  readonly they: They
  readonly unit: LengthUnit
  readonly angles: 'world' | 'parent'
}

/** Travel in the length unit, and free of the body's proportions. */
function travelColumns({ header }: Sheet, { they, unit }: BodyColumnSettings): Column[] {
  const words = {
    side: { positive: `to ${they} left`, plus: 'L', minus: 'R' },
    up: { positive: 'up', plus: 'up', minus: 'down' },
    fore: { positive: 'forward', plus: 'fwd', minus: 'back' },
  } as const
  const travel = (of: 'side' | 'up' | 'fore', id: string, title: string, by: LengthUnit, shown: boolean) =>
    column(`pelvis.${id}`, 'pelvis', title, {
      unit: by.name,
      positive: words[of].positive,
      decimals: by.decimals + 2,
      of: ({ pelvis }) => pelvis[of] * by.perMetre,
      text: ({ pelvis }) => sided(pelvis[of] * by.perMetre, by.decimals, words[of].plus, words[of].minus),
      shown,
    })
  const all = ['side', 'up', 'fore'] as const
  const share = (length: number, name: string): LengthUnit => ({ name, perMetre: 100 / length, decimals: 0 })
  const half = header.halfStance
  return [
    ...all.map((of) => travel(of, of, of, unit, true)),
    ...(half === null
      ? []
      : all.map((of) => travel(of, `${of}.half-stance`, of, share(half.length, '% of half-stance'), false))),
    ...all.map((of) => travel(of, `${of}.thigh`, of, share(header.thigh, '% of thigh'), false)),
  ]
}

function hipColumns({ they }: BodyColumnSettings): Column[] {
  return [
    column('pelvis.list', 'hips', 'low side', {
      ...ANGLE,
      positive: `${they} right hip low`,
      of: ({ pelvis }) => degrees(pelvis.list),
      text: ({ pelvis }) => hipText(pelvis),
    }),
    column(
      'pelvis.turn',
      'hips',
      'turn',
      turn((row) => row.pelvis.turn, they),
    ),
  ]
}

const ANGLE = { unit: '°', decimals: 1 } as const

/** 'level', 'L 6°': the low side first, as a reviewer says it. */
function hipText({ list }: PelvisRow): string {
  const size = degreesText(Math.abs(list))
  return size === '0°' ? 'level' : joined([list > 0 ? 'R' : 'L', size])
}

const turn = (of: (row: SheetRow) => number, they: They) => ({
  ...ANGLE,
  positive: `to ${they} left`,
  of: (row: SheetRow) => degrees(of(row)),
  text: (row: SheetRow) => sided(degrees(of(row)), 0, 'L', 'R', '°'),
})

function thighColumns(side: Side, { they }: BodyColumnSettings): Column[] {
  const group = `thigh ${side}`
  const part = (of: keyof ThighRow) => (row: SheetRow) => degrees(row.thighs[side][of])
  return [
    column(`thigh${side}.angle`, group, 'from plumb', {
      ...ANGLE,
      of: part('angle'),
      text: (row) => degreesText(row.thighs[side].angle),
    }),
    column(`thigh${side}.side`, group, 'in front view', {
      ...ANGLE,
      positive: `hip to ${they} left of the knee`,
      of: part('side'),
      text: (row) => sided(part('side')(row), 0, 'L', 'R', '°'),
      shown: false,
    }),
    column(`thigh${side}.fore`, group, 'in side view', {
      ...ANGLE,
      positive: 'hip ahead of the knee',
      of: part('fore'),
      text: (row) => sided(part('fore')(row), 0, 'fwd', 'back', '°'),
      shown: false,
    }),
  ]
}

function leanColumns(segment: 'chest' | 'head', { they, angles }: BodyColumnSettings): Column[] {
  const titles = segment === 'chest' ? ['side lean', 'fwd lean', 'turn'] : ['tilt', 'nod', 'turn']
  const of = (part: 'side' | 'fore' | 'turn') => (row: SheetRow) => degrees(row[segment][angles][part])
  const [down, up] = segment === 'chest' ? ['fwd', 'back'] : ['down', 'up']
  return [
    column(`${segment}.side`, segment, titles[0] as string, {
      ...ANGLE,
      positive: `to ${they} right`,
      of: of('side'),
      text: (row) => sided(of('side')(row), 0, 'R', 'L', '°'),
    }),
    column(`${segment}.fore`, segment, titles[1] as string, {
      ...ANGLE,
      positive: segment === 'chest' ? 'forward' : 'down',
      of: of('fore'),
      text: (row) => sided(of('fore')(row), 0, down as string, up as string, '°'),
    }),
    column(
      `${segment}.turn`,
      segment,
      titles[2] as string,
      turn((row) => row[segment][angles].turn, they),
    ),
  ]
}

function moverColumns({ limbs, mover }: Sheet, { unit }: BodyColumnSettings): Column[] {
  const group = limbs.find(({ id }) => id === mover.limb)?.title ?? 'mover'
  const cleared = ({ clearance }: SheetRow) => clearance * unit.perMetre
  return [
    column('mover.clearance', group, 'clear', {
      unit: unit.name,
      decimals: unit.decimals + 2,
      of: cleared,
      text: (row) => {
        const size = number(cleared(row), unit.decimals)
        return cleared(row) > 0 && Number(size) !== 0 ? `+${size}` : size
      },
    }),
    column('mover.path', group, 'path', {
      unit: '%',
      decimals: 1,
      of: ({ path }) => (path === null ? null : 100 * path),
      text: ({ path }) => (path === null ? '' : number(100 * path, 0)),
    }),
  ]
}

function handColumns(side: Side): Column[] {
  const group = `arm ${side}`
  const hand = (row: SheetRow): HandRow => row.hands[side]
  return [
    column(`arm${side}.elbow`, group, 'elbow', {
      of: (row) => hand(row).elbow ?? STRAIGHT,
      text: (row) => elbowText(hand(row)),
    }),
    column(`arm${side}.elbowBend`, group, 'elbow bend', {
      ...ANGLE,
      of: (row) => degrees(hand(row).elbowBend),
      text: (row) => degreesText(hand(row).elbowBend),
      shown: false,
    }),
    column(`arm${side}.wrist`, group, 'wrist', {
      ...ANGLE,
      positive: 'flexed',
      of: (row) => degrees(hand(row).wrist),
      text: (row) => wristText(hand(row)),
    }),
    column(`arm${side}.fingers`, group, 'fingers', { of: (row) => hand(row).fingers }),
  ]
}

const STRAIGHT = 'straight'

/** 'straight', 'back 35°': which way it points and how far it is bent. */
const elbowText = ({ elbow, elbowBend }: HandRow): string =>
  elbow === null ? STRAIGHT : `${elbow} ${degreesText(elbowBend)}`

/** 'straight', 'flexed 12°' toward the palm, 'extended 20°' away from it. */
function wristText({ wrist }: HandRow): string {
  if (Math.abs(wrist) < STRAIGHT_WITHIN) return STRAIGHT
  return `${wrist > 0 ? 'flexed' : 'extended'} ${degreesText(Math.abs(wrist))}`
}
