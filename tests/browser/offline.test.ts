import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright'
import { afterAll, beforeAll, describe, expect, inject } from 'vitest'
import { test } from '../support/page-test'
import { sitting } from '../support/sitting'
import { hostFolder, type StaticHost } from '../support/static-host'

let host: StaticHost

beforeAll(async () => {
  host = await hostFolder(inject('builtFolder'), '/a/folder-of-theirs/')
})
afterAll(() => host.close())

const weighed = (page: Page) => page.locator('[role=grid][aria-busy=false]').waitFor()

/** Waits until the host has heard nothing for a while. */
async function quiet(page: Page): Promise<void> {
  let heard = -1
  while (heard !== host.asked.length) {
    heard = host.asked.length
    await page.waitForTimeout(1200)
  }
}

describe('after the first load', () => {
  test('all that can ever be asked for is there, and a whole sitting asks for nothing, within the policy', async ({
    page,
    context,
    complaints,
  }) => {
    // The page itself has it all; what a service worker keeps beside it does not count here.
    await context.addInitScript(() => {
      Reflect.deleteProperty(Navigator.prototype, 'serviceWorker')
      const broken: string[] = []
      Object.assign(window, { broken })
      document.addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
        broken.push(`${violatedDirective} ${blockedURI}`),
      )
    })
    await page.goto(host.url)
    await weighed(page)
    const parts = readdirSync(join(inject('builtFolder'), 'assets')).map((name) => `assets/${name}`)
    await expect.poll(() => parts.filter((name) => !host.asked.includes(name))).toEqual([])
    await quiet(page)
    host.asked.length = 0
    await newPlanAfter(page)
    expect(host.asked).toEqual([])
    expect(complaints).toEqual([])
    expect(await page.evaluate(() => (window as unknown as { broken: string[] }).broken)).toEqual([])
  })

  test('the page opens and works where the host is gone for good', async ({ page, context, complaints }) => {
    const gone = await hostFolder(inject('builtFolder'), '/below/here/')
    await page.goto(gone.url)
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
    await page.close()
    await gone.close()
    const again = await context.newPage()
    await again.goto(gone.url)
    await weighed(again)
    await newPlanAfter(again)
    expect(complaints).toEqual([])
  })
})

describe('a newer build', () => {
  test('is offered, and never forced', async ({ page, context }) => {
    const named = await hostFolder(inject('builtFolder'))
    await page.goto(named.url)
    await weighed(page)
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
    await page.reload()
    await weighed(page)
    await page.evaluate(() => Object.assign(window, { sameSitting: true }))
    const source = readFileSync(join(inject('builtFolder'), 'service-worker.js'), 'utf8')
    named.instead.set(
      'service-worker.js',
      source.replace(/const store = mine \+ '\w+'/, "const store = mine + 'newer'"),
    )
    await page.evaluate(() => navigator.serviceWorker.ready.then((registration) => registration.update()))
    await page
      .getByText(/A newer Weighbridge is ready/)
      .first()
      .waitFor()
    expect(await page.evaluate(() => 'sameSitting' in window)).toBe(true)
    const stores = () => page.evaluate(() => caches.keys())
    expect((await stores()).length).toBe(2)
    // Once every page of the older one is closed, the newer one is there.
    await page.goto('about:blank')
    await expect
      .poll(async () => {
        const next = await context.newPage()
        await next.goto(named.url)
        const names = await next.evaluate(() => caches.keys())
        await next.close()
        return names.map((name) => name.split(' ').at(-1))
      })
      .toEqual(['newer'])
    await named.close()
  })
})

describe('the built page’s policy', () => {
  test('has no unsafe word, no wildcard and no other origin', () => {
    const html = readFileSync(join(inject('builtFolder'), 'index.html'), 'utf8')
    const policy =
      /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(html)?.[1]?.replaceAll('&#39;', "'") ?? ''
    expect(policy).toMatch(/^default-src 'none'/)
    const words = policy.split(/[\s;]+/).filter((word) => !/^[a-z-]+$/.test(word))
    for (const word of words) expect(["'none'", "'self'", 'blob:', 'data:'], policy).toContain(word)
    expect(policy).not.toMatch(/script-src[^;]*(blob|data):/)
    expect(html).not.toMatch(/<script(?![^>]*src=)|\sstyle=|\son[a-z]+=/)
  })
})

/** A whole sitting, and at its end a new plan. */
async function newPlanAfter(page: Page): Promise<void> {
  await sitting(page)
  await page.getByRole('button', { name: 'Plan', exact: true }).click()
  await page.getByRole('menuitem', { name: /New plan/ }).click()
  await weighed(page)
}
