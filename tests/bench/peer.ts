import type { Case } from './measure'

/** Our calculation beside a library's on the very same problems. */
export interface Peer {
  readonly name: string
  readonly library: string
  /** How the library was set, and what of its work is left out of its time. */
  readonly how: string
  /** Least times that ours should be as fast. */
  readonly goal?: number
  readonly ours: Case
  readonly theirs: Case
  /** Compares all answers. Throws where the two didn't solve the same problem. */
  readonly agree: () => Agreement
}

export interface Agreement {
  /** The largest difference between answers. */
  readonly difference: number
  /** What it is a part of. */
  readonly of: string
}
