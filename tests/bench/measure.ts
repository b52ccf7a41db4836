import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'

/** Something to be timed. */
export interface Case {
  readonly name: string
  /** What one run does, on which input. */
  readonly input: string
  /**
   * Most a run may take, ms. The median is judged; the 99th percentile is only told, since on a busy machine it
   * is the other programs' and not ours.
   */
  readonly goal: { readonly median?: number; readonly p99?: number }
  /** Makes ready for a run; neither timed nor counted. */
  readonly ready?: (turn: number) => void
  /** Runs once; `turn` counts up, so that runs can take their inputs in turn. */
  readonly run: (turn: number) => void
  /** Of how many alike things a run does, one of which is what its times are for. */
  readonly parts?: (turn: number) => number
}

export interface Figures {
  /** ms, of the quietest round */
  readonly median: number
  readonly p95: number
  readonly p99: number
  /** Timed runs of all rounds. */
  readonly runs: number
}

export const ROUNDS = 5

/**
 * Times single runs, each case for about `seconds` in all after unmeasured runs until the engine has settled.
 * The cases take turns in ROUNDS rounds, so that a slow spell of the machine meets them all; what is reported
 * of a case is the round with its least median.
 */
export function measure(cases: readonly Case[], seconds: number): Figures[] {
  const timers = cases.map((one) => new Timer(one))
  for (const timer of timers) timer.round(0.4 * seconds)
  const rounds = Array.from({ length: ROUNDS }, () => timers.map((timer) => timer.round(seconds / ROUNDS)))
  return cases.map((_, i) => {
    const own = rounds.map((round) => round[i] as Figures)
    const quietest = own.reduce((best, one) => (one.median < best.median ? one : best))
    return { ...quietest, runs: own.reduce((sum, { runs }) => sum + runs, 0) }
  })
}

class Timer {
  private turn = 0

  constructor(private readonly one: Case) {}

  /** Runs again and again for so many seconds, at least once. */
  round(seconds: number): Figures {
    const { run, ready, parts } = this.one
    const end = performance.now() + 1000 * seconds
    const times: number[] = []
    do {
      const turn = this.turn++
      ready?.(turn)
      const start = performance.now()
      run(turn)
      times.push((performance.now() - start) / (parts?.(turn) ?? 1))
    } while (performance.now() < end)
    times.sort((a, b) => a - b)
    const at = (part: number) => times[Math.floor(part * (times.length - 1))] as number
    return { median: at(0.5), p95: at(0.95), p99: at(0.99), runs: times.length }
  }
}

/** Bytes a batch may come to: less than the engine lets gather before it collects, which is 1 MB or more. */
const BATCH_BYTES = 200_000
const BATCHES = 41

/**
 * Bytes that one run allocates, on the engine's heap and in buffers beside it: by how much they grow over a
 * batch of runs that begins just after a collection and is too small to cause one, over the number of runs, less
 * what asking costs; the median of BATCHES batches. Call it once the case has been timed: by then the
 * engine's compilers, which allocate too, are done with it.
 */
export function bytesPerRun({ run }: Pick<Case, 'run'>): number {
  let turn = 0
  const batch = (runs: number): number => {
    collect({ type: 'minor' })
    const before = process.memoryUsage()
    for (let i = 0; i < runs; i++) run(turn++)
    const after = process.memoryUsage()
    return after.heapUsed - before.heapUsed + after.arrayBuffers - before.arrayBuffers
  }
  const median = (runs: number): number =>
    Array.from({ length: BATCHES }, () => batch(runs)).sort((a, b) => a - b)[BATCHES >> 1] as number
  const asking = median(0)
  let runs = 1
  while (runs < 100 && 2 * median(runs) < BATCH_BYTES) runs *= 2
  return Math.max(0, Math.round((median(runs) - asking) / runs))
}

setFlagsFromString('--expose-gc')
const collect = runInNewContext('gc') as (options: { type: 'minor' }) => void
