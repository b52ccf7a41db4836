import type { Vec3 } from '../../space/vec'

/** A place on the stage that is no part of the plan. */
export interface Target {
  /** 'where the left knee goes' */
  readonly name: string
  /** World, m. */
  readonly at: Vec3
  move(to: Vec3): void
}
