import type { Clock } from '../clock'

/** A clock that stands still until it is told to go on. */
export function fakeClock(start = 1_000_000): Clock & { advance: (milliseconds: number) => Promise<void> } {
  let time = start
  let waiting: { at: number; run: () => void }[] = []
  return {
    now: () => time,
    after: (milliseconds, run) => {
      const entry = { at: time + milliseconds, run }
      waiting.push(entry)
      return () => {
        waiting = waiting.filter((other) => other !== entry)
      }
    },
    /** Lets time pass, running what falls due in its order, and lets promises settle after each. */
    advance: async (milliseconds) => {
      const end = time + milliseconds
      for (;;) {
        await settled()
        const due = waiting.filter(({ at }) => at <= end).sort((a, b) => a.at - b.at)[0]
        if (due === undefined) break
        waiting = waiting.filter((other) => other !== due)
        time = Math.max(time, due.at)
        due.run()
      }
      time = end
    },
  }
}

/** Enough turns of the promise queue for any chain in this room. */
async function settled(): Promise<void> {
  for (let turn = 0; turn < 50; turn++) await Promise.resolve()
}
