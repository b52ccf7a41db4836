import { toAngles } from '../../space/rotation'
import { sub } from '../../space/vec'
import { LIFTS_EARLY, SHIFT } from './constants'
import type { LeanBefore } from './fixes'
import { betweenAxes } from './turns'
import type { Lift, Measured } from './types'

/** How weight, pelvis and chest go from the start of a shift to its lift. */
export function shiftFacts({ poses }: Measured, lift: Lift): ShiftFacts | null {
  const [a, b] = [poses[lift.start], poses[lift.last]]
  if (!a || !b || !lift.way) return null
  const [dx, , dz] = sub(b.joints.midHip, a.joints.midHip)
  const turn = toAngles(b.segments.lowerTrunk.rotation).turn - toAngles(a.segments.lowerTrunk.rotation).turn
  return {
    weight: (lift.needed - lift.left) / lift.needed,
    pelvis: (dx * lift.way[0] + dz * lift.way[1]) / lift.needed,
    chest: betweenAxes(a.segments.upperTrunk.rotation, b.segments.upperTrunk.rotation, 1),
    turn: Math.abs(turn),
  }
}

interface ShiftFacts {
  /** Share of the needed way that the weight and the pelvis went. */
  readonly weight: number
  readonly pelvis: number
  /** Change of the chest's lean, and of the pelvis's turn, rad. */
  readonly chest: number
  readonly turn: number
}

/** The shifts that owe a travel: large enough to be seen, of a limb that wasn't free already, and not thrown. */
export const owing = (measured: Measured): readonly Lift[] =>
  measured.lifts.filter(
    ({ needed, least, way }) =>
      way !== null &&
      needed >= SHIFT.silent * measured.size &&
      least[1] > Math.min(SHIFT.freed, LIFTS_EARLY.least),
  )

/** What a remedy needs to know of a lift. */
export function leanOf(measured: Measured, lift: Lift): LeanBefore {
  const next = measured.touches
    .filter(({ limb, from }) => limb === lift.limb && from > lift.frame)
    .map(({ from }) => from)
  return {
    limb: lift.limb,
    stays: lift.stays,
    start: measured.frames[lift.start] ?? 0,
    frame: lift.frame,
    until: Math.min(measured.take.length - 1, ...next),
    frames: Math.ceil(SHIFT.lean * measured.root * measured.fps),
  }
}
