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
import { optionStrips } from './option-strips'

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
  /** Shows the page being read alone. */
  readonly pageOnly?: boolean
}

const desk = { viewport: { width: 1280, height: 720 } }
const pictures: readonly Picture[] = [
  { name: 'weigh', context: desk },
  { name: 'lean', context: desk, prepare: findTheLean, stageOnly: true },
  { name: 'shift', context: desk, prepare: planAShift, stageOnly: true },
  { name: 'notes', context: { ...desk, colorScheme: 'dark' }, prepare: readTheFirstTry, stageOnly: true },
  { name: 'reads', context: desk, prepare: openReadsAs, pageOnly: true },
  { name: 'phone', context: { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true } },
  { name: 'sheet', context: { viewport: PAPER, bypassCSP: true }, prepare: layOutOnPaper },
]

async function findTheLean(page: Page): Promise<void> {
  await page.getByRole('button', { name: /find the lean/i }).click()
  await page.getByRole('list', { name: /leans/i }).getByRole('listitem').first().waitFor()
}

async function planAShift(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Shift', exact: true }).click()
  await page.getByRole('button', { name: 'Plan it' }).click()
  await page
    .getByRole('button', { name: /^Use it/ })
    .first()
    .waitFor()
}

async function readTheFirstTry(page: Page): Promise<void> {
  // Without the picker a file comes by an input.
  await page.evaluate(() => Reflect.deleteProperty(window, 'showOpenFilePicker'))
  const choosing = page.waitForEvent('filechooser')
  await page.keyboard.press('Control+O')
  await (await choosing).setFiles(fileURLToPath(new URL('../../static/capstone-bad.json', import.meta.url)))
  await page.getByRole('heading', { level: 1, name: /first try/ }).waitFor()
  await page.getByRole('button', { name: 'Notes', exact: true }).click()
  await page
    .getByText(/to fix/)
    .first()
    .waitFor()
  await page.locator('[role=grid][aria-busy=false]').waitFor()
}

async function openReadsAs(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Reads as', exact: true }).click()
  await page
    .getByText(/Reads as a body/)
    .first()
    .waitFor()
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
  const { name, context, prepare, stageOnly, pageOnly } = picture
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
      const grid = stageOnly ? await page.getByRole('grid').boundingBox() : null
      const read = pageOnly ? await page.getByRole('region', { name: 'Pages' }).boundingBox() : null
      const clip = grid ? { x: 0, y: 0, width: Math.floor(grid.x), height: context.viewport.height } : read
      const png = await page.screenshot({ animations: 'disabled', ...(clip && { clip }) })
      if (png.length > MOST_BYTES && scale !== SCALES.at(-1)) continue
      writeFileSync(join(FOLDER, `${name}.png`), png)
      return `${name}.png: ${Math.round(png.length / 1000)} kB, ${scale} dots to a pixel of the page`
    } finally {
      await opened.close()
    }
  }
  throw new Error('there is no scale to take it at')
}

/** Frames of the demo that tell it: press, weight over, travel, down, the stone. */
const TELLING = [1010, 1034, 1064, 1086, 1147]

/** The front view of the real page at some frames of the demo, side by side. */
async function takeStrip(browser: Browser, url: string): Promise<string> {
  const context = await browser.newContext({
    ...desk,
    locale: 'en-GB',
    timezoneId: 'UTC',
    reducedMotion: 'reduce',
  })
  try {
    await beenHere(context)
    const page = await context.newPage()
    await page.goto(url)
    await page.locator('[role=grid][aria-busy=false]').waitFor()
    await page.evaluate(() => document.fonts.ready.then(() => undefined))
    const shots: string[] = []
    let at = 1001
    await page.locator('[role=row].current .frame').click()
    for (const frame of TELLING) {
      for (; at < frame; at++) await page.keyboard.press('ArrowDown')
      await page.mouse.move(1, 1)
      await page.waitForTimeout(400)
      const png = await page.screenshot({ clip: { x: 12, y: 46, width: 420, height: 348 } })
      shots.push(`<img src="data:image/png;base64,${png.toString('base64')}" width="240">`)
    }
    const sheet = await context.newPage()
    await sheet.setViewportSize({ width: 240 * shots.length, height: 199 })
    await sheet.setContent(`<body style="margin:0;display:flex">${shots.join('')}`)
    await sheet.waitForTimeout(200)
    return save('strip', await sheet.screenshot())
  } finally {
    await context.close()
  }
}

/** The planner's first ways for three moves, drawn by the same painter. */
async function takeOptions(browser: Browser): Promise<string> {
  const { svg, width, height } = optionStrips()
  const page = await browser.newPage({ viewport: { width, height }, deviceScaleFactor: 1.5 })
  try {
    await page.setContent(`<body style="margin:0">${svg}`)
    return save('options', await page.screenshot())
  } finally {
    await page.close()
  }
}

function save(name: string, png: Buffer): string {
  writeFileSync(join(FOLDER, `${name}.png`), png)
  return `${name}.png: ${Math.round(png.length / 1000)} kB`
}

const outDir = mkdtempSync(join(tmpdir(), 'weighbridge-pictures-'))
await buildPage(outDir)
const server = await servePage(outDir)
const browser = await launch()
try {
  mkdirSync(FOLDER, { recursive: true })
  // Some of them alone: npm run pictures -- shift notes
  const wanted = (name: string) => process.argv.length < 3 || process.argv.includes(name)
  for (const picture of pictures)
    if (wanted(picture.name)) console.log(await take(browser, urlOf(server), picture))
  if (wanted('strip')) console.log(await takeStrip(browser, urlOf(server)))
  if (wanted('options')) console.log(await takeOptions(browser))
} finally {
  await browser.close()
  await server.close()
  rmSync(outDir, { recursive: true, force: true })
}
