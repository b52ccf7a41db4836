import { dot } from '../space/vec'
import { PEN, PEN_GROWTH, PEN_HEIGHT, PEN_TAPER, PEN_UNDER, RUN_ON, SECTION } from './constants'
import { hatch } from './hatch'
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
  /** Other things among the volumes, drawn after all that lie farther than their depth, px. */
  readonly among?: readonly { readonly depth: number; readonly items: readonly Item[] }[]
}

/**
 * The body in a view: volumes from far to near in the tones of their sides, outlined by pen lines that are
 * heavier the nearer they lie, open where one volume grows out of another.
 * @param shapes far to near, as `silhouettesOf` gives them
 * @returns items to be drawn in order
 */
export function drawFigure(shapes: readonly Silhouette[], view: View, style: FigureStyle = {}): Item[] {
  const items: Item[] = []
  const among = [...(style.among ?? [])].sort((a, b) => a.depth - b.depth)
  const upTo = (depth: number) => {
    while (among[0] && among[0].depth < depth) items.push(...(among.shift()?.items ?? []))
  }
  const byName = new Map(shapes.map((shape) => [shape.volume.name, shape]))
  const pen = penOf(shapes)
  for (const shape of shapes) {
    upTo(shape.depth)
    if (style.solid) {
      items.push(path(outlinePath(shape.outline), { fill: 'ink' }))
      continue
    }
    items.push(...fills(shape, view))
    const mover = style.mover === shape.volume.part
    if (mover) items.push(sectioned(shape, pen.scale))
    const width = pen.width(shape) * (mover ? PEN.heavier : 1)
    const joins = shape.volume.joins.flatMap((name) => byName.get(name) ?? [])
    const { contour, seam } = lines(shape, joins, width, pen.scale, view)
    items.push(path(penLine(shape.outline, contour, PEN_TAPER * pen.scale), { fill: 'ink' }))
    if (shape.volume.seam === 'soft')
      items.push(path(penLine(shape.outline, seam, PEN_TAPER * pen.scale), { fill: 'inkSoft' }))
  }
  upTo(Number.POSITIVE_INFINITY)
  return items
}

/** Line widths by depth, and how much all of them grow with the figure's height on the drawing. */
function penOf(shapes: readonly Silhouette[]) {
  let [near, far] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
  let [top, bottom] = [far, near]
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
  return [path(whole, { fill: 'toneL' }), path(right, { fill: 'toneR', stroke: 'toneR', width: 1 })]
}

/** Hatched as a workshop drawing picks out a part. */
function sectioned({ outline }: Silhouette, scale: number): Item {
  const points = outline.x.flatMap((x, i) => [x, outline.y[i] as number])
  return path(hatch(points, -Math.PI / 4, SECTION.spacing), {
    stroke: 'inkSoft',
    width: SECTION.width * scale,
  })
}

const toneOf = (side: 'L' | 'R'): Ink => (side === 'L' ? 'toneL' : 'toneR')

/**
 * Widths of the outline and of the seam at every point. Inside a join that lies at the same depth the
 * outline runs on a little way and gives way to the seam; over a join that lies well behind it stays.
 */
function lines(shape: Silhouette, joins: readonly Silhouette[], width: number, scale: number, view: View) {
  const { outline, volume } = shape
  const { pull } = volume
  const px = pull ? dot(view.axes.right, pull) : 0
  const py = pull ? -dot(view.axes.up, pull) : 0
  const contour: number[] = []
  const seam: number[] = []
  for (let i = 0; i < outline.x.length; i++) {
    const [nx, ny] = [outline.nx[i] as number, outline.ny[i] as number]
    let open = 1
    for (const join of joins) {
      const inside = depthInside(join.outline, outline.x[i] as number, outline.y[i] as number)
      if (inside <= 0) continue
      const over = pull ? smooth(2 * (nx * px + ny * py)) : stands(shape, i, join)
      open = Math.min(open, Math.max(over, 1 - inside / (RUN_ON * scale), 0))
    }
    const under = 1 + PEN_UNDER * Math.max(0, ny)
    contour.push(open > 0.05 ? width * under * open : 0)
    seam.push(open < 0.95 ? PEN.seam * scale * (1 - open) : 0)
  }
  return { contour, seam }
}

/** 1 where the outline's point i stands well before the join, 0 where it lies at the same depth or in the joint. */
function stands(shape: Silhouette, i: number, join: Silhouette): number {
  const owner = shape.outline.owner[i] as number
  if (owner < shape.volume.root) return 0
  const { depth, radius } = behind(join, shape.outline.x[i] as number, shape.outline.y[i] as number)
  const gap =
    ((shape.depths[owner] as number) - depth) / Math.min(radius, shape.circles[3 * owner + 2] as number)
  return smooth((gap - 0.7) / 0.6)
}

/** The depth and radius of the silhouette's circle that covers a point best. */
function behind({ circles, depths }: Silhouette, x: number, y: number) {
  let best = 0
  let least = Number.POSITIVE_INFINITY
  for (let k = 0; k < depths.length; k++) {
    const dx = x - (circles[3 * k] as number)
    const dy = y - (circles[3 * k + 1] as number)
    const d = Math.sqrt(dx * dx + dy * dy) - (circles[3 * k + 2] as number)
    if (d < least) {
      least = d
      best = k
    }
  }
  return { depth: depths[best] as number, radius: circles[3 * best + 2] as number }
}

const smooth = (t: number) => {
  const c = Math.max(0, Math.min(1, t))
  return c * c * (3 - 2 * c)
}
