import type { Vec3 } from '../../space/vec'

/** A place on the stage that is no part of the plan. */
export interface Target {
  /** 'mark' */
  readonly name: string
  /** World, m: the place, and where the limb is. */
  readonly at: Vec3
  readonly from: Vec3
  move(to: Vec3): void
}
