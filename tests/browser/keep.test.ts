import type { Page } from 'playwright'
import { expect, inject } from 'vitest'
import { test } from '../support/page-test'

const weighed = (page: Page) => page.locator('[role=grid][aria-busy=false]').waitFor()

async function rename(page: Page, title: string): Promise<void> {
  await page.getByRole('button', { name: 'Plan', exact: true }).click()
  await page.getByRole('menuitem', { name: /Title and scene/ }).click()
  await page.getByLabel('Title', { exact: true }).fill(title)
  await page.keyboard.press('Tab')
  await page.keyboard.press('Escape')
}

test('a change is kept by itself and is there after a reload; undo takes it back', async ({
  page,
  complaints,
}) => {
  await page.goto(inject('pageUrl'))
  await weighed(page)
  await page.getByText('Nothing to keep yet').waitFor()
  await rename(page, 'Lintel')
  await page.getByText(/Kept here at/).waitFor()
  await page.reload()
  await page.getByRole('heading', { level: 1, name: 'Lintel' }).waitFor()
  await rename(page, 'Sill')
  await page.keyboard.press('Control+z')
  await page.getByRole('heading', { level: 1, name: 'Lintel' }).waitFor()
  await page.keyboard.press('Control+Shift+z')
  await page.getByRole('heading', { level: 1, name: 'Sill' }).waitFor()
  expect(complaints).toEqual([])
})

test('what is changed in the last moment before leaving is kept', async ({ page }) => {
  await page.goto(inject('pageUrl'))
  await weighed(page)
  await rename(page, 'At the last moment')
  await page.evaluate(() => {
    Object.defineProperty(document, 'visibilityState', { configurable: true, value: 'hidden' })
    document.dispatchEvent(new Event('visibilitychange'))
  })
  await page.getByText(/Kept here at/).waitFor()
  await page.goto('about:blank')
  await page.goto(inject('pageUrl'))
  await page.getByRole('heading', { level: 1, name: 'At the last moment' }).waitFor()
})

test('a plan that is open in another tab is not written from this one, and says so', async ({
  page,
  context,
}) => {
  await page.goto(inject('pageUrl'))
  await weighed(page)
  await rename(page, 'Shared')
  await page.getByText(/Kept here at/).waitFor()
  const other = await context.newPage()
  await other.goto(inject('pageUrl'))
  await other.getByText('Open in another tab', { exact: true }).waitFor()
  await other.getByRole('button', { name: 'Plan', exact: true }).click()
  await other.getByRole('menuitem', { name: /Keep a copy/ }).click()
  await other.getByRole('heading', { level: 1, name: 'Shared, copy' }).waitFor()
  await other.getByText(/Kept here at/).waitFor()
})

test('with storage blocked the page says so and works on', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, 'indexedDB', { value: undefined })
    Object.defineProperty(window, 'localStorage', {
      get() {
        throw new DOMException('blocked', 'SecurityError')
      },
    })
  })
  await page.goto(inject('pageUrl'))
  await weighed(page)
  await rename(page, 'Nowhere kept')
  await page.getByText('Not kept', { exact: true }).waitFor()
  await page.getByRole('heading', { level: 1, name: 'Nowhere kept' }).waitFor()
})

test('view settings are kept apart from plans', async ({ page }) => {
  await page.goto(inject('pageUrl'))
  await weighed(page)
  await page.getByRole('button', { name: 'View', exact: true }).click()
  await page.getByRole('menuitem', { name: /Chalk on slate/ }).click()
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).colorScheme)).toBe('dark')
  await page.getByText('Nothing to keep yet').waitFor()
  await page.reload()
  await weighed(page)
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).colorScheme)).toBe('dark')
})
