/** Something to be timed. */
export interface Case {
  readonly name: string
  /** What one run does, on which input. */
  readonly input: string
  /** Most a run may take, ms, by statistic. */
  readonly goal: { readonly median?: number; readonly p99?: number }
  /** Runs once; `turn` counts up, so that runs can take their inputs in turn. */
  readonly run: (turn: number) => void
}

export interface Figures {
  /** ms */
  readonly median: number
  readonly p95: number
  readonly p99: number
  readonly runs: number
}

/** Times single runs: first unmeasured ones until the engine has settled, then for about `seconds` in all. */
export function measure({ run }: Case, seconds: number): Figures {
  let turn = 0
  const until = (end: number, times?: number[]) => {
    while (performance.now() < end) {
      const start = performance.now()
      run(turn++)
      times?.push(performance.now() - start)
    }
  }
  until(performance.now() + 400 * seconds)
  const times: number[] = []
  until(performance.now() + 1000 * seconds, times)
  times.sort((a, b) => a - b)
  const at = (part: number) => times[Math.floor(part * (times.length - 1))] ?? Number.NaN
  return { median: at(0.5), p95: at(0.95), p99: at(0.99), runs: times.length }
}
