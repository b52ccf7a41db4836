/**
 * The display list: what a drawing is made of, before any canvas or file. Units are pixels, x to the
 * right, y down, angles in radians turning from +x towards +y (clockwise as seen). Colours are names that
 * a palette resolves, so that one list serves paper, slate, print and forced colours.
 */
export interface DisplayList {
  readonly width: number
  readonly height: number
  /** What the drawing shows, for people who cannot see it. */
  readonly title: string
  readonly desc: string
  readonly items: readonly Item[]
}

/**
 * Names of colours. `weight` is the one warm colour and means weight and nothing else; `toneL` and
 * `toneR` are the body's left and right side; `block` is what it stands on; `hairline` is for frames and
 * projection lines; `ghost` is for what is not there.
 */
export type Ink =
  | 'paper'
  | 'ink'
  | 'inkSoft'
  | 'hairline'
  | 'toneL'
  | 'toneR'
  | 'block'
  | 'shade'
  | 'ghost'
  | 'weight'

export type Item = PathItem | CircleItem | LineItem | TextItem | Group

export interface PathItem extends Paint {
  readonly kind: 'path'
  readonly path: Path
}

export interface CircleItem extends Paint {
  readonly kind: 'circle'
  readonly x: number
  readonly y: number
  readonly r: number
}

export interface LineItem extends Stroke {
  readonly kind: 'line'
  readonly x1: number
  readonly y1: number
  readonly x2: number
  readonly y2: number
}

export interface TextItem {
  readonly kind: 'text'
  readonly x: number
  /** The base line. */
  readonly y: number
  readonly text: string
  readonly size: number
  readonly bold: boolean
  readonly anchor: Anchor
  readonly ink: Ink
  /** Drawn under the letters, so that they stay readable on lines. */
  readonly halo?: Ink
  /** Extra space between letters, px. */
  readonly spacing?: number
}

export type Anchor = 'start' | 'middle' | 'end'

export interface Group {
  readonly kind: 'group'
  readonly name: string
  /** Said to people who cannot see the drawing. */
  readonly title?: string
  /** Nothing of the group is drawn outside. */
  readonly clip?: Rect
  readonly items: readonly Item[]
}

export interface Rect {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export interface Stroke {
  readonly stroke?: Ink
  readonly width?: number
  /** Lengths of dashes and gaps, px; ends are round when `round` is set, so that a dash of 0 is a dot. */
  readonly dash?: readonly number[]
  readonly round?: boolean
}

export interface Paint extends Stroke {
  readonly fill?: Ink
  /** 0 … 1 of the fill and the stroke; 1 where it is left out. */
  readonly alpha?: number
}

/**
 * A path as flat numbers: an operation (`OP`), then its arguments. Arcs join the point before with a
 * straight line, as a canvas does. Filled by the non-zero rule.
 */
export type Path = readonly number[]

export const OP = {
  /** x, y */
  move: 0,
  /** x, y */
  line: 1,
  /** control x, y, end x, y */
  quad: 2,
  /** control x, y, control x, y, end x, y */
  cubic: 3,
  /** centre x, y, radius, from angle, to angle; turns the way from `from` to `to` */
  arc: 4,
  close: 5,
} as const

/** How many arguments each operation takes, by its number. */
export const ARGUMENTS: readonly number[] = [2, 2, 4, 6, 5, 0]

export const path = (data: Path, paint: Paint): PathItem => ({ kind: 'path', path: data, ...paint })

export const circle = (x: number, y: number, r: number, paint: Paint): CircleItem => ({
  kind: 'circle',
  x,
  y,
  r,
  ...paint,
})

export const line = (x1: number, y1: number, x2: number, y2: number, stroke: Stroke): LineItem => ({
  kind: 'line',
  x1,
  y1,
  x2,
  y2,
  ...stroke,
})

export const group = (
  name: string,
  items: readonly Item[],
  more: { title?: string; clip?: Rect } = {},
): Group => ({
  kind: 'group',
  name,
  ...more,
  items,
})

/** A closed polygon through points given as x, y, x, y … */
export function polygon(points: readonly number[]): Path {
  const out = polyline(points) as number[]
  if (out.length > 0) out.push(OP.close)
  return out
}

/** Straight lines through points given as x, y, x, y … */
function polyline(points: readonly number[]): Path {
  const out: number[] = []
  for (let i = 0; i + 1 < points.length; i += 2)
    out.push(i === 0 ? OP.move : OP.line, points[i] as number, points[i + 1] as number)
  return out
}

/** A smooth closed curve through points given as x, y, x, y … (Catmull–Rom as Bézier curves). */
export function smoothLoop(points: readonly number[]): Path {
  const n = points.length
  const at = (k: number) => points[(k + 2 * n) % n] as number
  const out: number[] = [OP.move, at(0), at(1)]
  for (let i = 0; i < n; i += 2) {
    const control = (k: number, j: number) => at(k) + (at(k + j) - at(k - j)) / 6
    out.push(OP.cubic, control(i, 2), control(i + 1, 2))
    out.push(control(i + 2, -2), control(i + 3, -2), at(i + 2), at(i + 3))
  }
  out.push(OP.close)
  return out
}

export const rectangle = ({ x, y, width, height }: Rect): Path =>
  polygon([x, y, x + width, y, x + width, y + height, x, y + height])
