import type { Browser, BrowserContext, Page } from 'playwright'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, inject, test } from 'vitest'
import { launch } from '../support/browser'

let browser: Browser
let context: BrowserContext
let page: Page
let complaints: string[]
let requests: string[]

beforeAll(async () => {
  browser = await launch(inject('browserPath'))
})

afterAll(() => browser?.close())

beforeEach(async () => {
  context = await browser.newContext({ viewport: { width: 1280, height: 720 } })
  page = await context.newPage()
  complaints = []
  requests = []
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  page.on('response', (response) => {
    if (response.status() >= 400) complaints.push(`${response.status()} ${response.url()}`)
  })
  context.on('request', (request) => requests.push(request.url()))
})

afterEach(() => context.close())

describe.each([
  ['the server’s root', 'pageUrl'],
  ['a sub-path', 'subPathUrl'],
] as const)('the built page at %s', (_place, address) => {
  test('opens with its title, without a complaint and with nothing from elsewhere', async () => {
    const url = inject(address)
    await page.goto(url, { waitUntil: 'networkidle' })
    expect(await page.title()).toMatch(/Weighbridge/)
    expect(await page.locator('body').innerText()).not.toBe('')
    expect(complaints).toEqual([])
    const elsewhere = requests.filter((request) => !request.startsWith(url) && !/^(blob|data):/.test(request))
    expect(elsewhere).toEqual([])
  })

  test('opens again without a network', async () => {
    const url = inject(address)
    await page.goto(url)
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined))
    await context.setOffline(true)
    await page.reload({ waitUntil: 'load' })
    expect(await page.title()).toMatch(/Weighbridge/)
    expect(await page.locator('body').innerText()).not.toBe('')
    expect(complaints).toEqual([])
  })
})

test('the page’s policy forbids a request to another origin', async () => {
  await page.goto(inject('pageUrl'))
  const other = new URL(inject('subPathUrl')).origin
  const outcome = await page.evaluate(
    (url) =>
      fetch(url).then(
        () => 'answered',
        () => 'refused',
      ),
    other,
  )
  expect(outcome).toBe('refused')
  expect(complaints.join('\n')).toContain('Content Security Policy')
})

test('a file that is not there is a 404 and not the page', async () => {
  const response = await page.request.get(`${inject('pageUrl')}no-such-file.json`)
  expect(response.status()).toBe(404)
})
