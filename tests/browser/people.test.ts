import type { Locator, Page } from 'playwright'
import { expect, inject } from 'vitest'
import { test } from '../support/page-test'
import { pastePicture } from '../support/paste-picture'

/**
 * The shortest path of each of the three people, walked in the built page. Every action is counted, and the
 * time a practised person takes for it is reckoned by the keystroke-level model of Card, Moran and Newell
 * (1980): a key 0.2 s, pointing 1.1 s, a button down or up 0.1 s, hand from keys to mouse 0.4 s, making up
 * one's mind 1.35 s (numbers from memory). What the page itself takes is measured and added.
 */
class Person {
  readonly page: Page
  actions = 0
  seconds = 0

  constructor(page: Page) {
    this.page = page
  }

  async click(what: Locator): Promise<void> {
    this.#did(MIND + POINT + 2 * BUTTON)
    await this.#timed(() => what.click())
  }

  /** Types into a field that has to be clicked first, and leaves it. */
  async type(field: Locator, text: string): Promise<void> {
    this.#did(POINT + 2 * BUTTON + 2 * HAND + (text.length + 1) * KEY)
    await this.#timed(async () => {
      await field.fill(text)
      await field.press('Tab')
    })
  }

  /** The next field after a Tab. */
  async tabType(field: Locator, text: string): Promise<void> {
    this.#did((text.length + 1) * KEY)
    await this.#timed(async () => {
      await field.fill(text)
      await field.press('Tab')
    })
  }

  async keys(shortcut: string): Promise<void> {
    this.#did(MIND + shortcut.split('+').length * KEY)
    await this.#timed(() => this.page.keyboard.press(shortcut))
  }

  async drag(handle: Locator, dx: number, dy: number): Promise<void> {
    this.#did(MIND + 2 * POINT + 2 * BUTTON)
    const box = await handle.boundingBox()
    if (box === null) throw new Error('the handle has no place')
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
    await this.#timed(async () => {
      await this.page.mouse.move(x, y)
      await this.page.mouse.down()
      await this.page.mouse.move(x + dx, y + dy, { steps: 6 })
      await this.page.mouse.up()
    })
  }

  /** Reads words that have to be there: a glance, and 0.25 s for each word after it. */
  async read(what: Locator): Promise<string> {
    await what.waitFor()
    const text = await what.innerText()
    this.seconds += MIND + text.split(/\s+/).length * WORD
    return text
  }

  #did(seconds: number): void {
    this.actions++
    this.seconds += seconds
  }

  async #timed(work: () => Promise<unknown>): Promise<void> {
    const start = performance.now()
    await work()
    this.seconds += (performance.now() - start) / 1000
  }
}

const [KEY, POINT, BUTTON, HAND, MIND, WORD] = [0.2, 1.1, 0.1, 0.4, 1.35, 0.25]

const pages = (page: Page) => page.getByRole('region', { name: 'Pages' })
const word = (page: Page, name: string) => pages(page).getByRole('button', { name, exact: true })
const headline = (page: Page) => pages(page).getByRole('heading', { level: 2 })
const grip = (page: Page, name: string) =>
  page.getByRole('toolbar', { name: 'Front view: handles' }).getByRole('button', { name, exact: true })

async function opened(page: Page): Promise<Person> {
  await page.addInitScript(() => {
    Object.assign(window, { print: () => Object.assign(window, { printed: true }) })
  })
  await page.goto(inject('pageUrl'))
  await headline(page).getByText('His left leg is pinned here.').waitFor()
  return new Person(page)
}

test('the animator: body from the rig, stance, mover, pinned, printed, within two minutes', async ({
  page,
}) => {
  const animator = await opened(page)
  await animator.click(page.getByRole('button', { name: 'Plan', exact: true }))
  await animator.click(page.getByRole('menuitem', { name: /New plan/ }))
  await animator.click(word(page, 'Body'))
  await animator.click(page.getByText(/^From your rig/))
  const lengths = ['26', '61', '58', '36', '52', '48', '58', '118']
  const fields = [
    'hip to hip',
    'hip to knee',
    'knee to ankle',
    'foot, heel to toe',
    'shoulder to shoulder',
    'upper arm',
    'elbow to knuckle',
    'hip to crown',
  ]
  for (const [i, name] of fields.entries()) {
    const field = page.getByLabel(name, { exact: true })
    if (i === 0) await animator.type(field, lengths[i] as string)
    else await animator.tabType(field, lengths[i] as string)
  }
  for (const [i, name] of fields.entries())
    expect(await page.getByLabel(name, { exact: true }).inputValue()).toBe(`${lengths[i]}\u00a0cm`)
  await animator.click(word(page, 'Stances'))
  await animator.click(pages(page).getByRole('button', { name: 'Tall kneel' }))
  await animator.click(word(page, 'Weigh'))
  await animator.click(pages(page).getByRole('button', { name: /^Leg R/ }))
  expect(await animator.read(headline(page))).toBe('His right leg is pinned here.')
  await page.locator('[role=grid][aria-busy=false]').waitFor()
  await animator.keys('Control+p')
  await animator.click(page.getByRole('dialog').getByRole('button', { name: 'Print on A4' }))
  await page.waitForFunction(() => 'printed' in window)
  report('animator', animator)
  expect(animator.seconds).toBeLessThan(120)
})

test('the mentor: still, pose matched, load read, lean dragged, two notes, picture on the clipboard, within two minutes', async ({
  page,
  context,
}) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write'])
  const mentor = await opened(page)
  await pastePicture(page)
  mentor.actions++
  mentor.seconds += 3 * KEY
  await mentor.click(page.getByRole('button', { name: 'Stand it on the ground' }))
  await page.mouse.click(160, 330)
  mentor.actions++
  mentor.seconds += POINT + 2 * BUTTON
  for (const [name, dx, dy] of [
    ['pelvis', 10, 2],
    ['right knee', -6, 0],
    ['chest', -8, 2],
    ['head', 6, 1],
  ] as const)
    await mentor.drag(grip(page, name), dx, dy)
  await mentor.click(word(page, 'Weigh'))
  expect(await mentor.read(headline(page))).toBe('His left leg is pinned here.')
  await mentor.drag(grip(page, 'pelvis'), -44, 0)
  expect(await mentor.read(headline(page))).not.toBe('His left leg is pinned here.')
  await mentor.click(word(page, 'Review'))
  const note = page.getByRole('textbox', { name: /New note/ })
  for (const text of ['Lean this far before the knee lifts.', 'Hips first, chest after.']) {
    await mentor.type(note, text)
    await mentor.click(pages(page).getByRole('button', { name: 'Note', exact: true }))
  }
  await mentor.click(page.getByRole('button', { name: 'Copy the picture' }))
  await page.getByText('The picture is on the clipboard.').waitFor()
  const types = await page.evaluate(async () =>
    (await navigator.clipboard.read()).flatMap(({ types }) => types),
  )
  expect(types).toContain('image/png')
  report('mentor', mentor)
  expect(mentor.seconds).toBeLessThan(120)
})

test('the student: size and mass changed, and what changed is read, within 30 s', async ({ page }) => {
  const student = await opened(page)
  await student.click(word(page, 'Body'))
  await student.type(page.getByLabel('Height', { exact: true }), '4 m')
  await student.tabType(page.getByLabel('Mass', { exact: true }), '2000 kg')
  const changed = pages(page).getByRole('status')
  expect(await student.read(changed)).toMatch(
    /height: 2\.6\sm → 4\sm\nmass: 420\skg → 2000\skg\nleg L, \d+\s%: \d+\skg → \d+\skg/,
  )
  report('student', student)
  expect(student.seconds).toBeLessThan(30)
})

function report(who: string, { actions, seconds }: Person): void {
  console.info(`${who}: ${actions} actions, ${seconds.toFixed(0)} s`)
}
