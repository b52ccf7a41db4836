import type { Page } from 'playwright'
import { describe, expect, inject } from 'vitest'
import { axeFaults } from '../support/axe'
import { fetchedAll } from '../support/fetched'
import { test } from '../support/page-test'

const weighed = (page: Page) => page.locator('[role=grid][aria-busy=false]').waitFor()

async function open(page: Page): Promise<void> {
  await page.goto(inject('pageUrl'))
  await weighed(page)
}

/** Opened, and no page that is turned to is still on its way. */
async function openWhole(page: Page): Promise<void> {
  await open(page)
  await fetchedAll(page)
}

const words = (page: Page) => page.getByRole('navigation', { name: 'Page' }).getByRole('button')

/** What axe finds in the light palette; then what of it can be otherwise in the dark one, the colours. */
async function faults(page: Page, part: string, where: string): Promise<string[]> {
  const light = await axeFaults(page, part)
  await page.emulateMedia({ colorScheme: 'dark' })
  const dark = await axeFaults(page, part, ['color-contrast'])
  await page.emulateMedia({ colorScheme: 'light' })
  return [
    ...light.map((fault) => `${where}, light: ${fault}`),
    ...dark.map((fault) => `${where}, dark: ${fault}`),
  ]
}

async function dialogs(page: Page): Promise<readonly (readonly [string, () => Promise<void>])[]> {
  const choose = (menu: string, item: RegExp) => async () => {
    await page.getByRole('button', { name: menu, exact: true }).click()
    await page.getByRole('menuitem', { name: item }).click()
  }
  const sheet = page.getByRole('region', { name: 'Timing sheet' })
  const card = (name: string) => () => sheet.getByRole('button', { name, exact: true }).click()
  return [
    ['shelf', choose('Plan', /Shelf/)],
    ['title and scene', choose('Plan', /Title and scene/)],
    ['print', choose('Plan', /Print the sheet/)],
    ['glossary', choose('Help', /words, drawn/)],
    ['keys', choose('Help', /key does/)],
    ['frame card', card('Frame')],
    ['contacts card', card('Contacts')],
    ['note card', card('Note')],
    ['columns card', card('Columns')],
    ['how a figure is worked out', () => page.locator('.sentences .figure').first().click()],
  ]
}

test('axe finds nothing on any page, in any menu and in any dialog, in light and in dark', {
  timeout: 240_000,
}, async ({ page }) => {
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' })
  await openWhole(page)
  const found: string[] = []
  for (const word of await words(page).allInnerTexts()) {
    await words(page).getByText(word, { exact: true }).click()
    await page.waitForTimeout(150)
    found.push(...(await faults(page, '.drawing', word)))
  }
  await words(page).getByText('Weigh', { exact: true }).click()
  found.push(...(await faults(page, 'html', 'whole page')))
  for (const menu of ['Plan', 'View', 'Help']) {
    await page.getByRole('button', { name: menu, exact: true }).click()
    found.push(...(await faults(page, '[role=menu]:popover-open', menu)))
    await page.keyboard.press('Escape')
  }
  for (const [name, show] of await dialogs(page)) {
    await show()
    const dialog = page.getByRole('dialog')
    await dialog.waitFor()
    found.push(...(await faults(page, '[role=dialog], dialog[open]', name)))
    await page.keyboard.press('Escape')
    await dialog.waitFor({ state: 'detached' })
  }
  await page.getByRole('button', { name: 'Help', exact: true }).click()
  await page.getByRole('menuitem', { name: /three doors/ }).click()
  await page.getByRole('button', { name: /shot to block/ }).waitFor()
  found.push(...(await faults(page, '.pages', 'doors')))
  await page.getByRole('button', { name: 'Help', exact: true }).click()
  await page.getByRole('menuitem', { name: /Show me round/ }).click()
  await page.getByText('1 of 7').waitFor()
  found.push(...(await faults(page, 'html', 'the way round')))
  expect(found).toEqual([])
})

describe('by keyboard', () => {
  test('Tab comes to every control that is not reached by arrows, and its focus is seen', async ({
    page,
  }) => {
    await openWhole(page)
    const stops = new Set<string>()
    const unseen = new Set<string>()
    for (const word of await words(page).allInnerTexts()) {
      await words(page).getByText(word, { exact: true }).click()
      await page.waitForTimeout(100)
      await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur())
      // What can be focused on this page and is shown: all of it must be come by.
      const wanted = await page.evaluate(() => {
        const all = document.querySelectorAll<HTMLElement>(
          'a[href], button, input, select, textarea, summary, [tabindex="0"]',
        )
        let n = 0
        for (const one of all) {
          if (one.tabIndex < 0 || one.matches(':disabled') || !one.checkVisibility()) continue
          // One of a group of radio buttons is its stop.
          if (one instanceof HTMLInputElement && one.type === 'radio' && !one.checked) continue
          one.dataset.wanted = String(n++)
        }
        return n
      })
      const got = new Set<string>()
      for (let i = 0; i < wanted + 10; i++) {
        await page.keyboard.press('Tab')
        const here = await page.evaluate(() => {
          const at = document.activeElement as HTMLElement | null
          if (at === null || at === document.body) return null
          const style = getComputedStyle(at)
          const marked = (one: CSSStyleDeclaration) =>
            one.outlineStyle !== 'none' && Number.parseFloat(one.outlineWidth) > 0
          const seen = marked(style) || style.boxShadow !== 'none' || marked(getComputedStyle(at, '::after'))
          const name = at.getAttribute('aria-label') ?? at.textContent?.trim().slice(0, 40) ?? ''
          return { wanted: at.dataset.wanted, seen, name: `${at.tagName} ${name}` }
        })
        if (here === null) continue
        if (here.wanted !== undefined) got.add(here.wanted)
        stops.add(here.name)
        if (!here.seen) unseen.add(`${word}: ${here.name}`)
      }
      const missed = await page.evaluate(
        (reached) =>
          [...document.querySelectorAll<HTMLElement>('[data-wanted]')]
            .filter((one) => one.checkVisibility() && !reached.includes(one.dataset.wanted ?? ''))
            .map((one) => one.outerHTML.slice(0, 120)),
        [...got],
      )
      expect(missed, word).toEqual([])
      await page.evaluate(() => {
        for (const one of document.querySelectorAll<HTMLElement>('[data-wanted]')) delete one.dataset.wanted
      })
    }
    expect([...unseen]).toEqual([])
    expect(stops.size).toBeGreaterThan(50)
  })

  test('a key pose is changed without a pointer', async ({ page }) => {
    await open(page)
    const before = await page.locator('[role=row].current').innerText()
    await page.locator('[data-grip=pelvis]').first().focus()
    await page.keyboard.press('Enter')
    for (let i = 0; i < 10; i++) await page.keyboard.press('ArrowLeft')
    await page.keyboard.press('Enter')
    await weighed(page)
    expect(await page.locator('[role=row].current').innerText()).not.toBe(before)
  })

  test('keys pressed one upon the other: the second is heard by the menu that the first opened', async ({
    page,
  }) => {
    await open(page)
    const focused = () => page.evaluate(() => document.activeElement?.textContent ?? '')
    await page.getByRole('button', { name: 'Plan', exact: true }).focus()
    await Promise.all(['Enter', 'ArrowDown'].map((key) => page.keyboard.press(key)))
    await expect.poll(focused).toMatch(/^Shelf/)
    await Promise.all(['ArrowUp', 'Escape'].map((key) => page.keyboard.press(key)))
    await expect.poll(focused).toBe('Plan')
  })

  test('a card that is closed by its button gives the focus back', async ({ page }) => {
    await open(page)
    for (const from of [page.getByRole('grid'), page.locator('.sentences .figure').first()]) {
      await from.focus()
      await page.keyboard.press('Enter')
      const card = page.getByRole('dialog')
      await card.getByRole('button', { name: 'Close' }).focus()
      await page.keyboard.press('Enter')
      await card.waitFor({ state: 'detached' })
      await expect.poll(() => from.evaluate((element) => element === document.activeElement)).toBe(true)
    }
  })
})

test('by single taps, without dragging: a handle is put where the next tap says', async ({ page }) => {
  await open(page)
  const before = await page.locator('[role=row].current').innerText()
  const grip = page.locator('[data-grip=pelvis]').first()
  const box = await grip.boundingBox()
  if (box === null) throw new Error('There is no pelvis to tap')
  await grip.click()
  await page.getByRole('button', { name: 'Put it …' }).click()
  await page.mouse.click(box.x - 25, box.y + box.height / 2)
  await weighed(page)
  expect(await page.locator('[role=row].current').innerText()).not.toBe(before)
})

test('the weighed pose is told in words to whoever can’t see the drawing', async ({ page }) => {
  await open(page)
  const told = page.getByRole('region', { name: 'Stage' }).locator('[aria-live]').last()
  await expect.poll(() => told.innerText()).toMatch(/leg/)
  const first = await told.innerText()
  expect(first).toMatch(/\d+\s?%/)
  expect(first).toMatch(/pinned/)
  // It follows the frame.
  await page.locator('[role=row]').filter({ hasText: '1010' }).locator('.frame').click()
  await expect.poll(() => told.innerText()).not.toBe(first)
})

test('where nothing may move, nothing does', async ({ page }) => {
  await page.emulateMedia({ reducedMotion: 'reduce' })
  await open(page)
  const moving = await page.evaluate(
    () =>
      document.getAnimations().filter(({ effect }) => Number(effect?.getTiming().duration ?? 0) > 10).length,
  )
  expect(moving).toBe(0)
})

test('at 200 % everything is there, nothing is cut off sideways', async ({ page }) => {
  // 200 % of 1280 × 720 is a page of 640 × 360 CSS pixels.
  await page.setViewportSize({ width: 640, height: 360 })
  await openWhole(page)
  for (const word of await words(page).allInnerTexts()) {
    await words(page).getByText(word, { exact: true }).click()
    await page.waitForTimeout(80)
    const wide = await page.evaluate(() => {
      const page = document.querySelector('.pages') as HTMLElement
      const cut = [...page.querySelectorAll<HTMLElement>('button, input, p, h2, h3, label, td')].filter(
        (one) => {
          const { left, right } = one.getBoundingClientRect()
          const within = one.closest<HTMLElement>('[style*=overflow], .scroll, table')
          return one.checkVisibility() && within === null && (right > innerWidth + 1 || left < -1)
        },
      )
      return {
        across: document.documentElement.scrollWidth - innerWidth,
        cut: cut.map((one) => one.outerHTML.slice(0, 100)),
      }
    })
    expect(wide, word).toEqual({ across: 0, cut: [] })
  }
})

test('in forced colours the drawing, its handles and what is chosen are still told apart', async ({
  page,
}) => {
  await page.emulateMedia({ forcedColors: 'active', colorScheme: 'dark' })
  await open(page)
  const told = await page.evaluate(() => {
    const canvas = getComputedStyle(document.body).backgroundColor
    const current = document.querySelector<HTMLElement>('[aria-current=page]')
    const grip = document.querySelector<HTMLElement>('.grip')
    const styles = current && getComputedStyle(current)
    return {
      ground: canvas,
      current: styles && `${styles.textDecorationLine} ${styles.borderBottomStyle} ${styles.fontWeight}`,
      grip: grip !== null,
    }
  })
  expect(told.grip).toBe(true)
  // Not by colour alone: a line under it, or heavier letters.
  expect(told.current).toMatch(/underline|solid|[6-9]\d\d/)
})
