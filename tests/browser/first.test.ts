import type { Browser, BrowserContextOptions, Page } from 'playwright'
import { describe, expect, inject } from 'vitest'
import { test } from '../support/page-test'

/** The page as someone meets it who has never been here. */
async function newcomer(browser: Browser, options: BrowserContextOptions = {}): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 }, ...options })
  const page = await context.newPage()
  await page.goto(inject('pageUrl'))
  await door(page, /shot to block/).waitFor()
  return page
}

const door = (page: Page, name: RegExp) => page.getByRole('button', { name })
const frame = (page: Page) => page.locator('[role=row].current').getAttribute('aria-rowindex')

describe('the first start', () => {
  test('the demo moves and is weighed, behind three doors that are all in sight', async ({ browser }) => {
    const page = await newcomer(browser)
    const first = await frame(page)
    await page.waitForFunction(
      (before) => document.querySelector('[role=row].current')?.getAttribute('aria-rowindex') !== before,
      first,
    )
    await page.locator('[role=grid][aria-busy=false]').waitFor()
    for (const name of [/shot to block/, /shot to review/, /How heavy/]) {
      const box = await door(page, name).boundingBox()
      expect((box?.y ?? 1e3) + (box?.height ?? 0)).toBeLessThanOrEqual(720)
    }
    await page.context().close()
  })

  test.for([
    [/shot to block/, /^Shift$/],
    [/shot to review/, /^Weigh$/],
    [/How heavy/, /^Reads as$/],
  ] as const)(
    '%s leads to %s, at rest on the first frame; the next start opens there no more',
    async ([name, word], { browser }) => {
      const page = await newcomer(browser)
      await door(page, name).click()
      await page.getByRole('button', { name: word }).and(page.locator('[aria-current=page]')).waitFor()
      const here = await frame(page)
      await page.waitForTimeout(150)
      expect(await frame(page)).toBe(here)
      expect(await page.locator('[role=row].current').innerText()).toContain('1001')
      await page.reload()
      await page.locator('[role=grid]').waitFor()
      expect(await door(page, /shot to block/).count()).toBe(0)
      await page.context().close()
    },
  )

  test('each of the three has a result after three actions at the most', async ({ browser }) => {
    const animator = await newcomer(browser)
    await door(animator, /shot to block/).click()
    await animator.getByRole('button', { name: 'Plan it' }).click()
    await animator.getByRole('button', { name: /^Use it: The pelvis leads/ }).click()
    await animator.getByRole('grid').getByText('press', { exact: true }).first().waitFor()
    await animator.context().close()

    const mentor = await newcomer(browser)
    await door(mentor, /shot to review/).click()
    await mentor.getByRole('button', { name: 'Find the lean that empties it' }).click()
    await mentor.getByRole('button', { name: 'Do it' }).first().click()
    await mentor
      .getByRole('heading', { level: 2, name: /His left leg (could let go|is empty) here/ })
      .waitFor()
    await mentor.context().close()

    const student = await newcomer(browser)
    await door(student, /How heavy/).click()
    await student.getByText(/Reads as a body of/).waitFor()
    await student.context().close()
  })

  test('nothing moves by itself where the machine asks for that', async ({ browser }) => {
    const page = await newcomer(browser, { reducedMotion: 'reduce' })
    await page.locator('[role=grid][aria-busy=false]').waitFor()
    expect(await page.getByRole('button', { name: 'Play', exact: true }).count()).toBe(1)
    expect(await page.locator('[role=row].current').innerText()).toContain('1001')
    await page.context().close()
  })

  test('whoever takes hold of anything finds it at rest', async ({ browser }) => {
    const page = await newcomer(browser)
    await page.locator('[role=grid][aria-busy=false]').waitFor()
    await page.getByRole('button', { name: 'Pause' }).waitFor()
    const grid = await page.getByRole('grid').boundingBox()
    if (grid === null) throw new Error('There is no sheet')
    const [x, y] = [grid.x + 30, grid.y + 0.6 * grid.height]
    await page.mouse.click(x, y)
    await page.getByRole('button', { name: 'Play', exact: true }).waitFor()
    const here = await frame(page)
    await page.waitForTimeout(150)
    expect(await frame(page)).toBe(here)
    // Which row lies there depends on how far the play had come.
    await page.mouse.click(x, y)
    const taken = await page.evaluate(
      ([x, y]) => document.elementFromPoint(x, y)?.closest('[role=row]')?.getAttribute('aria-rowindex'),
      [x, y] as const,
    )
    expect(taken).toMatch(/^\d+$/)
    expect(await frame(page)).toBe(taken)
    await page.context().close()
  })

  test('on a phone the doors stand above the drawing', async ({ browser }) => {
    const page = await newcomer(browser, {
      viewport: { width: 390, height: 844 },
      hasTouch: true,
      isMobile: true,
    })
    const third = await door(page, /How heavy/).boundingBox()
    expect((third?.y ?? 1e3) + (third?.height ?? 0)).toBeLessThanOrEqual(844)
    await door(page, /shot to review/).tap()
    await page
      .getByText(/His left leg/)
      .first()
      .waitFor()
    await page.context().close()
  })

  test('the way round can be walked by keyboard and left at any stop', async ({ browser }) => {
    const page = await newcomer(browser)
    await page.getByRole('button', { name: 'Show me round' }).click()
    await page.getByText('1 of 7').waitFor()
    for (let stop = 2; stop <= 7; stop++) {
      await page.keyboard.press('Enter')
      await page.getByText(`${stop} of 7`).waitFor()
    }
    await page.keyboard.press('Enter')
    await page.getByText('7 of 7').waitFor({ state: 'detached' })
    await page.context().close()
  })
})
