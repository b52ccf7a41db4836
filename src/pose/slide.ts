import { contains } from '../contact/ground'
import type { ContactSpan } from '../document/contacts'
import type { Box, Ground } from '../document/plan'
import { apply, fromAngles, transpose } from '../space/rotation'
import { add, lerp, reject, sub, type Vec3 } from '../space/vec'

/**
 * The contact slid over its surface toward a place: on the ground it stops at the foot of a block, on a
 * block's top or side at its edges; it never leaves the surface. The same object where nothing moves.
 * @param to where the middle of the pad should go, world, m; its height over the surface doesn't count
 */
export function slideContact(ground: Ground, span: ContactSpan, to: Vec3): ContactSpan {
  const flat = add(span.position, reject(sub(to, span.position), span.normal))
  const box = ground.boxes.find(({ id }) => id === span.on)
  const position = box ? ontoFace(box, span.position, flat) : besideBlocks(ground, span.position, flat)
  return position.every((x, i) => x === span.position[i]) ? span : { ...span, position }
}

/** The place brought within the box; along the face's normal it is already on it. */
function ontoFace(box: Box, from: Vec3, to: Vec3): Vec3 {
  const frame = fromAngles({ turn: box.turn, list: 0, tilt: 0 })
  const inBox = (p: Vec3) => apply(transpose(frame), sub(p, box.position))
  const [w, h, d] = box.size
  const [x, y, z] = inBox(to)
  const within: Vec3 = [clamp(x, -w / 2, w / 2), clamp(y, 0, h), clamp(z, -d / 2, d / 2)]
  const moved = sub(within, inBox(from))
  return moved.every((m) => Math.abs(m) < ROUNDING * Math.max(w, h, d))
    ? from
    : add(box.position, apply(frame, within))
}

/** Under this share of a box a move is rounding. */
const ROUNDING = 1e-12

function besideBlocks(ground: Ground, from: Vec3, to: Vec3): Vec3 {
  const blocked = (p: Vec3) =>
    ground.boxes.some(
      (box) => box.position[1] <= p[1] && box.position[1] + box.size[1] > p[1] && contains(box, p),
    )
  if (!blocked(to) || blocked(from)) return to
  let clear = 0
  let inside = 1
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (clear + inside) / 2
    if (blocked(lerp(from, to, middle))) inside = middle
    else clear = middle
  }
  return lerp(from, to, clear)
}

/** Finds a block's edge to a thousandth of a millimetre on a way of 10 m. */
const HALVINGS = 24

const clamp = (x: number, low: number, high: number) => Math.max(low, Math.min(high, x))
