import type { PhaseName } from '../../document/plan'
import type { ReachedPose } from '../../pose/types'
import type { Still, Transfer } from './types'

/** The key poses of one transfer of weight, in order; the first is the pose it starts from. */
export interface Keys {
  readonly transfer: Transfer
  readonly keys: readonly KeyPose[]
  /** Which key the released parts leave after, and which the planted ones touch at; −1 for none. */
  readonly leaves: number
  readonly touches: number
}

export interface KeyPose {
  readonly name: KeyName
  readonly phase: PhaseName
  readonly still: Still
  readonly pose: ReachedPose
}

export type KeyName = 'ready' | 'over' | 'lift' | 'pass' | 'touch' | 'share' | 'back' | 'rest'

/** A key that asks for what is reached. */
export const keyPose = (
  name: KeyName,
  phase: PhaseName,
  { still, pose }: { readonly still: Still; readonly pose: ReachedPose },
): KeyPose => ({ name, phase, still: { ...still, controls: pose.reached }, pose })
