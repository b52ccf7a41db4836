import type { Browser, Page } from 'playwright'

/**
 * Drags the pelvis back and forth in the front view of the built page and tells how long each step takes.
 * @param url the built page's address
 * @returns times in ms, p50 and p95 of 240 steps: `script` from the start of the screen's frame until drawing and
 *   read-outs are updated, `shown` until the browser has also laid out and painted them
 */
export async function benchDrag(browser: Browser, url: string): Promise<DragTimes> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 } })
  try {
    const page = await context.newPage()
    await page.addInitScript(timeFrames)
    await page.goto(url, { waitUntil: 'networkidle' })
    await page.waitForSelector('[data-grip=pelvis]')
    await drag(page, 60)
    await page.evaluate(() => {
      const { frameTimes } = globalThis as unknown as Timed
      frameTimes.length = 0
    })
    await drag(page, 240)
    const times = await page.evaluate(() => (globalThis as unknown as Timed).frameTimes)
    return {
      steps: times.length,
      script: spread(times.map(([script]) => script)),
      shown: spread(times.map(([, shown]) => shown)),
    }
  } finally {
    await context.close()
  }
}

export interface DragTimes {
  readonly steps: number
  readonly script: Spread
  readonly shown: Spread
}

interface Spread {
  readonly p50: number
  readonly p95: number
}

interface Timed {
  frameTimes: [script: number, shown: number][]
}

/** Runs in the page: notes how long every frame's work takes. */
function timeFrames(): void {
  const timed = globalThis as unknown as Timed
  timed.frameTimes = []
  const next = window.requestAnimationFrame.bind(window)
  window.requestAnimationFrame = (work) =>
    next((now) => {
      const start = performance.now()
      work(now)
      // The page updates itself in a microtask that stands before this one.
      queueMicrotask(() =>
        queueMicrotask(() => {
          const script = performance.now() - start
          const { port1, port2 } = new MessageChannel()
          // A message is heard after the frame has been painted.
          port1.onmessage = () => timed.frameTimes.push([script, performance.now() - start])
          port2.postMessage(null)
        }),
      )
    })
}

async function drag(page: Page, steps: number): Promise<void> {
  const box = await page.locator('[data-view=front] [data-grip=pelvis]').boundingBox()
  if (box === null) throw new Error('the pelvis has no handle in the front view')
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
  await page.mouse.move(x, y)
  await page.mouse.down()
  for (let i = 0; i < steps; i++) {
    const turn = (i / 60) * 2 * Math.PI
    await page.mouse.move(x - 28 * Math.sin(turn), y + 10 * Math.sin(2 * turn))
    await page.waitForTimeout(20)
  }
  await page.mouse.up()
}

function spread(times: readonly number[]): Spread {
  const sorted = [...times].sort((a, b) => a - b)
  const at = (share: number) =>
    sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN
  return { p50: at(0.5), p95: at(0.95) }
}
