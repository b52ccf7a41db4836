import { PEN, PEN_GROWTH, PEN_HEIGHT, PEN_TAPER, PEN_UNDER } from './constants'
import { depthInside } from './hull'
import { type Ink, type Item, path } from './list'
import { outlinePath, penLine } from './pen'
import type { View } from './project'
import type { Silhouette } from './silhouette'
import { toneSplit } from './tone'
import type { BodyPart } from './volume'

export interface FigureStyle {
  /** This limb is drawn with heavier lines. */
  readonly mover?: BodyPart
  /** Everything filled with ink: the silhouette an audience reads. */
  readonly solid?: boolean
}

/**
 * The body in a view: volumes from far to near in the tones of their sides, outlined by pen lines that are
 * heavier the nearer they lie, open where one volume grows out of another.
 * @param shapes far to near, as `silhouettesOf` gives them
 * @returns items to be drawn in order
 */
export function drawFigure(shapes: readonly Silhouette[], view: View, style: FigureStyle = {}): Item[] {
  if (style.solid) return shapes.map((shape) => path(outlinePath(shape.outline), { fill: 'ink' }))
  const items: Item[] = []
  const byName = new Map(shapes.map((shape) => [shape.volume.name, shape]))
  const pen = penOf(shapes)
  for (const shape of shapes) {
    items.push(...fills(shape, view))
    const width = pen.width(shape) * (style.mover === shape.volume.part ? PEN.heavier : 1)
    const joins = shape.volume.joins.flatMap((name) => byName.get(name) ?? [])
    const { contour, seam } = lines(shape, joins, width, pen.scale)
    items.push(path(penLine(shape.outline, contour, PEN_TAPER * pen.scale), { fill: 'ink' }))
    if (shape.volume.seam === 'soft')
      items.push(path(penLine(shape.outline, seam, PEN_TAPER * pen.scale), { fill: 'inkSoft' }))
  }
  return items
}

/** Line widths by depth, and how much all of them grow with the figure's height on the drawing. */
function penOf(shapes: readonly Silhouette[]) {
  let [near, far, top, bottom] = [-Infinity, Infinity, Infinity, -Infinity]
  for (const { depth, outline } of shapes) {
    near = Math.max(near, depth)
    far = Math.min(far, depth)
    top = Math.min(top, outline.top)
    bottom = Math.max(bottom, outline.bottom)
  }
  const { power, least, most } = PEN_GROWTH
  const size = Math.min(most, Math.max(least, ((bottom - top) / PEN_HEIGHT) ** power))
  const width = ({ depth, volume }: Silhouette) => {
    const t = near > far ? (depth - far) / (near - far) : 1
    return (PEN.far + (PEN.near - PEN.far) * t) * volume.pen * size
  }
  return { scale: size, width }
}

function fills(shape: Silhouette, view: View): Item[] {
  const whole = outlinePath(shape.outline)
  const { side } = shape.volume
  if (side !== 'M') return [path(whole, { fill: toneOf(side) })]
  const right = toneSplit(shape, view)
  if (right === 'L' || right === 'R') return [path(whole, { fill: toneOf(right) })]
  return [path(whole, { fill: 'toneL' }), path(right, { fill: 'toneR' })]
}

const toneOf = (side: 'L' | 'R'): Ink => (side === 'L' ? 'toneL' : 'toneR')

/**
 * Widths of the outline and of the seam at every point. Inside a join that lies at the same depth the
 * outline gives way to the seam; over a join that lies well behind it stays.
 */
function lines(shape: Silhouette, joins: readonly Silhouette[], width: number, scale: number) {
  const { outline } = shape
  const contour: number[] = []
  const seam: number[] = []
  for (let i = 0; i < outline.x.length; i++) {
    let open = 1
    for (const join of joins) open = Math.min(open, openness(shape, i, join))
    const under = 1 + PEN_UNDER * Math.max(0, outline.ny[i] as number)
    contour.push(open > 0.05 ? width * under * open : 0)
    seam.push(open < 0.95 ? PEN.seam * scale * (1 - open) : 0)
  }
  return { contour, seam }
}

/** 1 where the outline's point i is drawn in full as far as `join` goes, 0 where it is left out. */
function openness(shape: Silhouette, i: number, join: Silhouette): number {
  const x = shape.outline.x[i] as number
  const y = shape.outline.y[i] as number
  const inside = depthInside(join.outline, x, y)
  if (inside <= 0.4) return 1
  const owner = shape.outline.owner[i] as number
  const { depth, radius } = behind(join, x, y)
  const gap = ((shape.depths[owner] as number) - depth) / Math.min(radius, shape.circles[3 * owner + 2] as number)
  return Math.max(1 - (inside - 0.4), smooth((gap - 0.5) / 0.7), 0)
}

/** The depth and radius of the silhouette's circle that covers a point best. */
function behind(join: Silhouette, x: number, y: number) {
  let best = 0
  let least = Number.POSITIVE_INFINITY
  for (let k = 0; k < join.depths.length; k++) {
    const d =
      Math.hypot(x - (join.circles[3 * k] as number), y - (join.circles[3 * k + 1] as number)) -
      (join.circles[3 * k + 2] as number)
    if (d < least) {
      least = d
      best = k
    }
  }
  return { depth: join.depths[best] as number, radius: join.circles[3 * best + 2] as number }
}

const smooth = (t: number) => {
  const c = Math.max(0, Math.min(1, t))
  return c * c * (3 - 2 * c)
}
