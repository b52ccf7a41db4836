import { SLICE_MS } from './constants'
import type { Answer, JobName, Jobs, Request } from './protocol'

/** What the workshop needs of the thread it runs on. */
export interface Thread {
  /** ms, from any start. */
  now(): number
  /** Calls back once messages that have arrived meanwhile have been heard. */
  pause(then: () => void): void
  answer(answer: Answer): void
}

/**
 * For every job, its pieces one by one; nothing longer than a slice between two of them. A step that has nothing to
 * say gives undefined. A job whose code must be loaded first promises them.
 */
export type Workers = {
  readonly [N in JobName]: (
    input: Jobs[N]['input'],
  ) => Iterator<Jobs[N]['piece'] | undefined> | Promise<Iterator<Jobs[N]['piece'] | undefined>>
}

/**
 * Does requested jobs in slices of time, taking turns between jobs of different names. The newest request of
 * a name wins: the one before is dropped at the end of its slice and nothing more is heard of it.
 * A job that throws is answered with the reason; the others go on.
 * @returns the function that takes requests
 */
export function openWorkshop(workers: Workers, thread: Thread): (request: Request) => void {
  const open = new Map<JobName, { readonly id: number; readonly pieces: Iterator<unknown> }>()
  const newest = new Map<JobName, number>()
  let running = false

  const turn = () => {
    const next = open.entries().next()
    if (next.done) {
      running = false
      return
    }
    const [name, job] = next.value
    open.delete(name)
    const answer = slice(job.id, job.pieces, thread)
    if ('pieces' in answer && !answer.done) open.set(name, job)
    thread.answer(answer)
    thread.pause(turn)
  }

  const begin = (id: number, job: JobName, pieces: Iterator<unknown>) => {
    if (newest.get(job) !== id) return
    open.set(job, { id, pieces })
    if (running) return
    running = true
    thread.pause(turn)
  }

  return ({ id, job, input }) => {
    newest.set(job, id)
    open.delete(job)
    const pieces = (workers[job] as (input: unknown) => Iterator<unknown> | Promise<Iterator<unknown>>)(input)
    if (pieces instanceof Promise)
      pieces.then(
        (loaded) => begin(id, job, loaded),
        (error) => thread.answer({ id, failed: reason(error) }),
      )
    else begin(id, job, pieces)
  }
}

const reason = (error: unknown): string => (error instanceof Error ? error.message : String(error))

/** Works on one job until it is done or the slice is over; one piece at least. */
function slice(id: number, iterator: Iterator<unknown>, thread: Thread): Answer {
  const end = thread.now() + SLICE_MS
  const pieces: unknown[] = []
  try {
    do {
      const { value, done } = iterator.next()
      if (done) return { id, pieces, done: true }
      if (value !== undefined) pieces.push(value)
    } while (thread.now() < end)
  } catch (error) {
    return { id, failed: reason(error) }
  }
  return { id, pieces, done: false }
}
