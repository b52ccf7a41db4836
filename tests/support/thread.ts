import { flushSync } from 'svelte'
import type { WorkerClient } from '../../src/worker/client'
import type { JobName } from '../../src/worker/protocol'

type Job = (input: never) => Iterable<unknown>

/**
 * A calculation thread for tests, on the page's own: jobs wait until they are told to answer; the newest request of
 * a name wins.
 */
export function testThread(jobs: Partial<Record<JobName, Job>>) {
  const waiting = new Map<JobName, () => void>()
  const worker: Pick<WorkerClient, 'request'> = {
    request(job, input, listener) {
      const work = jobs[job]
      if (work)
        waiting.set(job, () =>
          listener.pieces([...work(input as never)].filter((piece) => piece !== undefined) as never[], true),
        )
    },
  }
  return {
    worker,
    /** Does what was asked for, also what the answers ask for. */
    answer(): void {
      flushSync()
      for (const [job, work] of waiting) {
        waiting.delete(job)
        work()
      }
      flushSync()
    },
    get asked(): readonly JobName[] {
      return [...waiting.keys()]
    },
  }
}
