import { bodyColumns } from './body-columns'
import { type Column, column, joined } from './column'
import { PLAIN_FRACTION_WITHIN } from './constants'
import type { They } from './directions'
import { centimetres, type LengthUnit, massDecimals, number } from './format'
import { fractionText } from './marks'
import type { LimbRow, Sheet, SheetLimb, SheetRow } from './types'

/**
 * All columns of a sheet, in order; which of them are shown is the reader's choice.
 * @example columnsOf(sheet).filter((column) => column.shown)
 */
export function columnsOf(sheet: Sheet, options: ColumnOptions = {}): Column[] {
  const they = options.they ?? 'his'
  const unit = options.unit ?? centimetres(sheet.header.stature)
  return [
    ...frameColumns(sheet),
    ...sheet.limbs.flatMap((limb) => limbColumns(sheet, limb)),
    ...bodyColumns(sheet, { they, unit, angles: options.angles ?? 'world' }),
    ...balanceColumns(sheet, unit),
    column('note', 'note', '', { of: ({ note }) => note, inBetweens: true }),
  ]
}

export interface ColumnOptions {
  /** The unit of travel, clearance and room; centimetres unless said otherwise. */
  readonly unit?: LengthUnit
  /** What chest and head are measured to; thighs and hips are always to the world. */
  readonly angles?: 'world' | 'parent'
  readonly they?: They
}

function frameColumns(sheet: Sheet): Column[] {
  const every = { inBetweens: true }
  return [
    column('frame', 'frame', '', { of: (row) => row.label, ...every }),
    column('count', 'count', '', { of: (row) => row.frame + 1, ...every }),
    column('seconds', 'time', '', {
      unit: 's',
      decimals: 4,
      of: (row) => row.seconds,
      text: (row) => number(row.seconds, 2),
      shown: false,
      ...every,
    }),
    column('timecode', 'time code', '', {
      of: (row) => row.timeCode,
      shown: false,
      ...every,
    }),
    column('mark', 'mark', '', { of: ({ mark }) => MARK[mark.kind], text: markText, ...every }),
    column('chart', 'chart', 'to the next key', {
      unit: '%',
      decimals: 1,
      of: ({ mark }) => (mark.progress === null ? null : 100 * mark.progress),
      text: ({ mark }) => (mark.progress === null ? '' : number(100 * mark.progress, 0)),
      shown: false,
      ...every,
    }),
    column('phase', 'phase', '', {
      of: ({ phases }) => phases.map(({ name }) => name).join(' + '),
      text: ({ phases, mark }) =>
        phases
          .filter(({ begins }) => begins || mark.kind === 'key' || mark.kind === 'breakdown')
          .map(({ name }) => name)
          .join(' + '),
      shown: sheet.rows.some(({ phases }) => phases.length > 0),
      ...every,
    }),
  ]
}

const MARK = { key: 'K', breakdown: 'B', hold: 'H', between: '' } as const

/** 'K', 'B ⅓', 'H', and a tick for an in-between. */
function markText({ mark }: SheetRow): string {
  if (mark.kind === 'between') return TICK
  if (mark.kind !== 'breakdown' || mark.progress === null) return MARK[mark.kind]
  return joined([MARK.breakdown, fractionText(mark.progress, PLAIN_FRACTION_WITHIN)])
}

const TICK = '–'

function limbColumns({ header }: Sheet, { id, title }: SheetLimb): Column[] {
  const limb = (row: SheetRow): LimbRow => row.limbs[id]
  const every = { inBetweens: true }
  const decimals = massDecimals(header.mass)
  const bears = (row: SheetRow) => (limb(row).state === 'off' ? null : limb(row).weight)
  const share = (of: 'share' | 'least') => ({
    unit: '%',
    decimals: 2,
    of: (row: SheetRow) => percent(limb(row).weight?.[of]),
    text: (row: SheetRow) => rounded(percent(bears(row)?.[of]), 0),
    ...every,
  })
  return [
    column(`${id}.state`, title, 'state', {
      of: (row) => limb(row).state,
      text: (row) => SHORT[limb(row).state],
      ...every,
    }),
    column(`${id}.share`, title, 'weight', share('share')),
    column(`${id}.load`, title, 'load', {
      unit: 'kg',
      decimals: decimals + 2,
      of: (row) => limb(row).weight?.mass ?? null,
      text: (row) => rounded(bears(row)?.mass, decimals),
      ...every,
    }),
    column(`${id}.least`, title, 'least', { ...share('least'), shown: false }),
  ]
}

/** States short enough for a narrow column. */
const SHORT: Readonly<Record<LimbRow['state'], string>> = {
  down: 'down',
  'touching empty': 'empty',
  rolling: 'rolls',
  sliding: 'slides',
  off: 'off',
}

function balanceColumns({ header, rows }: Sheet, unit: LengthUnit): Column[] {
  const pushes = rows.some(({ balance }) => (balance?.push ?? 0) > 0)
  const decimals = massDecimals(header.mass)
  return [
    column('room', 'room', '', {
      unit: unit.name,
      decimals: unit.decimals + 2,
      of: ({ balance }) => scaled(balance?.room, unit.perMetre),
      text: ({ balance }) =>
        balance === null
          ? ''
          : balance.room === null
            ? 'none'
            : number(balance.room * unit.perMetre, unit.decimals),
    }),
    column('push', 'push', 'from nowhere', {
      unit: 'kg',
      decimals: decimals + 2,
      of: ({ balance }) => balance?.push ?? null,
      text: ({ balance }) => ((balance?.push ?? 0) > 0 ? rounded(balance?.push, decimals) : ''),
      inBetweens: true,
      shown: pushes,
    }),
    column('verdict', 'mover', 'can it lift', {
      of: ({ balance }) => balance?.verdict ?? null,
      shown: false,
    }),
  ]
}

const scaled = (value: number | null | undefined, by: number): number | null =>
  value === null || value === undefined ? null : value * by
const percent = (share: number | undefined): number | null => scaled(share, 100)
const rounded = (value: number | null | undefined, decimals: number): string =>
  value === null || value === undefined ? '' : number(value, decimals)
