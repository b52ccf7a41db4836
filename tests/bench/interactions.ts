import type { Browser } from 'playwright'
import { sitting } from '../support/sitting'

export interface InteractionTimes {
  /** From a press or a key to the next picture that shows what it did, ms: 95 of 100 are at most this long. */
  readonly p95: number
  readonly slowest: number
  readonly count: number
}

/**
 * Works at the built page for a while and tells how soon it answers: Interaction to Next Paint, of each interaction,
 * as the browser's own Event Timing measures it (W3C, in steps of 8 ms; shorter ones than 16 ms are not reported and
 * count as 8).
 * @param url the built page's address
 */
export async function benchInteractions(browser: Browser, url: string): Promise<InteractionTimes> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 } })
  try {
    const page = await context.newPage()
    await page.addInitScript(observe)
    await page.goto(url)
    await page.locator('[role=grid][aria-busy=false]').waitFor()
    for (let i = 0; i < 3; i++) await sitting(page)
    const { reported, all } = await page.evaluate(() => {
      const { longest } = globalThis as unknown as Observed
      const { interactionCount } = performance as unknown as { interactionCount?: number }
      return { reported: [...longest.values()], all: interactionCount ?? longest.size }
    })
    const unreported = Math.max(0, all - reported.length)
    const times = [...new Array<number>(unreported).fill(8), ...reported].sort((a, b) => a - b)
    return {
      p95: times[Math.min(times.length - 1, Math.floor(0.95 * times.length))] ?? Number.NaN,
      slowest: times.at(-1) ?? Number.NaN,
      count: times.length,
    }
  } finally {
    await context.close()
  }
}

interface Observed {
  /** By the number of the interaction, the longest of its events, ms. */
  longest: Map<number, number>
}

/** Runs in the page: notes every interaction that the browser reports. */
function observe(): void {
  const observed = globalThis as unknown as Observed
  observed.longest = new Map()
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) {
      const { interactionId, duration } = entry as PerformanceEventTiming
      if (interactionId === 0) continue
      observed.longest.set(interactionId, Math.max(duration, observed.longest.get(interactionId) ?? 0))
    }
  }).observe({ type: 'event', durationThreshold: 16, buffered: true } as PerformanceObserverInit)
}
