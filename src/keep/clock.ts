/** The time and how to wait, so that tests can run it by hand. */
export interface Clock {
  /** Milliseconds since 1970 in universal time. */
  readonly now: () => number
  /** Runs something once, so many milliseconds later; calling what comes back prevents it. */
  readonly after: (milliseconds: number, run: () => void) => () => void
}

export const browserClock: Clock = {
  now: () => Date.now(),
  after: (milliseconds, run) => {
    const timer = setTimeout(run, milliseconds)
    return () => clearTimeout(timer)
  },
}
