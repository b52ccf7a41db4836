import type { Page } from 'playwright'
import { expect, inject } from 'vitest'
import { axeFaults } from '../support/axe'
import { test } from '../support/page-test'

async function open(page: Page): Promise<void> {
  await page.goto(inject('pageUrl'))
  await weighed(page)
}
const weighed = (page: Page) => page.locator('[role=grid][aria-busy=false]').waitFor()
const outcome = (page: Page) => page.getByRole('region', { name: 'What came of the trial' })
const stop = (page: Page) => page.getByRole('button', { name: 'Stop the trial' })
/** As it reads, with plain spaces. */
const said = async (page: Page) => (await outcome(page).innerText()).replace(/\s+/g, ' ')

async function pick(page: Page, frame: number): Promise<void> {
  const row = page.getByRole('row').filter({ hasText: String(frame) })
  if ((await row.count()) === 0)
    await page.getByRole('grid').evaluate((grid, y) => grid.scrollTo(0, y), 20 * (frame - 1010))
  await row.locator('.frame').first().click()
}

test('at the first key he tips to his left, and it is said how soon', async ({ page, complaints }) => {
  await open(page)
  await page.getByRole('button', { name: 'Try the lift' }).click()
  await stop(page).waitFor()
  expect(await said(page)).toMatch(/^He tips to his left\. Past 5° in 0\.\d\d s, \d+½? frames\./)
  // It plays once and fades.
  await stop(page).waitFor({ state: 'detached' })
  expect(await said(page)).toMatch(/^He tips to his left\./)
  expect(complaints).toEqual([])
})

test('at the leaned key he holds', async ({ page }) => {
  await open(page)
  await pick(page, 1032)
  await page.keyboard.press('l')
  await stop(page).waitFor()
  expect(await said(page)).toMatch(/^He holds\. \d+ cm of room before he would tip/)
})

test('Escape stops it; so does an edit, which takes the words away too', async ({ page }) => {
  // Where nothing may move it does not end by itself.
  await page.emulateMedia({ reducedMotion: 'reduce' })
  await open(page)
  await page.keyboard.press('l')
  await stop(page).waitFor()
  await page.keyboard.press('Escape')
  await stop(page).waitFor({ state: 'detached' })
  expect(await said(page)).toMatch(/^He tips/)
  await page.keyboard.press('l')
  await stop(page).waitFor()
  await page.getByLabel('the toes may stay').click()
  await stop(page).waitFor({ state: 'detached' })
  expect(await outcome(page).count()).toBe(0)
})

test('the physics engine is no part of the start: it is fetched once, beside the page', async ({
  page,
  context,
}) => {
  // What the service worker keeps for offline is no part of the start.
  await context.addInitScript(() => Reflect.deleteProperty(Navigator.prototype, 'serviceWorker'))
  const engines: string[] = []
  context.on('response', async (response) => {
    if (!response.url().endsWith('.js')) return
    const text = await response.text().catch(() => '')
    if (text.includes('positionImpulse')) engines.push(response.url())
  })
  await open(page)
  await expect.poll(() => engines.length).toBe(1)
  const named = await page
    .locator('head [src], head [href]')
    .evaluateAll((nodes) => nodes.map((node) => node.getAttribute('src') ?? node.getAttribute('href') ?? ''))
  expect(named.length).toBeGreaterThan(0)
  for (const name of named) expect(engines[0]).not.toContain(name.replace(/^\.\//, ''))
  await page.keyboard.press('l')
  await stop(page).waitFor()
  expect(engines.length).toBe(1)
})

test('where nothing may move, the tipped pose stands still until it is put away', async ({ page }) => {
  await page.emulateMedia({ reducedMotion: 'reduce' })
  await open(page)
  await page.keyboard.press('l')
  await stop(page).waitFor()
  const canvas = page.locator('canvas.trial')
  const first = await canvas.screenshot()
  await page.waitForTimeout(700)
  expect(first.equals(await canvas.screenshot())).toBe(true)
  await stop(page).click()
  expect(await canvas.count()).toBe(0)
})

test('a figure says how it is worked out, by keyboard too, and Escape closes it', async ({ page }) => {
  await open(page)
  const share = page.locator('.sentences .figure').first()
  await share.focus()
  await page.keyboard.press('Enter')
  const card = page.getByRole('dialog', { name: /What his left leg carries/ })
  await card.waitFor()
  expect(await card.innerText()).toContain('s = (k₁ + k₂) ÷ m')
  expect(await axeFaults(page, '[role=dialog]')).toEqual([])
  await page.keyboard.press('Escape')
  await card.waitFor({ state: 'detached' })
  expect(await share.evaluate((node) => node === document.activeElement)).toBe(true)
})

test('axe finds nothing while a trial stands on the stage', async ({ page }) => {
  await page.emulateMedia({ reducedMotion: 'reduce' })
  await open(page)
  await page.keyboard.press('l')
  await stop(page).waitFor()
  expect(await axeFaults(page, 'main')).toEqual([])
})
