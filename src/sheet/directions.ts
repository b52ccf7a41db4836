import type { Vec3 } from '../space/vec'

/** Whose sheet it is: the pronoun its sentences use. */
export type They = 'his' | 'her' | 'its' | 'their'

/**
 * A level direction of the world as the body sees it that faces `heading` (rad about the vertical, to its
 * left > 0): [to its left, forward].
 */
export function bodyWays(heading: number, x: number, z: number): [side: number, fore: number] {
  const c = Math.cos(heading)
  const s = Math.sin(heading)
  return [c * x - s * z, s * x + c * z]
}

/** The same for a place or a move with its height: [to its left, up, forward]. */
export function bodyAxes(heading: number, v: Vec3): Vec3 {
  const [side, fore] = bodyWays(heading, v[0], v[2])
  return [side, v[1], fore]
}

/**
 * A level direction in a person's words, to the nearest eighth of a circle: 'forward', 'back and to his
 * left', 'to his right'.
 * @param side to the body's left > 0
 * @param fore forward > 0
 */
export function wayWords(side: number, fore: number, they: They): string {
  const along = Math.abs(fore) > EIGHTH * Math.abs(side) ? (fore > 0 ? 'forward' : 'back') : ''
  const across = Math.abs(side) > EIGHTH * Math.abs(fore) ? `to ${they} ${side > 0 ? 'left' : 'right'}` : ''
  return [along, across].filter(Boolean).join(' and ')
}

/** tan 22.5°: half an eighth of a circle. */
const EIGHTH = Math.SQRT2 - 1
