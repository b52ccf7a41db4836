import type { Grip } from './drawing.svelte'

/**
 * The grips within a distance of a point of the drawing, the ones in front first, then by distance: what a
 * tap takes first, and the order in which repeated taps go through them.
 */
export function gripsNear(grips: readonly Grip[], x: number, y: number, radius: number): Grip[] {
  const far = (grip: Grip) => Math.hypot(grip.x - x, grip.y - y)
  // Handles that lie as good as on one spot go in a settled order, so that a drag does not change it.
  const rank = (grip: Grip) => Math.round(far(grip) / SPOT) + (grip.covered ? BEHIND : 0)
  return grips.filter((grip) => far(grip) <= radius).sort((a, b) => rank(a) - rank(b))
}

/** Handles nearer to each other than this lie on one spot, px. */
const SPOT = 4
/** A handle behind another part counts as so many spots further off: a press on its very mark still takes it. */
const BEHIND = 1.5

/** What a tap at the spot of the chosen grip takes next. */
export function nextGrip(near: readonly Grip[], chosen: string | null): Grip | undefined {
  const now = near.findIndex(({ thing }) => thing.id === chosen)
  return near[(now + 1) % near.length]
}

export type Arrow = 'ArrowLeft' | 'ArrowRight' | 'ArrowUp' | 'ArrowDown'

/** Which way an arrow points on the drawing, y down. */
export const ARROWS: Readonly<Record<Arrow, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

export const isArrow = (key: string): key is Arrow => key in ARROWS

/**
 * The grip that lies next in a direction: near, and not far off the way; the same one where none lies there.
 * Grips on one spot come first, one after the other: onward with right and down, back with left and up.
 */
export function gripToward(grips: readonly Grip[], from: Grip, arrow: Arrow): Grip {
  const [dx, dy] = ARROWS[arrow]
  const stack = grips.filter((grip) => Math.hypot(grip.x - from.x, grip.y - from.y) < SPOT)
  const under = stack[stack.indexOf(from) + (dx + dy)]
  if (under) return under
  let best = from
  let least = Number.POSITIVE_INFINITY
  for (const grip of grips) {
    const [x, y] = [grip.x - from.x, grip.y - from.y]
    const along = x * dx + y * dy
    const beside = Math.abs(x * dy - y * dx)
    if (grip === from || stack.includes(grip) || along < 1 || beside > 2 * along + 2) continue
    const cost = along + 2 * beside
    if (cost < least) {
      least = cost
      best = grip
    }
  }
  return best
}

/** How far an arrow moves a grabbed handle, m: about half a per cent of the stature, in a round number. */
export function arrowStep(stature: number): number {
  const near = stature * 0.005
  const ten = 10 ** Math.floor(Math.log10(near))
  return (near / ten < 1.5 ? 1 : near / ten < 3.5 ? 2 : near / ten < 7.5 ? 5 : 10) * ten
}

/** Shift makes it so many times as far. */
export const LONG_STEP = 5
