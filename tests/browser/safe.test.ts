import { readFileSync } from 'node:fs'
import type { Page } from 'playwright'
import { describe, expect, inject } from 'vitest'
import { readPlan } from '../../src/plan/read'
import { kills } from '../soak/kills'
import { memoryOver, memoryWords } from '../soak/memory'
import { PNG } from '../soak/pictures'
import { test } from '../support/page-test'

const weighed = (page: Page) => page.locator('[role=grid][aria-busy=false]').waitFor()

async function rename(page: Page, title: string): Promise<void> {
  await page.getByRole('heading', { level: 1 }).getByRole('button').click()
  await page.getByLabel('Title', { exact: true }).fill(title)
  await page.keyboard.press('Tab')
  await page.keyboard.press('Escape')
}

/** What a test sets from outside. */
interface Storage {
  wrong: 'QuotaExceededError' | 'UnknownError' | null
}

/** Lets the browser's storage go wrong when it is told to: `storage.wrong` names the error of every write. */
const breakable = (page: Page) =>
  page.addInitScript(() => {
    const storage: Storage = { wrong: null }
    Object.assign(window, { storage })
    const put = IDBObjectStore.prototype.put
    IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...args) {
      if (storage.wrong !== null) throw new DOMException('no', storage.wrong)
      return put.apply(this, args)
    }
    for (const name of ['showOpenFilePicker', 'showSaveFilePicker']) Reflect.deleteProperty(window, name)
  })
const goWrong = (page: Page, wrong: Storage['wrong']) =>
  page.evaluate((name) => {
    ;(window as unknown as { storage: Storage }).storage.wrong = name
  }, wrong)

describe('where the browser can’t keep the plan', () => {
  test.for([
    ['full', 'QuotaExceededError', /no room left/],
    ['blocked', 'UnknownError', /keeps nothing for this page/],
  ] as const)(
    'storage %s: it says so, works on, offers the file, and keeps it again when it can',
    async ([, error, words], { page }) => {
      await breakable(page)
      await page.goto(inject('pageUrl'))
      await weighed(page)
      await rename(page, 'Kept')
      await page.getByText(/Kept here at/).waitFor()
      await goWrong(page, error)
      await rename(page, 'Not kept anywhere')
      const alarm = page.getByText('Not kept', { exact: true })
      await alarm.waitFor()
      expect(await alarm.getAttribute('data-hint')).toMatch(words)
      // What is on the desk goes into the file that is offered.
      const download = page.waitForEvent('download')
      await page.getByRole('banner').getByRole('button', { name: 'Save to a file' }).click()
      const read = readPlan(readFileSync(await (await download).path()))
      expect(read.ok && read.plan.title).toBe('Not kept anywhere')
      // Nor is it left without a word.
      await page.getByRole('button', { name: 'Plan', exact: true }).click()
      await page.getByRole('menuitem', { name: /New plan/ }).click()
      await page.getByRole('dialog', { name: 'The open plan is not kept' }).waitFor()
      await page.keyboard.press('Escape')
      await goWrong(page, null)
      await page.getByText(/Kept here at/).waitFor()
      await page.reload()
      await page.getByRole('heading', { level: 1, name: 'Not kept anywhere' }).waitFor()
    },
  )

  test('site data cleared under it: the plan as it stands is kept again, and that is said', async ({
    page,
  }) => {
    await page.goto(inject('pageUrl'))
    await weighed(page)
    await rename(page, 'Before')
    const kept = page.getByText(/Kept here at/)
    await kept.waitFor()
    await page.evaluate(
      () =>
        new Promise((resolve) => {
          const gone = indexedDB.deleteDatabase('weighbridge')
          gone.onsuccess = resolve
          gone.onerror = resolve
        }),
    )
    await rename(page, 'After')
    await expect.poll(() => kept.getAttribute('data-hint')).toMatch(/site data was cleared/)
    await page.reload()
    await page.getByRole('heading', { level: 1, name: 'After' }).waitFor()
  })
})

test('a picture that would fill the memory, or is none, is refused with the reason', async ({ page }) => {
  await page.goto(inject('pageUrl'))
  await weighed(page)
  const bomb = PNG.slice()
  new DataView(bomb.buffer).setUint32(16, 60_000)
  for (const [bytes, words] of [
    [bomb, /million pixels/],
    [new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg"/>'), /no PNG, JPEG/],
    [PNG, /damaged/],
  ] as const) {
    await page.evaluate(
      (content) => {
        const data = new DataTransfer()
        data.items.add(new File([new Uint8Array(content)], 'take3.png', { type: 'image/png' }))
        document.dispatchEvent(
          new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
        )
      },
      [...bytes],
    )
    await page.getByRole('alert').getByText(words).waitFor()
  }
})

test('killed at ten moments of random editing, what is opened again is whole and no older than what was kept', {
  timeout: 240_000,
}, async () => {
  const seed = Math.floor(1e6 * Math.random())
  console.info(`killed with seed ${seed}`)
  expect((await kills(inject('pageUrl'), 10, seed)).count).toBe(10)
})

test('a minute of work leaves the memory as it was', { timeout: 300_000 }, async ({ page }) => {
  await page.goto(inject('pageUrl'))
  await weighed(page)
  const memory = await memoryOver(page, 60)
  expect(memory.growth, memoryWords(memory)).toBeLessThanOrEqual(0.1)
})
