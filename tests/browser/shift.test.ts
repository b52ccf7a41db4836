import type { Page } from 'playwright'
import { expect, inject } from 'vitest'
import { axeFaults } from '../support/axe'
import { test } from '../support/page-test'

async function open(page: Page): Promise<void> {
  await page.goto(inject('pageUrl'))
  await page.locator('[role=grid][aria-busy=false]').waitFor()
  await page.getByRole('button', { name: 'Shift', exact: true }).click()
}
const found = (page: Page) => page.getByText(/^\d ways from/).waitFor({ timeout: 60_000 })
const rows = (page: Page) => page.getByRole('grid').innerText()

test('on the demo: planned, used, played, and taken back', async ({ page, complaints }) => {
  await open(page)
  const before = await rows(page)
  await page.getByRole('button', { name: 'Plan it' }).click()
  await found(page)
  await page.getByRole('button', { name: /^Use it: The pelvis leads/ }).click()
  await page.locator('[role=grid][aria-busy=false]').waitFor()
  const grid = page.getByRole('grid')
  for (const phase of ['press', 'lean']) await grid.getByText(phase, { exact: true }).first().waitFor()
  expect(await rows(page)).not.toBe(before)
  const row = () => page.locator('[role=row].current').getAttribute('aria-rowindex')
  const start = await row()
  await page.getByRole('button', { name: 'Play it' }).click()
  await expect.poll(row).not.toBe(start)
  await page.getByRole('button', { name: 'Pause' }).first().click()
  await page.getByRole('button', { name: 'Undo' }).click()
  await page.getByText('24 fps, 167 frames').waitFor()
  await page.locator('[role=grid][aria-busy=false]').waitFor()
  await page.getByRole('grid').press('Control+Home')
  await expect.poll(() => rows(page)).toBe(before)
  expect(complaints).toEqual([])
})

test('by keyboard alone: planned, looked through, played as an outline, used, and on to the next', async ({
  page,
}) => {
  await open(page)
  const until = async (name: RegExp) => {
    for (let i = 0; i < 60; i++) {
      await page.keyboard.press('Tab')
      const label = await page.evaluate(() => {
        const { activeElement } = document
        return activeElement?.getAttribute('aria-label') ?? activeElement?.textContent?.trim() ?? ''
      })
      if (name.test(label)) return label
    }
    throw new Error(`no ${name} is reached`)
  }
  await until(/^Plan it$/)
  await page.keyboard.press('Enter')
  await found(page)
  await until(/^Play: The pelvis leads/)
  await page.keyboard.press('Enter')
  await page.getByRole('button', { name: 'Pause: The pelvis leads' }).waitFor()
  await page.keyboard.press('Enter')
  await until(/^Key poses/)
  await page.keyboard.press('End')
  const strip = page.getByRole('slider', { name: /^Key poses: The pelvis leads/ })
  expect(await strip.getAttribute('aria-valuetext')).toContain('settle')
  await page.keyboard.press('Shift+Tab')
  await page.keyboard.press('Enter')
  await page.getByRole('button', { name: 'Play it' }).waitFor()
  await expect.poll(() => page.evaluate(() => document.activeElement?.textContent?.trim())).toBe('Play it')
  await page.keyboard.press('Tab')
  await page.keyboard.press('Enter')
  await page.getByText(/^What goes next, from/).waitFor()
})

test('the planner is stopped, and the page is as it was', async ({ page }) => {
  await open(page)
  await Promise.all([pressedOnceThere(page, 'Stop'), page.getByRole('button', { name: 'Plan it' }).click()])
  await page.getByRole('button', { name: 'Plan it' }).waitFor()
  expect(await page.getByRole('article').count()).toBe(0)
  expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true)
})

/** Presses a button in the very moment it comes: the planner may be done before a click from outside is there. */
const pressedOnceThere = (page: Page, words: string) =>
  page.evaluate(
    (text) =>
      new Promise<void>((resolve) => {
        new MutationObserver((_, observer) => {
          const button = [...document.querySelectorAll('button')].find(
            (one) => one.textContent?.trim() === text,
          )
          if (button === undefined) return
          observer.disconnect()
          button.click()
          resolve()
        }).observe(document.body, { childList: true, subtree: true })
      }),
    words,
  )

test('the place is dragged, put with two taps, and moved by arrow keys; none of it changes the plan', async ({
  page,
}) => {
  await open(page)
  await page.getByLabel('Where it goes').selectOption('place')
  const cm = async (label: string) =>
    Number.parseFloat(await page.getByRole('textbox', { name: label }).inputValue())
  const mark = page
    .getByRole('toolbar', { name: 'Floor view: handles' })
    .getByRole('button', { name: 'mark', exact: true })
  const middle = async () => {
    const box = await mark.boundingBox()
    if (box === null) throw new Error('the mark has no place')
    return [box.x + box.width / 2, box.y + box.height / 2] as const
  }
  const [left, forward] = [await cm('to his left'), await cm('forward')]
  const [x, y] = await middle()
  await page.mouse.move(x, y)
  await page.mouse.down()
  await page.mouse.move(x + 10, y + 10)
  await page.mouse.move(x + 20, y + 20)
  await page.mouse.up()
  const dragged = [await cm('to his left'), await cm('forward')] as const
  expect(dragged[0]).toBeGreaterThan(left + 3)
  expect(dragged[1]).toBeGreaterThan(forward + 3)

  await mark.focus()
  await page.keyboard.press('Enter')
  for (let i = 0; i < 4; i++) await page.keyboard.press('Shift+ArrowLeft')
  await page.keyboard.press('Enter')
  expect(await cm('to his left')).toBeLessThan(dragged[0] - 3)

  await page.mouse.click(...(await middle()))
  await page.getByRole('button', { name: /^Put it/ }).click()
  await page.mouse.click(x + 30, y + 40)
  expect(await cm('to his left')).toBeGreaterThan(dragged[0])
  expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true)
})

test('axe finds nothing on the page with its ways and wishes, in light and in dark', async ({ page }) => {
  await page.emulateMedia({ colorScheme: 'light' })
  await open(page)
  await page.getByRole('button', { name: 'Plan it' }).click()
  await found(page)
  await page.getByRole('button', { name: 'More wishes' }).click()
  expect(await axeFaults(page, '.pages')).toEqual([])
  await page.emulateMedia({ colorScheme: 'dark' })
  expect(await axeFaults(page, '.pages')).toEqual([])
})
