/**
 * `npm run pictures`: builds the page, opens it in Chromium and takes the README's pictures into `.pictures/`. The
 * clock stands still, so that a picture only changes when the page does.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Browser, BrowserContextOptions, Page } from 'playwright'
import { beenHere } from './been-here'
import { launch } from './browser'
import { buildPage, servePage, urlOf } from './built-page'

const FOLDER = fileURLToPath(new URL('../../.pictures/', import.meta.url))
/** A picture heavier than this is taken again with fewer pixels: README and repository should stay light. */
const MOST_BYTES = 300_000
const SCALES = [2, 1.5, 1]

/** A4 on its side at 96 px an inch, and the margins that the sheet's print style leaves, px. */
const PAPER = { width: 1123, height: 794 }
const MARGIN = { across: 34, down: 38 }

interface Picture {
  readonly name: string
  readonly context: BrowserContextOptions & { readonly viewport: { width: number; height: number } }
  /** Brings the weighed demo to what is to be seen. */
  readonly prepare?: (page: Page) => Promise<void>
  /** Leaves the timing sheet out. */
  readonly stageOnly?: boolean
}

const desk = { viewport: { width: 1280, height: 720 } }
const pictures: readonly Picture[] = [
  { name: 'weigh', context: desk },
  { name: 'lean', context: desk, prepare: findTheLean, stageOnly: true },
  { name: 'dark', context: { ...desk, colorScheme: 'dark' }, prepare: (page) => goToKey(page, 3) },
  { name: 'phone', context: { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true } },
  { name: 'sheet', context: { viewport: PAPER, bypassCSP: true }, prepare: layOutOnPaper },
]

async function findTheLean(page: Page): Promise<void> {
  await page.getByRole('button', { name: /find the lean/i }).click()
  await page.getByRole('list', { name: /leans/i }).getByRole('listitem').first().waitFor()
}

/** @param count which key pose of those that the sheet shows, from 0 */
async function goToKey(page: Page, count: number): Promise<void> {
  const keys = page.getByRole('row').filter({ has: page.locator('[data-handle=key]') })
  await keys.nth(count).locator('.frame').click()
}

/** The first page that a printer would give: rows that don't fit onto it are left out. */
async function layOutOnPaper(page: Page): Promise<void> {
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')))
  await page.emulateMedia({ media: 'print' })
  const { across, down } = MARGIN
  await page.addStyleTag({
    content: `.print-view { padding: ${down}px ${across}px } .print-part + .print-part { display: none }`,
  })
  const rows = page.locator('.print-part').first().locator('tbody tr')
  await rows.evaluateAll((all, bottom) => {
    for (const row of all) if (row.getBoundingClientRect().bottom > bottom) row.remove()
  }, PAPER.height - down)
}

async function take(browser: Browser, url: string, picture: Picture): Promise<string> {
  const { name, context, prepare, stageOnly } = picture
  for (const scale of SCALES) {
    const opened = await browser.newContext({
      ...context,
      deviceScaleFactor: scale,
      locale: 'en-GB',
      timezoneId: 'UTC',
      reducedMotion: 'reduce',
    })
    try {
      await beenHere(opened)
      const page = await opened.newPage()
      await page.clock.setFixedTime('2026-01-05T10:00:00Z')
      await page.goto(url)
      await page.locator('[role=grid][aria-busy=false]').waitFor()
      await prepare?.(page)
      await page.mouse.move(1, 1)
      await page.evaluate(() => document.fonts.ready.then(() => undefined))
      const sheet = stageOnly ? await page.getByRole('grid').boundingBox() : null
      const png = await page.screenshot({
        animations: 'disabled',
        ...(sheet && { clip: { x: 0, y: 0, width: Math.floor(sheet.x), height: context.viewport.height } }),
      })
      if (png.length > MOST_BYTES && scale !== SCALES.at(-1)) continue
      writeFileSync(join(FOLDER, `${name}.png`), png)
      return `${name}.png: ${Math.round(png.length / 1000)} kB, ${scale} dots to a pixel of the page`
    } finally {
      await opened.close()
    }
  }
  throw new Error('there is no scale to take it at')
}

const outDir = mkdtempSync(join(tmpdir(), 'weighbridge-pictures-'))
await buildPage(outDir)
const server = await servePage(outDir)
const browser = await launch()
try {
  mkdirSync(FOLDER, { recursive: true })
  for (const picture of pictures) console.log(await take(browser, urlOf(server), picture))
} finally {
  await browser.close()
  await server.close()
  rmSync(outDir, { recursive: true, force: true })
}
