import type { Browser, Page } from 'puppeteer-core'
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest'
import { findFirefox, launchFirefox } from '../support/firefox'

const path = findFirefox()
if (path === undefined)
  console.warn('Skipped: no Firefox here, and none can be installed. Name one with FIREFOX_PATH.')

describe.skipIf(path === undefined)('in Firefox', () => {
  let browser: Browser
  beforeAll(async () => {
    browser = await launchFirefox(path as string)
  })
  afterAll(() => browser?.close())

  test('the main path: weighed, leaned, tried, planned, undone, kept and opened again', async () => {
    const page = await browser.newPage()
    const complaints: string[] = []
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text())
    })
    page.on('pageerror', (error) => complaints.push(String(error)))
    await page.setViewport({ width: 1280, height: 720 })
    await page.goto(inject('pageUrl'))
    // The doors of a first start; the second lets one in where the demo stands.
    await page.locator('::-p-text(shot to review)').click()
    await weighed(page)
    await said(page, 'His left leg is pinned here.')

    // A key pose is changed by keyboard: the pelvis is taken hold of and moved.
    await page.focus('[data-grip=pelvis]')
    await page.keyboard.press('Enter')
    for (let i = 0; i < 8; i++) await page.keyboard.press('ArrowLeft')
    await page.keyboard.press('Enter')
    await weighed(page)
    await said(page, 'Kept here at')

    const pinned = await page.$eval('[role=row].current', ({ textContent }) => textContent)

    await page.keyboard.press('l')
    await page.waitForSelector('[aria-label="What came of the trial"]')
    await page.keyboard.press('Escape')

    await undo(page)
    await weighed(page)
    expect(await page.$eval('[role=row].current', ({ textContent }) => textContent)).not.toBe(pinned)

    const length = () => page.$eval('[role=grid]', (grid) => grid.getAttribute('aria-rowcount'))
    const before = await length()
    // The way over is planned, taken up, and taken back.
    await page.locator('::-p-aria([name="Shift"][role="button"])').click()
    await page.locator('::-p-aria([name="Plan it"][role="button"])').click()
    await said(page, 'each weighed frame by frame')
    await page.locator('::-p-text(Use it)').click()
    await weighed(page)
    expect(await length()).not.toBe(before)
    await undo(page)
    await weighed(page)
    expect(await length()).toBe(before)
    await said(page, 'Kept here at')

    await page.reload()
    await weighed(page)
    expect(await page.$eval('h1', ({ textContent }) => textContent)).toBe('Capstone')
    expect(complaints).toEqual([])
    await page.close()
  })
})

const weighed = (page: Page) => page.waitForSelector('[role=grid][aria-busy=false]')
const said = (page: Page, words: string) =>
  page.waitForFunction((text) => document.body.innerText.includes(text), {}, words)

async function undo(page: Page): Promise<void> {
  await page.keyboard.down('Control')
  await page.keyboard.press('z')
  await page.keyboard.up('Control')
}
