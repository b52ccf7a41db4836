import type { Answer, JobName, Jobs, Request } from './protocol'

/** The page's end of a calculation thread. */
export interface Post {
  postMessage(request: Request): void
  onmessage: ((event: { readonly data: Answer }) => void) | null
  onerror: ((event: { readonly message: string }) => void) | null
}

export interface Listener<P> {
  /** Some pieces, in the order in which they were made; the last time `done`. */
  pieces(pieces: readonly P[], done: boolean): void
  /** Why there will be no more; what has been heard stays true. */
  failed?(reason: string): void
}

/**
 * Asks the calculation thread for jobs. The newest request of a name wins: its predecessors' listeners hear
 * nothing more, whatever is still on its way.
 */
export class WorkerClient {
  #post: Post | null = null
  #start: () => Post
  #last = 0
  #listeners = new Map<JobName, { id: number; listener: Listener<never> }>()

  /** @param start makes the thread; called with the first request */
  constructor(start: () => Post = startThread) {
    this.#start = start
  }

  request<N extends JobName>(job: N, input: Jobs[N]['input'], listener: Listener<Jobs[N]['piece']>): void {
    const id = ++this.#last
    this.#listeners.set(job, { id, listener: listener as Listener<never> })
    try {
      this.#thread().postMessage({ id, job, input } as Request)
    } catch (error) {
      this.#failed(id, error instanceof Error ? error.message : String(error))
    }
  }

  #thread(): Post {
    if (this.#post !== null) return this.#post
    const post = this.#start()
    post.onmessage = ({ data }) => this.#hear(data)
    post.onerror = ({ message }) => {
      for (const { id } of [...this.#listeners.values()]) this.#failed(id, message)
    }
    this.#post = post
    return post
  }

  #hear(answer: Answer): void {
    if ('failed' in answer) {
      this.#failed(answer.id, answer.failed)
      return
    }
    for (const [job, { id, listener }] of this.#listeners) {
      if (id !== answer.id) continue
      if (answer.done) this.#listeners.delete(job)
      listener.pieces(answer.pieces as never[], answer.done)
    }
  }

  #failed(id: number, reason: string): void {
    for (const [job, entry] of this.#listeners) {
      if (entry.id !== id) continue
      this.#listeners.delete(job)
      entry.listener.failed?.(reason)
    }
  }
}

const startThread = (): Post =>
  new Worker(new URL('./entry.ts', import.meta.url), { type: 'module', name: 'weighing' }) as Post
