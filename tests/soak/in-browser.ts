import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beenHere } from '../support/been-here'
import { launch } from '../support/browser'
import { buildPage } from '../support/built-page'
import { hostFolder } from '../support/static-host'
import { kills } from './kills'
import { memoryOver, memoryWords } from './memory'

/** How old a reopened state may be, ms. */
const OLDEST = 1_000
/** By how much memory may grow. */
const GROWTH = 0.1

/** A long form that needs a browser. Gives what it found and whether that is in order. */
export interface BrowserSoak {
  readonly name: string
  /** How many kills, how many seconds. */
  readonly long: number
  run(url: string, count: number, seed: number): Promise<{ readonly said: string; readonly well: boolean }>
}

export const BROWSER_SOAKS: readonly BrowserSoak[] = [
  {
    name: 'kills',
    long: 200,
    async run(url, count, seed) {
      const { oldest, unkept } = await kills(url, count, seed, OLDEST)
      const said = `${count} kills, seed ${seed}, ${unkept} of them with something not kept yet; oldest state reopened ${oldest} ms`
      return { said, well: true }
    },
  },
  {
    name: 'memory',
    long: 600,
    async run(url, count) {
      const browser = await launch()
      try {
        const context = await browser.newContext({ viewport: { width: 1280, height: 720 } })
        await beenHere(context)
        // What is run in the page was compiled to keep its functions' names, by a helper that a page does not have.
        await context.addInitScript('globalThis.__name = (one) => one')
        const page = await context.newPage()
        await page.goto(url)
        await page.locator('[role=grid][aria-busy=false]').waitFor()
        const memory = await memoryOver(page, count)
        const said = `${count} s, ${memoryWords(memory)}`
        return { said, well: memory.growth <= GROWTH }
      } finally {
        await browser.close()
      }
    },
  },
]

/** Does something at the address of the page as it is released. */
export async function withBuiltPage<T>(act: (url: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'weighbridge-soak-'))
  await buildPage(folder)
  const host = await hostFolder(folder)
  try {
    return await act(host.url)
  } finally {
    await host.close()
    rmSync(folder, { recursive: true, force: true })
  }
}
