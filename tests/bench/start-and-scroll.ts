import type { Browser, Page } from 'playwright'

export interface ScreenTimes {
  /** First drawing of anything, ms from the start of loading, in a browser that has seen nothing yet. */
  readonly firstDrawing: number
  /** Until the demo's whole take is weighed, ms. */
  readonly weighed: number
  /** From one frame of the screen to the next while 300 rows scroll by, 3 rows a frame, ms. */
  readonly scroll: { readonly p50: number; readonly p95: number; readonly frames: number }
}

/**
 * Opens the built page, makes the take 300 frames long, and scrolls its sheet from end to end.
 * @param url the built page's address
 */
export async function benchScreen(browser: Browser, url: string): Promise<ScreenTimes> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 } })
  try {
    const page = await context.newPage()
    await page.goto(url)
    await page.locator('[role=grid][aria-busy=false]').waitFor()
    const weighed = await page.evaluate(() => performance.now())
    const firstDrawing = await page.evaluate(
      () => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN,
    )
    await lengthen(page, 300)
    const gaps = (await page.evaluate(scrollThrough)).sort((a, b) => a - b)
    const at = (share: number) => gaps[Math.floor(share * gaps.length)] ?? Number.NaN
    return { firstDrawing, weighed, scroll: { p50: at(0.5), p95: at(0.95), frames: gaps.length } }
  } finally {
    await context.close()
  }
}

async function lengthen(page: Page, frames: number): Promise<void> {
  await page.getByRole('button', { name: /fps/ }).click()
  await page.getByLabel('Frames', { exact: true }).fill(String(frames))
  await page.keyboard.press('Tab')
  await page.keyboard.press('Escape')
  await page.locator(`[role=grid][aria-busy=false][aria-rowcount="${frames + 1}"]`).waitFor()
}

/** Runs in the page: scrolls the sheet by 60 px a frame and gives the times between frames. */
function scrollThrough(): Promise<number[]> {
  const grid = document.querySelector('[role=grid]') as HTMLElement
  const gaps: number[] = []
  let last: number | undefined
  return new Promise((resolve) => {
    const step = (now: number) => {
      if (last !== undefined) gaps.push(now - last)
      last = now
      const before = grid.scrollTop
      grid.scrollTop += 60
      if (grid.scrollTop === before) resolve(gaps)
      else requestAnimationFrame(step)
    }
    requestAnimationFrame(step)
  })
}
