import { TEXT } from './constants'
import { type DisplayList, type Item, line, OP, type Path, path, polygon, type TextItem } from './list'

/**
 * What each limb carries over a take as curves, one band a limb: filled as it is in motion, a thin line as it
 * would be if the body held still, both as shares of the weight; under them the push from nowhere. Gaps where
 * a frame is not weighed.
 */
export function drawCurves(input: CurvesInput): DisplayList {
  const { width, bands, length, title } = input
  const top = 2
  const height = top + bands.length * BAND.pitch + FOOT
  const x = (frame: number) => LEFT + ((width - LEFT - RIGHT) * frame) / Math.max(1, length - 1)
  const items: Item[] = [...ruling(input, x, top, height - FOOT)]
  for (const [i, band] of bands.entries()) {
    const base = top + (i + 1) * BAND.pitch - BAND.gap
    items.push(...drawBand(band, x, base, Math.max(1, ...bands.map(({ most }) => most))))
  }
  const at = x(input.frame)
  items.push(line(at, top, at, height - FOOT, { stroke: 'ink', width: 1.6 }))
  return { width, height, title, desc: 'The same numbers stand in the sheet.', items }
}

export interface CurvesInput {
  readonly width: number
  readonly length: number
  /** The frame the stage shows. */
  readonly frame: number
  readonly firstFrame: number
  readonly keys: readonly number[]
  readonly bands: readonly CurveBand[]
  readonly title: string
}

export interface CurveBand {
  /** 'leg L' */
  readonly name: string
  /** Shares of the weight by frame, null where unknown. */
  readonly motion: readonly (number | null)[]
  readonly still: readonly (number | null)[]
  /** The largest of them. */
  readonly most: number
  /** The push from nowhere is drawn in ink: it is no weight. */
  readonly ink: 'weight' | 'ink'
}

/** The frame under a place across the drawing. */
export function curveFrame({ width, length }: Pick<CurvesInput, 'width' | 'length'>, x: number): number {
  const share = (x - LEFT) / (width - LEFT - RIGHT)
  return Math.round(Math.max(0, Math.min(1, share)) * (length - 1))
}

/** Room for names at the left, at the right edge, and for frame numbers below, px. */
const LEFT = 48
const RIGHT = 14
const FOOT = 18
/** A band's distance from the next, the part of it that stays empty, px. */
const BAND = { pitch: 40, gap: 4 } as const

function drawBand(
  { name, motion, still, ink }: CurveBand,
  x: (f: number) => number,
  base: number,
  most: number,
): Item[] {
  const y = (share: number) => base - ((BAND.pitch - 2 * BAND.gap) * Math.max(0, share)) / most
  const label: TextItem = {
    kind: 'text',
    x: 0,
    y: base - 2,
    text: name,
    size: TEXT.small,
    bold: false,
    anchor: 'start',
    ink: 'ink',
  }
  return [
    ...runsOf(motion).map((run) => {
      const first = run[0] as (typeof run)[number]
      const last = run[run.length - 1] as (typeof run)[number]
      const points = run.flatMap(([f, share]) => [x(f), y(share)])
      return path(polygon([x(first[0]), base, ...points, x(last[0]), base]), { fill: ink, alpha: 0.75 })
    }),
    path(
      runsOf(still).flatMap((run) => curve(run, x, y)),
      { stroke: 'ink', width: 1.2, dash: [3, 2] },
    ),
    line(LEFT, base, x(motion.length - 1), base, { stroke: 'inkSoft', width: 0.8 }),
    label,
  ]
}

function curve(
  run: readonly (readonly [number, number])[],
  x: (f: number) => number,
  y: (share: number) => number,
): Path {
  return run.flatMap(([f, share], i) => [i === 0 ? OP.move : OP.line, x(f), y(share)])
}

/** Neighbouring frames that are known, as [frame, value]. */
function runsOf(values: readonly (number | null)[]): (readonly [number, number])[][] {
  const runs: (readonly [number, number])[][] = []
  let open: (readonly [number, number])[] | null = null
  for (const [f, value] of values.entries()) {
    if (value === null) open = null
    else {
      if (open === null) {
        open = []
        runs.push(open)
      }
      open.push([f, value])
    }
  }
  return runs
}

/** Keys as lines with their frame's number where there is room for it. */
function ruling(
  { keys, firstFrame }: CurvesInput,
  x: (f: number) => number,
  top: number,
  foot: number,
): Item[] {
  let free = Number.NEGATIVE_INFINITY
  return keys.flatMap((key): Item[] => {
    const at = x(key)
    const rule = line(at, top, at, foot, { stroke: 'hairline', width: 1 })
    if (at < free) return [rule]
    free = at + NUMBER
    return [
      rule,
      {
        kind: 'text',
        x: at,
        y: foot + TEXT.small + 2,
        text: String(firstFrame + key),
        size: TEXT.small,
        bold: false,
        anchor: 'middle',
        ink: 'inkSoft',
      },
    ]
  })
}

/** Room that a frame's number takes, px. */
const NUMBER = 40
