/**
 * `npm run bench:screen`: builds the page and measures it in a browser: what is loaded, how soon it draws, drags and
 * scrolls. Exits with 1 where a goal is missed.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { cpus, loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import type { Browser } from 'playwright'
import { build, preview } from 'vite'
import { beenHere } from '../support/been-here'
import { launch } from '../support/browser'
import { benchDrag } from './drag'
import { benchInteractions } from './interactions'
import { benchScreen } from './start-and-scroll'

/** A screen of 60 Hz shows a frame every 16.7 ms; its clock jitters by some tenths. */
const FRAME = 17

const outDir = mkdtempSync(join(tmpdir(), 'weighbridge-bench-'))
process.env.NODE_ENV = 'production'
await build({ configFile: 'vite.config.ts', logLevel: 'warn', build: { outDir } })
const place = { port: 0, host: '127.0.0.1' }
const server = await preview({
  configFile: 'vite.config.ts',
  logLevel: 'warn',
  build: { outDir },
  preview: place,
})
const chromium = await launch()
/** What is run in the page was compiled to keep its functions' names, by a helper that a page does not have. */
const browser = {
  newContext: async (options) => {
    const context = await chromium.newContext(options)
    await context.addInitScript('globalThis.__name = (one) => one')
    await beenHere(context)
    return context
  },
} as Pick<Browser, 'newContext'> as Browser
try {
  const url = server.resolvedUrls?.local[0] as string
  const { firstDrawing, weighed, scroll } = await benchScreen(browser, url)
  const drag = await benchDrag(browser, url)
  const interactions = await benchInteractions(browser, url)
  const rows: [string, number, string, number?][] = [
    ['start-up JavaScript', startUpBytes(outDir) / 1000, 'kB gzip', 150],
    ['first drawing', firstDrawing, 'ms', 1000],
    ['demo weighed', weighed, 'ms'],
    ['300 rows scrolled, p95 between frames', scroll.p95, 'ms', FRAME],
    ['drag to read-outs, p95 of the script', drag.script.p95, 'ms', 16],
    ['drag to read-outs, p95 until painted', drag.shown.p95, 'ms'],
    [`${interactions.count} interactions to next paint, p95`, interactions.p95, 'ms', 100],
    ['the slowest of them', interactions.slowest, 'ms'],
  ]
  const load = loadavg()[0]?.toFixed(1)
  console.log(
    `${cpus()[0]?.model ?? 'unknown processor'} × ${cpus().length}, load ${load}; the demo at 1280 × 720\n`,
  )
  for (const [name, value, unit, goal] of rows) {
    const verdict = goal === undefined ? '' : value <= goal ? `goal ${goal}: met` : `goal ${goal}: MISSED`
    if (verdict.endsWith('MISSED')) process.exitCode = 1
    console.log(`${name.padEnd(40)}${value.toFixed(1).padStart(8)} ${unit.padEnd(8)} ${verdict}`)
  }
} finally {
  await chromium.close()
  await server.close()
  rmSync(outDir, { recursive: true, force: true })
}

/** The page's own script, which the document names; the calculation thread loads beside it. */
function startUpBytes(folder: string): number {
  const page = readFileSync(join(folder, 'index.html'), 'utf8')
  return readdirSync(join(folder, 'assets'))
    .filter((name) => name.endsWith('.js') && page.includes(name))
    .reduce((sum, name) => sum + gzipSync(readFileSync(join(folder, 'assets', name))).length, 0)
}
