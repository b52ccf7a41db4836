import { hull, type Point2 } from '../contact/hull'
import { cross, dot, scale, sub, UP, unit, type Vec3 } from '../space/vec'
import { tidy } from '../weigh/polygon'
import type { Contact } from '../weigh/types'
import { BEARS_UP, LEVEL_PADS, STRAIGHT } from './constants'

/**
 * The axis that a frozen body on these pads would tip about first: the edge of their hull, seen from above,
 * that is nearest to the centre of mass; past a corner, the level line through it square to the offset.
 * Over pads at different heights (more than 1 % of the stature) it is the line through the edge's two
 * vertices where they really are. World frame, m. Null where no pad faces up.
 * @param pads those that remain
 */
export function tippingAxis(pads: readonly Contact[], com: Vec3, stature: number): TippingAxis | null {
  const vertices = pads.filter(facesUp).flatMap((pad) => pad.vertices)
  const edge = nearestEdge(tidy(hull(vertices.map(fromAbove)), STRAIGHT * stature), fromAbove(com))
  if (edge === null) return null
  const heights = vertices.map(([, y]) => y)
  const level = Math.max(...heights) - Math.min(...heights) <= LEVEL_PADS * stature
  const ends = edge.ends.map((end) => vertexAt(vertices, end))
  const [a, b] = ends as [Vec3, Vec3 | undefined]
  const outward: Vec3 = [edge.outward[0], 0, edge.outward[1]]
  const across = cross(UP, outward)
  const along = b === undefined || level ? across : unit(sub(b, a))
  return {
    point: b === undefined || !level ? a : [a[0], (a[1] + b[1]) / 2, a[2]],
    direction: dot(along, across) < 0 ? scale(along, -1) : along,
    outward,
    room: edge.room,
    level,
    overCorner: b === undefined,
    ends,
  }
}

export interface TippingAxis {
  /** A point of the axis. */
  readonly point: Vec3
  /** Unit vector; a right-handed turn about it tips the body outward. */
  readonly direction: Vec3
  /** Level unit vector, square to the axis seen from above: the way the body tips. */
  readonly outward: Vec3
  /** Distance of the centre of mass from the edge, seen from above, m; negative past it. */
  readonly room: number
  /** Whether the pads count as level. */
  readonly level: boolean
  /** Whether the body would go over a corner, not an edge. */
  readonly overCorner: boolean
  /** The two vertices of the edge, or the one of the corner. */
  readonly ends: readonly Vec3[]
}

const facesUp = ({ normal }: Contact): boolean => unit(normal)[1] >= BEARS_UP

const fromAbove = ([x, , z]: Vec3): Point2 => [x, z]

interface Edge {
  readonly ends: readonly Point2[]
  readonly outward: Point2
  readonly room: number
}

/** The edge, or the corner, of a convex polygon (area positive) nearest to `p`; null where it is empty. */
function nearestEdge(polygon: readonly Point2[], p: Point2): Edge | null {
  const edges =
    polygon.length > 1 ? polygon.map((a, i) => edgeOf(a, polygon[(i + 1) % polygon.length] as Point2, p)) : []
  if (polygon.length > 2 && edges.every(({ room }) => room >= 0))
    return edges.reduce((a, b) => (b.room < a.room ? b : a))
  const beside = edges.filter(({ room, along }) => room <= 0 && along > 0 && along < 1)
  return [...beside, ...polygon.map((at) => cornerOf(at, p))].reduce<Edge | null>(
    (best, edge) => (best === null || edge.room > best.room ? edge : best),
    null,
  )
}

/** The edge a → b, its distance from p, positive on the inner side, and where p lies along it, 0 at a and 1 at b. */
function edgeOf(a: Point2, b: Point2, p: Point2): Edge & { readonly along: number } {
  const x = b[0] - a[0]
  const z = b[1] - a[1]
  const long = Math.sqrt(x * x + z * z)
  return {
    ends: [a, b],
    outward: [z / long, -x / long],
    room: (x * (p[1] - a[1]) - z * (p[0] - a[0])) / long,
    along: ((p[0] - a[0]) * x + (p[1] - a[1]) * z) / (long * long),
  }
}

function cornerOf(at: Point2, p: Point2): Edge {
  const far = Math.hypot(p[0] - at[0], p[1] - at[1])
  return { ends: [at], outward: far > 0 ? [(p[0] - at[0]) / far, (p[1] - at[1]) / far] : [0, 1], room: -far }
}

/** The vertex that a corner of the hull is; the highest where several stand above each other. */
function vertexAt(vertices: readonly Vec3[], [x, z]: Point2): Vec3 {
  const there = vertices.filter((vertex) => vertex[0] === x && vertex[2] === z)
  return there.reduce((a, b) => (b[1] > a[1] ? b : a))
}
