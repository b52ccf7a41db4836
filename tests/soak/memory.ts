import type { CDPSession, Page } from 'playwright'
import { sitting } from '../support/sitting'

/** In words: what is held, and beside it all that the heap counts. */
export const memoryWords = ({ before, after, growth, sittings }: Memory): string =>
  `${sittings} sittings: ${before.held.toFixed(1)} MB, then ${after.held.toFixed(1)} MB, ${(100 * growth).toFixed(1)} % more; with compiled code ${before.all.toFixed(1)} and ${after.all.toFixed(1)} MB`

export interface Memory {
  /** What is in use after the garbage was collected: once all is loaded and seen, and at the end. */
  readonly before: Used
  readonly after: Used
  /** Of what is not compiled code, over what it was. */
  readonly growth: number
  readonly sittings: number
}

interface Used {
  /** MB that a heap snapshot counts, code included. */
  readonly all: number
  /** MB of it that are not code. */
  readonly held: number
}

/** Sittings after which everything is loaded and caches and the history have what they have after any sitting. */
const WARM = 4

/**
 * How the memory of the page's own thread grows while one works at it. What the engine compiles is left out: for
 * minutes it goes on turning what is often run into faster and longer code (about 1 MB from the 8th sitting to the
 * 30th), and that comes to an end by itself. The limit of a tenth more is for what is held, without code; what the
 * heap counts in all is told beside it.
 * @param page open and weighed
 * @param seconds how long, beside the first sittings
 */
export async function memoryOver(page: Page, seconds: number): Promise<Memory> {
  const session = await page.context().newCDPSession(page)
  for (let i = 0; i < WARM; i++) await sitting(page)
  const before = await usedBy(session)
  const end = Date.now() + 1000 * seconds
  let sittings = 0
  for (; Date.now() < end; sittings++) await sitting(page)
  const after = await usedBy(session)
  return { before, after, growth: after.held / before.held - 1, sittings }
}

/** What a heap snapshot says it is made of, as far as it is read here. */
interface Snapshot {
  readonly snapshot: { readonly meta: { readonly node_fields: string[]; readonly node_types: [string[]] } }
  /** A row of `node_fields` for each thing in the heap, all in one list. */
  readonly nodes: readonly number[]
}

async function usedBy(session: CDPSession): Promise<Used> {
  // More than once: what a finalizer lets go of is only seen by the next.
  for (let i = 0; i < 3; i++) await session.send('HeapProfiler.collectGarbage')
  const chunks: string[] = []
  const take = ({ chunk }: { chunk: string }) => void chunks.push(chunk)
  session.on('HeapProfiler.addHeapSnapshotChunk', take)
  await session.send('HeapProfiler.takeHeapSnapshot', {})
  session.off('HeapProfiler.addHeapSnapshotChunk', take)
  const { snapshot, nodes }: Snapshot = JSON.parse(chunks.join(''))
  const { node_fields: fields, node_types: types } = snapshot.meta
  const [type, size] = [fields.indexOf('type'), fields.indexOf('self_size')]
  const code = types[0].indexOf('code')
  let [all, held] = [0, 0]
  for (let at = 0; at < nodes.length; at += fields.length) {
    const bytes = nodes[at + size] as number
    all += bytes
    if (nodes[at + type] !== code) held += bytes
  }
  return { all: all / 1e6, held: held / 1e6 }
}
