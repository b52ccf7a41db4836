import type { Locator, Page } from 'playwright'
import { expect, inject } from 'vitest'
import { beenHere } from '../support/been-here'
import { test } from '../support/page-test'

async function open(page: Page): Promise<Locator> {
  await page.goto(inject('pageUrl'))
  const grid = page.locator('[role=grid][aria-busy=false]')
  await grid.waitFor()
  return grid
}

/** The row of a frame by the number it carries. */
const rowOf = (page: Page, label: number) => page.locator(`[role=row][aria-rowindex="${label - 999}"]`)
const middle = async (locator: Locator) => {
  const box = await locator.boundingBox()
  if (box === null) throw new Error('it is not on the screen')
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 }
}
const mark = (page: Page, label: number) => rowOf(page, label).locator('.mark').innerText()

async function drag(page: Page, from: { x: number; y: number }, to: { x: number; y: number }): Promise<void> {
  await page.mouse.move(from.x, from.y)
  await page.mouse.down()
  await page.mouse.move(from.x, (from.y + to.y) / 2, { steps: 3 })
  await page.mouse.move(to.x, to.y, { steps: 3 })
  await page.mouse.up()
}

test('a K is dragged to another row as one step of undo', async ({ page }) => {
  await open(page)
  expect(await mark(page, 1010)).toBe('K')
  await drag(
    page,
    await middle(rowOf(page, 1010).locator('[data-handle=key]')),
    await middle(rowOf(page, 1014)),
  )
  expect(await mark(page, 1014)).toBe('K')
  expect(await mark(page, 1010)).not.toBe('K')
  await page.keyboard.press('Control+z')
  expect(await mark(page, 1010)).toBe('K')
})

test('Escape during a drag goes back to its start', async ({ page }) => {
  await open(page)
  const from = await middle(rowOf(page, 1010).locator('[data-handle=key]'))
  const to = await middle(rowOf(page, 1014))
  await page.mouse.move(from.x, from.y)
  await page.mouse.down()
  await page.mouse.move(to.x, to.y, { steps: 4 })
  expect(await mark(page, 1014)).toBe('K')
  await page.keyboard.press('Escape')
  expect(await mark(page, 1010)).toBe('K')
  await page.mouse.up()
  expect(await mark(page, 1010)).toBe('K')
})

test('the end of a limb’s line is dragged: the leg lifts later', async ({ page }) => {
  const grid = await open(page)
  await grid.focus()
  const grip = page.locator('[data-handle=span][data-edge=to][data-limb=legL]').first()
  const rowIndex = () => grip.locator('xpath=ancestor::*[@role="row"]').getAttribute('aria-rowindex')
  // Only rows in sight are there: down until the line's end is one of them.
  while ((await grip.count()) === 0) await page.keyboard.press('ArrowDown')
  const row = Number(await rowIndex())
  const label = row + 999
  // Down past it, so that it comes into sight.
  while ((await page.locator('[role=row].current').getAttribute('aria-rowindex')) !== String(row + 5))
    await page.keyboard.press('ArrowDown')
  await drag(page, await middle(grip), await middle(rowOf(page, label + 2)))
  expect(await rowIndex()).toBe(String(row + 2))
})

test('picking a row moves the stage to it', async ({ page }) => {
  await open(page)
  await rowOf(page, 1012).locator('.frame').click()
  expect(await rowOf(page, 1012).getAttribute('class')).toContain('current')
  await page.getByText('Front 1012', { exact: false }).or(page.getByText('1012').first()).first().waitFor()
})

test('a long take scrolls through a window of rows', async ({ page }) => {
  const grid = await open(page)
  await page.getByRole('button', { name: /fps/ }).click()
  await page.getByLabel('Frames', { exact: true }).fill('300')
  await page.keyboard.press('Tab')
  await page.keyboard.press('Escape')
  await page.locator('[role=grid][aria-busy=false][aria-rowcount="301"]').waitFor()
  expect(await page.getByRole('row').count()).toBeLessThan(60)
  await grid.evaluate((element) => {
    element.scrollTop = element.scrollHeight
  })
  await rowOf(page, 1300).waitFor()
  expect(await page.getByRole('row').count()).toBeLessThan(60)
})

test('playing shows later frames, at the rate of the plan', async ({ page }) => {
  await open(page)
  await page.getByRole('button', { name: 'Play' }).click()
  // A slow machine skips frames, so that no single one is sure to be seen.
  await page.waitForFunction(
    () => Number(document.querySelector('.row.current')?.getAttribute('aria-rowindex')) > 12,
  )
  await page.getByRole('button', { name: 'Pause' }).click()
  const now = await page.locator('[role=row].current').getAttribute('aria-rowindex')
  await page.waitForTimeout(200)
  expect(await page.locator('[role=row].current').getAttribute('aria-rowindex')).toBe(now)
})

test('on a phone a tap picks a row, and a key is moved without dragging', async ({ browser }) => {
  const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }
  const context = await browser.newContext(phone)
  await beenHere(context)
  const page = await context.newPage()
  await open(page)
  const row = rowOf(page, 1010)
  expect((await row.boundingBox())?.height).toBeGreaterThanOrEqual(24)
  await row.locator('.frame').tap()
  expect(await row.getAttribute('class')).toContain('current')
  await page.getByRole('button', { name: 'Frame', exact: true }).tap()
  await page.getByLabel('Key at').fill('1013')
  await page.getByLabel('Key at').blur()
  await page.getByRole('button', { name: 'Close' }).tap()
  expect([await mark(page, 1013), await mark(page, 1010)]).toEqual(['K', '–'])
  await context.close()
})
