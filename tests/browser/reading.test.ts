import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright'
import { expect, inject } from 'vitest'
import { axeFaults } from '../support/axe'
import { test } from '../support/page-test'

const BAD = readFileSync(join(import.meta.dirname, '../../static/capstone-bad.json'), 'utf8')

const pages = (page: Page) => page.getByRole('region', { name: 'Pages' })
const word = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Page', exact: true }).getByRole('button', { name, exact: true })
const list = (page: Page) => page.getByRole('list', { name: 'Notes on weight' })
const line = (page: Page) => pages(page).getByRole('status').first()

/** The page with a plan file dropped on it. */
async function dropped(page: Page, text: string): Promise<void> {
  await page.goto(inject('pageUrl'))
  await page.locator('[role=grid][aria-busy=false]').waitFor()
  await page.evaluate((json) => {
    const dataTransfer = new DataTransfer()
    dataTransfer.items.add(new File([json], 'first-try.json', { type: 'application/json' }))
    const on = document.querySelector('.screen')
    for (const kind of ['dragenter', 'dragover', 'drop'])
      on?.dispatchEvent(new DragEvent(kind, { dataTransfer, bubbles: true, cancelable: true }))
  }, text)
  await page.getByText('Capstone, first try').waitFor()
}

test('a bad take is read, every remedy that breaks the weight pressed, until nothing does; all of it undone', async ({
  page,
  complaints,
}) => {
  await dropped(page, BAD)
  await word(page, 'Notes').click()
  await expect.poll(() => line(page).innerText()).toMatch(/^\d to fix, first at 103\d: left leg leaves/)
  let presses = 0
  for (; presses < 10 && (await list(page).getByText('breaks the weight').count()) > 0; presses++) {
    const note = list(page).getByRole('article').filter({ hasText: 'breaks the weight' }).first()
    const jump = note.getByRole('button').first()
    if ((await jump.getAttribute('aria-expanded')) === 'false') await jump.click()
    const before = await list(page).innerText()
    await note.getByRole('button', { name: 'Do it' }).click()
    await expect.poll(() => list(page).innerText()).not.toBe(before)
    await page.locator('ol[aria-label="Notes on weight"][aria-busy=false]').waitFor()
  }
  expect(presses).toBeGreaterThan(0)
  expect(await line(page).innerText()).toMatch(/^Nothing breaks the weight/)
  for (let i = 0; i < presses; i++) await page.getByRole('button', { name: 'Undo' }).click()
  await expect.poll(() => line(page).innerText()).toMatch(/^\d to fix, first at 103\d/)
  expect(complaints).toEqual([])
})

test('with keys alone: a note gone to, set aside and brought back; its number stands on the sheet and is printed', async ({
  page,
}) => {
  await page.addInitScript(() => {
    Object.assign(window, {
      print: () => Object.assign(window, { printed: document.querySelector('.print-notes')?.textContent }),
    })
  })
  await dropped(page, BAD)
  await word(page, 'Notes').focus()
  await page.keyboard.press('Enter')
  await list(page).getByRole('article').first().waitFor()
  await list(page).getByRole('button').first().focus()
  await page.keyboard.press('Enter')
  await page.locator('[role=row].current').getByText('*').waitFor()
  expect(await page.locator('[role=row].current').innerText()).toContain('*')
  await page.keyboard.press('Control+p')
  const dialog = page.getByRole('dialog')
  await dialog.getByText(/Notes on weight: \d+, behind/).waitFor()
  await dialog.getByRole('button', { name: 'Print on A4' }).click()
  const printed = await page.evaluate(() => (window as unknown as { printed: string }).printed)
  expect(printed).toMatch(/^Notes on weight\d to fix, first at 103\d.*breaks the weight:/)
  await list(page).getByRole('button', { name: 'Set aside …' }).focus()
  await page.keyboard.press('Enter')
  await page.keyboard.type('He is thrown here.')
  await page.keyboard.press('Enter')
  await page.getByText('Set aside: 1').focus()
  await page.keyboard.press('Enter')
  await page.getByText('Set aside: He is thrown here.').waitFor()
  await page.keyboard.press('Tab')
  await page.keyboard.press('Enter')
  await page.getByText('Set aside: 1').waitFor({ state: 'detached' })
})

test('the student: in by the door, what it reads as, and retimed to read larger, in three actions', async ({
  browser,
}) => {
  // Nobody has been here: the doors stand before the pages.
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 } })
  await page.goto(inject('pageUrl'))
  await page.locator('[role=grid][aria-busy=false]').waitFor()
  await page.getByRole('button', { name: /^How heavy does this read\?/ }).click()
  const said = pages(page).getByText(/^Reads as a body of/)
  await said.waitFor()
  const before = await said.innerText()
  const box = await said.boundingBox()
  expect((box?.y ?? 999) + (box?.height ?? 0)).toBeLessThan(720)
  await page.getByRole('slider', { name: 'Size it should read as' }).press('PageUp')
  await page.getByRole('button', { name: /^Retime to read as/ }).click()
  await expect.poll(() => said.innerText()).not.toBe(before)
  await page.close()
})

for (const [name, width, height] of [
  ['a desk', 1280, 720],
  ['a telephone', 390, 844],
] as const)
  test(`on ${name} both pages stand up to axe, and nothing is wider than the screen`, async ({ page }) => {
    await page.setViewportSize({ width, height })
    await dropped(page, BAD)
    const check = async () => {
      expect(await axeFaults(page, '.pages')).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
    }
    await word(page, 'Notes').click()
    await list(page).getByRole('button').first().click()
    await pages(page).getByText('Accents').click()
    await check()
    await word(page, 'Reads as').click()
    await pages(page)
      .getByText(/^Reads as nobody/)
      .waitFor()
    await check()
    for (const panel of ['Side by side', 'Loads', 'Act it out']) {
      await page.getByRole('navigation', { name: 'Reads as' }).getByRole('button', { name: panel }).click()
      await check()
    }
  })
