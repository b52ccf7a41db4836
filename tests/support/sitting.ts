import type { Page } from 'playwright'

/**
 * A sitting at the open and weighed page: every page is read, a lift tried, the take played, a key pose moved by keys
 * and by dragging, a frame put in, every dialog opened. What is changed is undone, so that it can be gone through again
 * and again.
 */
export async function sitting(page: Page): Promise<void> {
  await readPages(page)
  await tryAndPlay(page)
  await change(page)
  await openDialogs(page)
}

const weighed = (page: Page) => page.locator('[role=grid][aria-busy=false]').waitFor()

async function readPages(page: Page): Promise<void> {
  const pages = page.getByRole('navigation').getByRole('button')
  for (const word of await pages.allInnerTexts()) await pages.getByText(word, { exact: true }).click()
  await pages.getByText('Weigh', { exact: true }).click()
}

async function tryAndPlay(page: Page): Promise<void> {
  await page.keyboard.press('l')
  await page.getByRole('button', { name: 'Stop the trial' }).waitFor()
  await page.keyboard.press('Escape')
  await page.keyboard.press('p')
  await page.waitForTimeout(300)
  await page.keyboard.press('p')
  for (const number of [1003, 1006, 1001])
    await page
      .locator('[role=row]')
      .filter({ hasText: String(number) })
      .locator('.frame')
      .first()
      .click()
}

async function change(page: Page): Promise<void> {
  const pelvis = page.locator('[data-grip=pelvis]').first()
  await pelvis.focus()
  await page.keyboard.press('Enter')
  for (let i = 0; i < 6; i++) await page.keyboard.press('ArrowLeft')
  await page.keyboard.press('Enter')
  await page.keyboard.press('Control+z')
  const box = await pelvis.boundingBox()
  if (box === null) throw new Error('There is no pelvis to take hold of')
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
  await page.mouse.move(x, y)
  await page.mouse.down()
  for (let i = 1; i <= 10; i++) await page.mouse.move(x - 3 * i, y + i)
  await page.mouse.up()
  await page.keyboard.press('Control+z')
  await page.keyboard.press('+')
  await page.keyboard.press('Control+z')
  await page.keyboard.press('Escape')
  await weighed(page)
}

async function openDialogs(page: Page): Promise<void> {
  const open = async (menu: string, item: RegExp) => {
    await page.getByRole('button', { name: menu, exact: true }).click()
    await page.getByRole('menuitem', { name: item }).click()
  }
  await page.getByRole('button', { name: 'Contacts' }).click()
  await putAway(page)
  for (const [menu, item] of [
    ['Plan', /Shelf/],
    ['Plan', /Title and scene/],
    ['Plan', /Print the sheet/],
    ['Help', /words, drawn/],
    ['Help', /key does/],
  ] as const) {
    await open(menu, item)
    await putAway(page)
  }
  await open('Help', /Show me round/)
  await page.getByText('1 of 7').waitFor()
  await page.keyboard.press('Escape')
  await page.evaluate(() => {
    dispatchEvent(new Event('beforeprint'))
    dispatchEvent(new Event('afterprint'))
  })
}

/** Closes the dialog that is on its way. */
async function putAway(page: Page): Promise<void> {
  const dialog = page.getByRole('dialog')
  await dialog.waitFor()
  await page.keyboard.press('Escape')
  await dialog.waitFor({ state: 'detached' })
}
