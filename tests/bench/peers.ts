import type { Peer } from './peer'
import { peersOfRanges } from './peers-ranges'
import { peersOfSplit } from './peers-split'

/** Everything of ours that a library can do too. */
export async function peers(): Promise<Peer[]> {
  return [...(await peersOfRanges()), ...peersOfSplit()]
}
