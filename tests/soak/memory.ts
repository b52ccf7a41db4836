import type { Page } from 'playwright'
import { sitting } from '../support/sitting'

export interface Memory {
  /** Megabytes in use after the garbage was collected: once all is loaded and seen, and at the end. */
  readonly before: number
  readonly after: number
  readonly growth: number
  readonly sittings: number
}

/** Sittings after which code is compiled, caches are full and the history has what it has after any sitting. */
const WARM = 8

/**
 * How the memory of the page's own thread grows while one works at it.
 * @param page open and weighed
 * @param seconds how long, beside the first sittings, which load and fill what is kept on purpose
 */
export async function memoryOver(page: Page, seconds: number): Promise<Memory> {
  const session = await page.context().newCDPSession(page)
  const used = async () => {
    // Twice: what a finalizer lets go of is only seen by the next.
    for (let i = 0; i < 2; i++) await session.send('HeapProfiler.collectGarbage')
    return (await session.send('Runtime.getHeapUsage')).usedSize / 1e6
  }
  for (let i = 0; i < WARM; i++) await sitting(page)
  const before = await used()
  const end = Date.now() + 1000 * seconds
  let sittings = 0
  for (; Date.now() < end; sittings++) await sitting(page)
  const after = await used()
  return { before, after, growth: after / before - 1, sittings }
}
