import type { Vec3 } from '../space/vec'

export type Way = 'forward' | 'back' | 'left' | 'right'

/**
 * A level direction in his own words: forward or back, his left or right, or one of each where it lies
 * between them; the main one first.
 * @param direction world
 * @param turn the pelvis's turn about the vertical, rad
 */
export function wayOf(direction: Vec3, turn: number): readonly Way[] {
  const left = direction[0] * Math.cos(turn) - direction[2] * Math.sin(turn)
  const ahead = direction[0] * Math.sin(turn) + direction[2] * Math.cos(turn)
  const sideways: Way = left > 0 ? 'left' : 'right'
  const along: Way = ahead > 0 ? 'forward' : 'back'
  if (Math.abs(ahead) < EIGHTH * Math.abs(left)) return [sideways]
  if (Math.abs(left) < EIGHTH * Math.abs(ahead)) return [along]
  return Math.abs(left) > Math.abs(ahead) ? [sideways, along] : [along, sideways]
}

/** Tangent of 22.5°: eight ways, each an eighth of the round. */
const EIGHTH = Math.SQRT2 - 1
