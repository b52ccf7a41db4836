import type { Locator, Page } from 'playwright'
import { expect, inject } from 'vitest'
import { writePlan } from '../../src/plan/write'
import { test } from '../support/page-test'
import { slippingPlan } from '../support/slipping'

/** Opens the page with a first pass sent as a file: two keys six frames apart, and a knee that slides. */
async function open(page: Page): Promise<void> {
  // Without the picker a file comes by an input, which a test can fill.
  await page.addInitScript(() => Reflect.deleteProperty(window, 'showOpenFilePicker'))
  await page.goto(inject('pageUrl'))
  await weighed(page)
  const chooser = page.waitForEvent('filechooser')
  await page.keyboard.press('Control+o')
  await (await chooser).setFiles({
    name: 'first-pass.json',
    mimeType: 'application/json',
    buffer: Buffer.from(writePlan(slippingPlan())),
  })
  await page.getByRole('heading', { level: 1, name: 'Slipping knee' }).waitFor()
  await weighed(page)
}

const weighed = (page: Page) => page.locator('[role=grid][aria-busy=false]').waitFor()
const pages = (page: Page) => page.getByRole('region', { name: 'Pages' })
const rowOf = (page: Page, label: number) => page.locator(`[role=row][aria-rowindex="${label - 999}"]`)
const mark = (page: Page, label: number) => rowOf(page, label).locator('.mark').innerText()
const spaced = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ')
const said = async (locator: Locator) => spaced(await locator.innerText())

async function go(page: Page, label: number): Promise<void> {
  await rowOf(page, label).locator('.frame').click()
  await expect.poll(() => rowOf(page, label).getAttribute('class')).toContain('current')
}

const turnTo = (page: Page, name: string) => pages(page).getByRole('button', { name, exact: true }).click()

/** Taps a handle until its own card is open (handles on one spot take turns), and does what the card offers. */
async function act(page: Page, handle: string, what: string): Promise<void> {
  const grip = page
    .getByRole('toolbar', { name: 'Floor view: handles' })
    .getByRole('button', { name: handle, exact: true })
  const box = await grip.boundingBox()
  if (box === null) throw new Error(`${handle} has no place`)
  const button = page.getByRole('button', { name: what, exact: true })
  for (let i = 0; i < 8; i++) {
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2)
    const own = page.locator('.card', { has: page.locator('strong', { hasText: handle }) })
    if ((await own.count()) > 0 && (await button.count()) > 0) break
  }
  await button.click()
}

async function lean(page: Page, label: number): Promise<void> {
  await go(page, label)
  await turnTo(page, 'Weigh')
  await pages(page).getByRole('button', { name: 'Find the lean that empties it' }).click()
  await pages(page).getByRole('button', { name: 'Do it' }).first().click()
  await pages(page)
    .getByRole('heading', { level: 2 })
    .getByText(/could let go|empty/)
    .waitFor()
}

/** Grabs the pelvis by its handle, moves it by arrow keys (1 cm, with Shift 5) and lets go. */
async function nudge(page: Page, view: string, keys: readonly string[]): Promise<void> {
  await page
    .getByRole('toolbar', { name: `${view}: handles` })
    .getByRole('button', { name: 'pelvis', exact: true })
    .focus()
  for (const key of ['Enter', ...keys, 'Enter']) await page.keyboard.press(key)
}

async function retime(page: Page, label: number): Promise<number> {
  await go(page, label)
  await turnTo(page, 'Timing')
  await turnTo(page, 'Frames')
  const least = await pages(page)
    .getByText(/^You use \d+; this needs \d+/)
    .innerText()
  const frames = Math.ceil(Number(/needs (\d+)/.exec(least)?.[1]) * 1.5)
  await pages(page).getByLabel('frames', { exact: true }).fill(String(frames))
  await page.keyboard.press('Tab')
  return frames
}

test('two keys six frames apart with a knee that slides are shown for what they are; re-leaned and retimed by hand every flag goes', async ({
  page,
  complaints,
}) => {
  await open(page)
  await go(page, 1005)
  await turnTo(page, 'Timing')

  // What they are: the frames needed, the push, and the kilograms on the knee, with the frame of each.
  await pages(page)
    .getByText(/^You use 6; this needs \d+, no curve could do it under \d+\.$/)
    .waitFor()
  const flags = pages(page).getByRole('list', { name: 'What no body could do' }).getByRole('button')
  const slides = flags.filter({ hasText: /slides/ })
  await slides.waitFor()
  expect(await said(slides)).toMatch(
    /^Left knee slides 25 cm under load from 1005 to 1011: \d+ kg on it at 10\d\d\.$/,
  )
  expect(await said(flags.first())).toMatch(/^Push from nowhere from 1005 to 10\d\d: \d+ kg at 10\d\d\.$/)
  await slides.click()
  await turnTo(page, 'In motion')
  await pages(page)
    .getByText(/Left knee slides \d+\scm in this frame and drags with \d+\skg/)
    .waitFor()

  // By hand: the left leg no longer slides; it leaves once the weight is off it, and lands empty.
  await page.getByRole('button', { name: 'Contacts', exact: true }).click()
  for (const kind of ['kneecap', 'toes'])
    await page
      .getByRole('group', { name: `leg L, ${kind}` })
      .getByLabel(/How the/)
      .selectOption('planted')
  await page.keyboard.press('Escape')
  await lean(page, 1005)
  await go(page, 1006)
  await act(page, 'left knee', 'Free the whole leg')
  await go(page, 1011)
  await act(page, 'left knee', 'Plant kneecap')
  await act(page, 'left foot', 'Plant toes')
  // No lean empties it there; by the pelvis's handle it goes as far over as it takes to land softly.
  await nudge(page, 'Front view', ['Shift+ArrowLeft', 'Shift+ArrowLeft', 'Shift+ArrowLeft'])
  await nudge(page, 'Side view', ['Shift+ArrowLeft', 'Shift+ArrowLeft'])
  const travel = await retime(page, 1005)
  const over = await retime(page, 1001)

  await pages(page).getByLabel('whole move').check()
  await pages(page).getByText('No push from nowhere and no slide under load in this span.').waitFor()
  expect(await flags.count()).toBe(0)
  // The sheet has the new frames, and its keys stand on them.
  const last = 1000 + 15 + (travel - 6) + (over - 4)
  await weighed(page)
  expect(await page.getByRole('grid').getAttribute('aria-rowcount')).toBe(String(last - 1000 + 1))
  expect(await mark(page, 1001 + over)).toBe('K')
  await go(page, 1001 + over)
  await page.keyboard.press('Control+End')
  await expect.poll(() => rowOf(page, 1001 + over + travel).count()).toBe(1)
  expect(await mark(page, 1001 + over + travel)).toBe('K')
  expect(complaints).toEqual([])
})
