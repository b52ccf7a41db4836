import { OP, type Path } from './list'

/**
 * Parallel strokes across a polygon, as a path of straight lines to be stroked: drawn like this, canvas,
 * SVG and print show the same lines. Strokes of one angle and spacing line up over the whole drawing.
 * @param points corners, x, y flat, px; any simple polygon
 * @param angle direction of the strokes, rad
 * @param spacing between strokes, px; > 0
 */
export function hatch(points: readonly number[], angle: number, spacing: number): Path {
  const dx = Math.cos(angle)
  const dy = Math.sin(angle)
  const n = points.length / 2
  // Every corner in the strokes' own frame: u along them, v across.
  const us: number[] = []
  const vs: number[] = []
  for (let i = 0; i < n; i++) {
    const [x, y] = [points[2 * i] as number, points[2 * i + 1] as number]
    us.push(x * dx + y * dy)
    vs.push(y * dx - x * dy)
  }
  const out: number[] = []
  const last = Math.max(...vs)
  for (let k = Math.ceil(Math.min(...vs) / spacing); k * spacing < last; k++) {
    const v = k * spacing
    const cuts = crossings(us, vs, v)
    for (let c = 0; c + 1 < cuts.length; c += 2) {
      const [a, b] = [cuts[c] as number, cuts[c + 1] as number]
      out.push(OP.move, a * dx - v * dy, a * dy + v * dx, OP.line, b * dx - v * dy, b * dy + v * dx)
    }
  }
  return out
}

function crossings(us: readonly number[], vs: readonly number[], v: number): number[] {
  const cuts: number[] = []
  for (let i = 0; i < us.length; i++) {
    const j = (i + 1) % us.length
    const [va, vb] = [vs[i] as number, vs[j] as number]
    // A corner on the stroke counts for one of its edges only.
    if (va < v === vb < v) continue
    cuts.push((us[i] as number) + (((us[j] as number) - (us[i] as number)) * (v - va)) / (vb - va))
  }
  return cuts.sort((a, b) => a - b)
}
