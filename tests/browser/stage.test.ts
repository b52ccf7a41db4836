import type { Browser, CDPSession, Page } from 'playwright'
import { describe, expect, inject } from 'vitest'
import { beenHere } from '../support/been-here'
import { test } from '../support/page-test'
import { pastePicture } from '../support/paste-picture'

const headline = (page: Page) =>
  page.getByRole('region', { name: 'Pages' }).getByRole('heading', { level: 2 })
const grip = (page: Page, name: string, view = 'Front view') =>
  page.getByRole('toolbar', { name: `${view}: handles` }).getByRole('button', { name, exact: true })

async function middleOf(page: Page, name: string, view?: string): Promise<[x: number, y: number]> {
  const box = await grip(page, name, view).boundingBox()
  if (box === null) throw new Error(`${name} has no place`)
  return [box.x + box.width / 2, box.y + box.height / 2]
}

async function open(page: Page): Promise<void> {
  await page.goto(inject('pageUrl'))
  await headline(page).getByText('His left leg is pinned here.').waitFor()
}

describe('the left leg is emptied by moving the pelvis', () => {
  test('by mouse: read-outs follow during the drag, and undo takes all of it back', async ({
    page,
    complaints,
  }) => {
    await open(page)
    const [x, y] = await middleOf(page, 'pelvis')
    await page.mouse.move(x, y)
    await page.mouse.down()
    for (let i = 1; i <= 14; i++) await page.mouse.move(x - 2 * i, y)
    await headline(page).getByText('His left leg could let go here.').waitFor()
    await page.mouse.up()
    await page.keyboard.press('Control+z')
    await headline(page).getByText('His left leg is pinned here.').waitFor()
    expect(complaints).toEqual([])
  })

  test('by keyboard alone: Tab, Enter, arrows, Enter', async ({ page }) => {
    await open(page)
    await grip(page, 'pelvis').focus()
    expect(await grip(page, 'pelvis').getAttribute('tabindex')).toBe('0')
    await page.keyboard.press('Enter')
    for (let i = 0; i < 3; i++) await page.keyboard.press('Shift+ArrowLeft')
    await headline(page).getByText('His left leg could let go here.').waitFor()
    await page.keyboard.press('Escape')
    await headline(page).getByText('His left leg is pinned here.').waitFor()
    await page.keyboard.press('Enter')
    for (let i = 0; i < 15; i++) await page.keyboard.press('ArrowLeft')
    await page.keyboard.press('Enter')
    await headline(page).getByText('His left leg could let go here.').waitFor()
    expect(await grip(page, 'pelvis').evaluate((button) => button === document.activeElement)).toBe(true)
  })

  test('Escape in the middle of a drag goes back to its start', async ({ page }) => {
    await open(page)
    const [x, y] = await middleOf(page, 'pelvis')
    await page.mouse.move(x, y)
    await page.mouse.down()
    await page.mouse.move(x - 30, y, { steps: 5 })
    await headline(page).getByText('His left leg could let go here.').waitFor()
    await page.keyboard.press('Escape')
    await headline(page).getByText('His left leg is pinned here.').waitFor()
    await page.mouse.move(x - 60, y, { steps: 3 })
    await page.mouse.up()
    await headline(page).getByText('His left leg is pinned here.').waitFor()
  })

  test('by finger on a narrow screen: a handle does not scroll the page, the drawing beside it does', async ({
    browser,
  }) => {
    const page = await touchPage(browser)
    await open(page)
    const touch = await page.context().newCDPSession(page)
    const [x, y] = await middleOf(page, 'pelvis')
    await swipe(touch, [x, y], [x - 26, y])
    await headline(page).getByText('His left leg could let go here.').waitFor()
    expect(await page.evaluate(() => scrollY)).toBe(0)
    const box = await grip(page, 'pelvis').boundingBox()
    expect(box?.width).toBeGreaterThanOrEqual(44)
    await swipe(touch, [30, 500], [30, 200])
    await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(100)
    await page.context().close()
  })

  test('by finger with two taps: the handle, then the place', async ({ browser }) => {
    const page = await touchPage(browser)
    await open(page)
    const [x, y] = await middleOf(page, 'pelvis')
    for (let i = 0; i < 4; i++) {
      await page.touchscreen.tap(x, y)
      if (await grip(page, 'pelvis').evaluate((button) => button === document.activeElement)) break
    }
    await page.touchscreen.tap(x - 48, y)
    await expect.poll(() => headline(page).innerText()).not.toBe('His left leg is pinned here.')
    await page.context().close()
  })
})

test('one stop of the Tab key a view, and arrows go from handle to handle', async ({ page }) => {
  await open(page)
  for (const view of ['Front view', 'Side view', 'Floor view']) {
    const stops = page.getByRole('toolbar', { name: `${view}: handles` }).locator('[tabindex="0"]')
    expect(await stops.count()).toBe(1)
  }
  await grip(page, 'pelvis').focus()
  await page.keyboard.press('ArrowUp')
  const now = await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))
  expect(now).not.toBe('pelvis')
  expect(await page.locator('[data-view=front] [tabindex="0"]').getAttribute('aria-label')).toBe(now)
})

test('the stage is said in words when it rests', async ({ page }) => {
  await open(page)
  const live = page.locator('.stage [aria-live=polite]')
  await expect.poll(() => live.textContent()).toMatch(/^Frame 1001\. His left leg is pinned here\./)
})

test('a click on a limb asks whether it can lift', async ({ page }) => {
  await open(page)
  const [x, y] = await middleOf(page, 'right elbow')
  await page.mouse.click(x + 3, y - 30)
  await headline(page)
    .getByText(/^His right/)
    .waitFor()
})

test('a view is enlarged with the page beside it, and the drawing comes back whole', async ({ page }) => {
  await open(page)
  const before = await page.locator('[data-grip=pelvis]').count()
  await page.locator('[data-view=front]').getByRole('button', { name: 'larger' }).click()
  expect(await page.locator('[data-grip=pelvis]').count()).toBe(1)
  const [stage, pages] = await Promise.all([
    page.locator('.stage canvas').boundingBox(),
    page.getByRole('region', { name: 'Pages' }).boundingBox(),
  ])
  expect(pages?.x).toBeGreaterThanOrEqual((stage?.x ?? 0) + (stage?.width ?? 0) - 1)
  await page.getByRole('button', { name: 'all views' }).click()
  expect(await page.locator('[data-grip=pelvis]').count()).toBe(before)
})

test('a pasted picture lies under the view, and is scaled by two points', async ({ page }) => {
  await open(page)
  await pastePicture(page)
  await page.getByRole('button', { name: 'Scale by two points' }).click()
  await page.mouse.click(120, 330)
  await page.mouse.click(120, 130)
  const field = page.getByLabel('They are so far apart:')
  await field.fill('2 m')
  await field.press('Tab')
  await page.getByRole('button', { name: 'Take it away' }).click()
  await page.getByText('Paste a picture').waitFor()
})

async function touchPage(browser: Browser): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
  })
  await beenHere(context)
  return context.newPage()
}

async function swipe(
  session: CDPSession,
  [x1, y1]: readonly [number, number],
  [x2, y2]: readonly [number, number],
): Promise<void> {
  const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: { x: number; y: number }[]) =>
    session.send('Input.dispatchTouchEvent', { type, touchPoints: points })
  await send('touchStart', [{ x: x1, y: y1 }])
  for (let i = 1; i <= 10; i++)
    await send('touchMove', [{ x: x1 + ((x2 - x1) * i) / 10, y: y1 + ((y2 - y1) * i) / 10 }])
  await send('touchEnd', [])
}
