/** Something to be timed. */
export interface Case {
  readonly name: string
  /** What one run does, on which input. */
  readonly input: string
  /**
   * Most a run may take, ms. The median is judged; the 99th percentile is only told, since on a busy machine the
   * others' use of caches and clock is in it.
   */
  readonly goal: { readonly median?: number; readonly p99?: number }
  /** Makes ready for a run; neither timed nor counted. */
  readonly ready?: (turn: number) => void
  /** Runs once; `turn` counts up, so that runs can take their inputs in turn. */
  readonly run: (turn: number) => void
  /** How many inputs the runs take in turn, where runs are so long that some might be left out. */
  readonly inputs?: number
  /** Of how many alike things a run does, one of which is what its times are for. */
  readonly parts?: (turn: number) => number
}

export interface Figures {
  /** ms */
  readonly median: number
  readonly p95: number
  readonly p99: number
  /** Timed runs of all rounds. */
  readonly runs: number
}

export const ROUNDS = 5
/** Runs that a round must have to be told by itself. */
const ENOUGH = 20

/**
 * Times single runs, each case for about `seconds` in all after unmeasured runs until the engine has settled, and
 * each of its inputs once at least. The cases take turns in ROUNDS rounds, so that a slow spell of the machine
 * meets them all; what is reported of a case is the round with its least median, or all rounds together where
 * they have few runs.
 */
export function measure(cases: readonly Case[], seconds: number): Figures[] {
  const timers = cases.map((one) => new Timer(one))
  for (const timer of timers) timer.round(0.4 * seconds)
  const rounds = Array.from({ length: ROUNDS }, (_, r) =>
    timers.map((timer) => timer.round(seconds / ROUNDS, ROUNDS - r)),
  )
  return cases.map((_, i) => {
    const own = rounds.map((round) => round[i] as number[])
    const all = figuresOf(own.flat())
    if (own.some(({ length }) => length < ENOUGH)) return all
    const quietest = own.map(figuresOf).reduce((best, one) => (one.median < best.median ? one : best))
    return { ...quietest, runs: all.runs }
  })
}

function figuresOf(times: readonly number[]): Figures {
  const sorted = [...times].sort((a, b) => a - b)
  const at = (part: number) => sorted[Math.floor(part * (sorted.length - 1))] as number
  return { median: at(0.5), p95: at(0.95), p99: at(0.99), runs: sorted.length }
}

class Timer {
  private turn = 0
  private inputsLeft: number

  constructor(private readonly one: Case) {
    this.inputsLeft = one.inputs ?? 1
  }

  /**
   * Runs again and again for so many seconds, at least once, and through its share of the inputs left where so
   * many rounds are to come; without those the runs don't count. Returns their times, ms.
   */
  round(seconds: number, rounds?: number): number[] {
    const { run, ready, parts } = this.one
    const least = rounds === undefined ? 1 : Math.max(1, Math.ceil(this.inputsLeft / rounds))
    const end = performance.now() + 1000 * seconds
    const times: number[] = []
    do {
      const turn = this.turn++
      ready?.(turn)
      const worked = process.cpuUsage()
      const start = performance.now()
      run(turn)
      times.push(undisturbed(performance.now() - start, worked) / (parts?.(turn) ?? 1))
    } while (performance.now() < end || times.length < least)
    if (rounds !== undefined) this.inputsLeft = Math.max(0, this.inputsLeft - times.length)
    return times
  }
}

/** ms from which on a run was likely interrupted by other programs, where there are any. */
const LONG = 1

/**
 * How long a run took, ms, without the time in which the machine did something else: the processor's time of
 * the whole program, which its helper threads can only lengthen, where that is less than the clock's.
 */
function undisturbed(clock: number, worked: NodeJS.CpuUsage): number {
  if (clock < LONG) return clock
  const { user, system } = process.cpuUsage(worked)
  return Math.min(clock, (user + system) / 1000)
}
