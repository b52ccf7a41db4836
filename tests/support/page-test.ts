import type { Browser, BrowserContext, Page } from 'playwright'
import { test as base, inject } from 'vitest'
import { beenHere } from './been-here'
import { launch } from './browser'

/**
 * A browser test with a page of its own, on a desk's screen (1280 × 720), not yet at an address: go to
 * `inject('pageUrl')` or `inject('subPathUrl')`. One browser serves a file; each test has its own storage.
 * - `complaints`: what went wrong so far: console errors and warnings, uncaught errors, answers of 400 and above
 * - `requests`: the addresses asked for so far, by the page, its workers and its service worker
 */
export const test = base
  // biome-ignore lint/correctness/noEmptyPattern: the test runner reads a fixture's needs from this pattern
  .extend('browser', { scope: 'file' }, async ({}, { onCleanup }): Promise<Browser> => {
    const browser = await launch(inject('browserPath'))
    onCleanup(() => browser.close())
    return browser
  })
  .extend('context', async ({ browser }, { onCleanup }): Promise<BrowserContext> => {
    const context = await browser.newContext({ viewport: { width: 1280, height: 720 } })
    onCleanup(() => context.close())
    await beenHere(context)
    return context
  })
  .extend('page', ({ context }): Promise<Page> => context.newPage())
  .extend('complaints', ({ page }): string[] => {
    const complaints: string[] = []
    page.on('console', (message) => {
      if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text())
    })
    page.on('pageerror', (error) => complaints.push(error.message))
    page.on('response', (response) => {
      if (response.status() >= 400) complaints.push(`${response.status()} ${response.url()}`)
    })
    return complaints
  })
  .extend('requests', ({ context }): string[] => {
    const requests: string[] = []
    context.on('request', (request) => requests.push(request.url()))
    return requests
  })
