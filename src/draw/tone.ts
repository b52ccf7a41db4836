import { addScaled, cross, dot, norm, scale, unit, type Vec3 } from '../space/vec'
import { OP, type Path } from './list'
import { type Projected, project, type View } from './project'
import type { Silhouette } from './silhouette'
import { axisX } from './volume'

/** Points of the dividing line from one end to the other. */
const PIECES = 14

/**
 * The part of a middle volume that lies on the body's right, as the view shows it: bounded by the
 * silhouette and by the body's midline, so that the tone turns with the body.
 * @returns a path to be filled, or the side that is all there is to see
 */
export function toneSplit(shape: Silhouette, view: View): Path | 'L' | 'R' {
  const { frame } = shape.volume
  const { right, up, toward } = view.axes
  if (!frame) return 'L'
  const left = axisX(frame)
  const edge = cross(left, toward)
  if (norm(edge) < 0.02) return dot(left, toward) > 0 ? 'L' : 'R'
  // Normals of the dividing line: square to the midplane's normal, from one silhouette edge over the front.
  const first = unit(edge)
  const over = unit(addScaled(toward, left, -dot(toward, left)))
  const lx = dot(right, left)
  const ly = -dot(up, left)

  const { outline } = shape
  const n = outline.x.length
  const ends = [first, scale(first, -1)].map((normal) => project(view, onMidplane(shape, normal, left)))
  const onRight = (k: number) => {
    const i = k % n
    const [nx, ny] = [outline.nx[i] as number, outline.ny[i] as number]
    const side = nx * lx + ny * ly
    if (Math.abs(side) > 1e-6) return side < 0
    // On an edge that crosses the midplane squarely the normal does not tell: the place does.
    const [ex, ey] = (nx * dot(right, first) - ny * dot(up, first) > 0 ? ends[0] : ends[1]) as Projected
    return ((outline.x[i] as number) - ex) * lx + ((outline.y[i] as number) - ey) * ly < 0
  }
  let start = 0
  while (start < n && !(onRight(start) && !onRight(start + n - 1))) start++
  if (start === n) return 'L'
  const out: number[] = []
  let i = start
  for (; onRight(i) && i < start + n; i++)
    out.push(out.length === 0 ? OP.move : OP.line, outline.x[i % n] as number, outline.y[i % n] as number)
  // The walk ended at the normal ±first; the dividing line goes on from there.
  const ex =
    dot(right, first) * (outline.nx[i % n] as number) - dot(up, first) * (outline.ny[i % n] as number)
  const from = ex > 0 ? 1 : -1
  for (let k = 0; k <= PIECES; k++) {
    const a = (Math.PI * k) / PIECES
    const normal = addScaled(scale(first, from * Math.cos(a)), over, Math.sin(a))
    const [x, y] = project(view, onMidplane(shape, normal, left))
    out.push(OP.line, x, y)
  }
  out.push(OP.close)
  return out
}

/** The outermost point of the volume's section by its midplane in the direction of a normal in that plane. */
function onMidplane(shape: Silhouette, normal: Vec3, left: Vec3): Vec3 {
  const s = shape.volume.spheres
  let best = 0
  let most = Number.NEGATIVE_INFINITY
  let middle = 0
  for (let i = 0; i < s.length; i += 4) {
    const c: Vec3 = [s[i] as number, s[i + 1] as number, s[i + 2] as number]
    const reach = dot(c, normal) + (s[i + 3] as number)
    middle += dot(c, left)
    if (reach > most) {
      most = reach
      best = i
    }
  }
  middle /= s.length / 4
  const c: Vec3 = [s[best] as number, s[best + 1] as number, s[best + 2] as number]
  return addScaled(addScaled(c, left, middle - dot(c, left)), normal, s[best + 3] as number)
}
