import { parse } from 'csv-parse/sync'
import type { Page } from 'playwright'
import { describe, expect, inject } from 'vitest'
import { fetchedAll } from '../support/fetched'
import { test } from '../support/page-test'

/** Opens the built page and waits until the take is weighed. */
async function open(page: Page): Promise<void> {
  // Without the pickers files come and go by an input and a download, which a test can see.
  await page.addInitScript(() => {
    for (const name of ['showOpenFilePicker', 'showSaveFilePicker']) Reflect.deleteProperty(window, name)
  })
  await page.goto(inject('pageUrl'))
  await weighed(page)
}

const weighed = (page: Page) => page.locator('[role=grid][aria-busy=false]').waitFor()
const heading = (page: Page) => page.getByRole('heading', { level: 1 }).innerText()

async function choose(page: Page, menu: string, item: RegExp): Promise<void> {
  await page.getByRole('button', { name: menu, exact: true }).click()
  await page.getByRole('menuitem', { name: item }).click()
}

test('the demo is open and weighed, and the left leg is said to be pinned', async ({ page, complaints }) => {
  await open(page)
  expect(await heading(page)).toBe('Capstone')
  await page.getByText('His left leg is pinned here.').first().waitFor()
  const row = page.locator('[role=row][aria-rowindex="2"]')
  expect(await row.innerText()).toContain('1001')
  expect(complaints).toEqual([])
})

test('after loading, nothing is asked of any network', async ({ page, context, requests, complaints }) => {
  await open(page)
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
  await fetchedAll(page)
  const before = requests.length
  await context.setOffline(true)
  await page.keyboard.press('p')
  await page.waitForTimeout(300)
  await page.keyboard.press('p')
  await choose(page, 'Plan', /New plan/)
  await weighed(page)
  await choose(page, 'Plan', /Open the demo/)
  await weighed(page)
  await page.keyboard.press('?')
  await page.keyboard.press('Escape')
  const asked = requests.slice(before).filter((url) => !/^(blob|data):/.test(url))
  expect(asked).toEqual([])
  expect(complaints).toEqual([])
})

describe.each([
  [1280, 720],
  [1920, 1080],
  [390, 844],
  [640, 360],
])('at %i × %i', (width, height) => {
  test('the page does not scroll sideways, and no text is smaller than 13 px', async ({ page }) => {
    await page.setViewportSize({ width, height })
    await open(page)
    const found = await page.evaluate(() => {
      const small: string[] = []
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const element = node.parentElement
        if (!element || !node.textContent?.trim() || !element.checkVisibility()) continue
        if (Number.parseFloat(getComputedStyle(element).fontSize) < 13) small.push(node.textContent)
      }
      return { small, across: document.documentElement.scrollWidth - innerWidth }
    })
    expect(found).toEqual({ small: [], across: 0 })
  })
})

test('a bad file is told fault by fault, and the plan that was open stays as it was', async ({ page }) => {
  await open(page)
  const chooser = page.waitForEvent('filechooser')
  await page.keyboard.press('Control+o')
  await (await chooser).setFiles({
    name: 'broken.json',
    mimeType: 'application/json',
    buffer: Buffer.from('{"format":"weighbridge-plan","version":1,"title":7}'),
  })
  const dialog = page.getByRole('dialog', { name: /broken\.json can’t be opened/ })
  await dialog.waitFor()
  const words = await dialog.innerText()
  expect(words).toContain('wrong-type')
  expect(words).toContain('/title')
  expect(words).toContain('missing-field')
  await page.keyboard.press('Escape')
  expect(await heading(page)).toBe('Capstone')
})

test('a plan goes to a file and comes back by dropping it, as a plan of its own', async ({ page }) => {
  await open(page)
  const download = page.waitForEvent('download')
  await page.keyboard.press('Control+s')
  const file = await download
  const text = await (await file.createReadStream())
    .toArray()
    .then((parts) => Buffer.concat(parts).toString())
  const renamed = text.replace('"title": "Capstone"', '"title": "Carried in"')
  await page.evaluate((content) => {
    const carried = new DataTransfer()
    carried.items.add(new File([content], 'carried.json', { type: 'application/json' }))
    for (const type of ['dragover', 'drop'])
      document.body.dispatchEvent(
        new DragEvent(type, { dataTransfer: carried, bubbles: true, cancelable: true }),
      )
  }, renamed)
  await page.getByRole('heading', { level: 1, name: 'Carried in' }).waitFor()
  await choose(page, 'Plan', /Shelf/)
  await page.getByRole('dialog', { name: 'Shelf of plans' }).getByText('Carried in').waitFor()
})

test('the sheet as CSV has every frame, and the numbers of the sheet', async ({ page }) => {
  await open(page)
  const download = page.waitForEvent('download')
  await choose(page, 'Plan', /CSV/)
  const file = await download
  expect(file.suggestedFilename()).toMatch(/\.csv$/)
  const text = await (await file.createReadStream())
    .toArray()
    .then((parts) => Buffer.concat(parts).toString())
  const records: Record<string, string>[] = parse(text, { columns: true, record_delimiter: '\r\n' })
  expect(records.length).toBe(Number(await page.getByRole('grid').getAttribute('aria-rowcount')) - 1)
  const first = records[0] as Record<string, string>
  expect(first.frame).toBe('1001')
  const share = Object.entries(first).find(([name]) => name.startsWith('leg L weight'))?.[1]
  const cells = await page.locator('[role=row][aria-rowindex="2"] [role=gridcell]').allInnerTexts()
  expect(cells).toContain(String(Math.round(Number(share))))
})

test('printed, the sheet alone is there: key poses with pictures, then every frame', async ({ page }) => {
  await open(page)
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')))
  await page.emulateMedia({ media: 'print' })
  const seen = await page.evaluate(() => {
    const view = document.querySelector('.print-view')
    return {
      pictures: view?.querySelectorAll('svg[role=img]').length,
      rest: [...document.body.children].filter((one) => one !== view && one.checkVisibility()).length,
      words: (view as HTMLElement | null)?.innerText,
    }
  })
  expect(seen.pictures).toBeGreaterThanOrEqual(5)
  expect(seen.rest).toBe(0)
  expect(seen.words).toContain('Capstone')
  expect(seen.words).toContain('1001')
  const pages = (await page.pdf()).toString('latin1').match(/\/Type\s*\/Page[^s]/g)
  expect(pages?.length).toBeGreaterThanOrEqual(2)
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')))
  expect(await page.locator('.print-view').count()).toBe(0)
})

test('everything in the bar is reached and used by the keyboard alone', async ({ page }) => {
  await open(page)
  await page.keyboard.press('Tab')
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('To the timing sheet')
  await page.keyboard.press('Enter')
  await page.getByRole('button', { name: 'Plan', exact: true }).focus()
  await page.keyboard.press('Enter')
  await page.locator('[role=menuitem]:focus').waitFor()
  await page.keyboard.press('ArrowDown')
  expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('Shelf')
  await page.keyboard.press('Enter')
  await page.getByRole('dialog', { name: 'Shelf of plans' }).waitFor()
  await page.keyboard.press('Escape')
  expect(await page.getByRole('dialog').count()).toBe(0)
})
