import { describe, expect, inject } from 'vitest'
import { fetchedAll } from '../support/fetched'
import { test } from '../support/page-test'

describe.each([
  ['the server’s root', 'pageUrl'],
  ['a sub-path', 'subPathUrl'],
] as const)('the built page at %s', (_place, address) => {
  test('opens with its title, without a complaint and with nothing from elsewhere', async ({
    page,
    complaints,
    requests,
  }) => {
    const url = inject(address)
    await page.goto(url, { waitUntil: 'networkidle' })
    expect(await page.title()).toMatch(/Weighbridge/)
    expect(await page.locator('body').innerText()).not.toBe('')
    expect(complaints).toEqual([])
    expect(requests).toContain(url)
    expect(requests.filter((request) => !request.startsWith(url) && !/^(blob|data):/.test(request))).toEqual(
      [],
    )
  })

  test('opens again without a network', async ({ context, page, complaints }) => {
    await page.goto(inject(address))
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
    await fetchedAll(page)
    await context.setOffline(true)
    await page.reload()
    expect(await page.title()).toMatch(/Weighbridge/)
    expect(await page.locator('body').innerText()).not.toBe('')
    expect(complaints).toEqual([])
  })
})

test('the page’s policy forbids a request to another origin', async ({ page, complaints }) => {
  await page.goto(inject('pageUrl'))
  const other = inject('subPathUrl')
  const outcome = await page.evaluate(
    (url) =>
      fetch(url, { mode: 'no-cors' }).then(
        () => 'answered',
        () => 'refused',
      ),
    other,
  )
  expect(outcome).toBe('refused')
  expect(complaints.join('\n')).toContain('Content Security Policy')
})

test('a file that is not there is a 404 and not the page', async ({ page }) => {
  const response = await page.request.get(`${inject('pageUrl')}no-such-file.json`)
  expect(response.status()).toBe(404)
})
