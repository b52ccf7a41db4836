import type { Page } from 'playwright'
import { memoryStorage } from '../../src/keep/fakes/storage'
import { loadPlan } from '../../src/keep/slots'
import { between, random } from '../../src/space/random'
import { pick, type Source } from '../plan/random-plan'
import { KilledBrowser } from './killed-browser'
import { must } from './soak'

/** A state that the page showed, and until when. */
interface Shown {
  readonly title: string
  readonly rows: string
  /** When it had been seen to be there, ms. */
  readonly at: number
  /** The page said that it was kept. */
  kept: boolean
}

/** What was asked for last, which may be kept before it has been seen to be there. */
interface Asked {
  title: string | null
}

export interface Kills {
  readonly count: number
  /** How old the reopened state was when the browser was killed, ms: the greatest. */
  readonly oldest: number
  /** How many kills came while something was not kept yet. */
  readonly unkept: number
}

/**
 * Edits at random in a browser that is killed at random moments, and opens it again each time: what is there must be
 * whole, must have been shown before, and no older than the last state that was said to be kept.
 * @param most how old it may be, ms; not looked at when left out
 * @throws with the seed and the number of the kill
 */
export async function kills(url: string, count: number, seed: number, most?: number): Promise<Kills> {
  const next = random(seed)
  const browser = new KilledBrowser()
  let shown: Shown[] = []
  let asked: Asked = { title: null }
  let killedAt = 0
  let [oldest, unkept] = [0, 0]
  try {
    for (let kill = 0; kill <= count; kill++) {
      const why = `seed ${seed}, kill ${kill}`
      const page = await opened(await browser.start(), url)
      if (kill > 0) {
        const age = await look(page, shown, asked, killedAt, why)
        must(most === undefined || age <= most, () => `${why}: the state is ${age} ms old`)
        oldest = Math.max(oldest, age)
      }
      if (kill === count) break
      shown = []
      asked = { title: null }
      const moment = Date.now() + between(next, 200, 2_500)
      const edits = editing(page, next, `${kill}`, shown, asked)
      await new Promise((resolve) => setTimeout(resolve, moment - Date.now()))
      killedAt = Date.now()
      if (shown.at(-1)?.kept === false) unkept += 1
      await browser.kill()
      await edits
    }
  } finally {
    await browser.dispose()
  }
  return { count, oldest, unkept }
}

async function opened(browser: Awaited<ReturnType<KilledBrowser['start']>>, url: string): Promise<Page> {
  const context = browser.contexts()[0]
  must(context !== undefined, () => 'the browser has no window')
  const page = await context.newPage()
  await page.goto(url)
  // Someone who has been here before.
  await page.evaluate(() => localStorage.setItem('weighbridge/view', '{"welcomed":true}'))
  if ((await page.getByRole('button', { name: /shot to review/ }).count()) > 0) await page.reload()
  await page.locator('[role=grid][aria-busy=false]').waitFor()
  return page
}

const seen = (page: Page) =>
  page.evaluate(() => ({
    title: document.querySelector('h1')?.textContent?.trim() ?? '',
    rows: document.querySelector('[role=grid]')?.getAttribute('aria-rowcount') ?? '',
    kept: /Kept here|Nothing to keep/.test(document.querySelector('.kept')?.textContent ?? ''),
  }))

/** Looks at what is there again. @returns how old it was when the browser was killed, ms */
async function look(
  page: Page,
  shown: readonly Shown[],
  asked: Asked,
  killedAt: number,
  why: string,
): Promise<number> {
  const { title, rows } = await seen(page)
  const texts = await page.evaluate(
    () =>
      new Promise<[string, string][]>((resolve, reject) => {
        const opening = indexedDB.open('weighbridge')
        opening.onerror = () => reject(opening.error)
        opening.onsuccess = () => {
          const texts = opening.result.transaction('texts').objectStore('texts')
          const [keys, values] = [texts.getAllKeys(), texts.getAll()]
          values.onsuccess = () => resolve(keys.result.map((key, i) => [String(key), values.result[i]]))
        }
      }),
  )
  const storage = memoryStorage(new Map(texts))
  const id = storage.texts.get('last-opened')
  must(id !== undefined, () => `${why}: no plan was open`)
  const loaded = await loadPlan(storage, id)
  // By the title alone: rows are counted once the take is weighed, some time after its change.
  const index = shown.findLastIndex((one) => one.title === title)
  const list = () => shown.map((one) => `${one.title}/${one.rows}${one.kept ? ' kept' : ''}`).join(', ')
  // Before its first change the demo has no place on the shelf.
  if (loaded.kind === 'absent')
    must(!shown.some(({ kept }, i) => kept && i > 0), () => `${why}: nothing is there of ${list()}`)
  else {
    must(loaded.kind === 'loaded', () => `${why}: the plan is ${loaded.kind}`)
    must(loaded.plan.title === title, () => `${why}: the page shows ${title}, kept is ${loaded.plan.title}`)
  }
  if (index < 0 && title === asked.title) return 0
  must(index >= 0, () => `${why}: ${title}/${rows} never was among ${list()}`)
  const kept = shown.findLastIndex((one) => one.kept)
  must(index >= kept, () => `${why}: ${title}/${rows} is older than what was kept, ${list()}`)
  const after = shown[index + 1]
  return after === undefined ? 0 : Math.max(0, killedAt - after.at)
}

/** Edits until the browser is gone. */
async function editing(page: Page, next: Source, name: string, shown: Shown[], asked: Asked): Promise<void> {
  page.setDefaultTimeout(5_000)
  try {
    for (let n = 0; ; n++) {
      const now = await seen(page)
      const last = shown.at(-1)
      if (last?.title === now.title && last.rows === now.rows) last.kept = now.kept
      else shown.push({ ...now, at: Date.now() })
      await edit(page, next, `${name}.${n}`, asked)
    }
  } catch (error) {
    // Cut off in the middle of anything: that is what is tried here.
    if (!/closed|crashed|Timeout/.test(String(error))) throw error
  }
}

async function edit(page: Page, next: Source, title: string, asked: Asked): Promise<void> {
  const what = next()
  if (what < 0.4) {
    await page.locator('h1 button').click()
    asked.title = title
    await page.getByLabel('Title', { exact: true }).fill(title)
    await page.keyboard.press('Tab')
    await page.keyboard.press('Escape')
    return
  }
  if (what < 0.6) {
    await page.locator('[data-grip=pelvis]').first().focus()
    await page.keyboard.press('Enter')
    for (let i = 0; i < 5; i++) await page.keyboard.press(pick(next, ['ArrowLeft', 'ArrowRight', 'ArrowUp']))
    await page.keyboard.press('Enter')
    return
  }
  const keys = ['Control+z', 'Control+z', 'Control+Shift+z', 'k', '+', '+', '-', 't', 'ArrowDown', 'PageDown']
  await page.keyboard.press(pick(next, keys))
}
