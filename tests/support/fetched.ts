import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright'
import { inject } from 'vitest'

/** Waits until the page has fetched what comes with a click, too: all of it begins at once, and every page has a style of its own. */
export async function fetchedAll(page: Page): Promise<void> {
  const styles = readdirSync(join(inject('builtFolder'), 'assets')).filter((name) => name.endsWith('.css'))
  await page.waitForFunction((names) => {
    const got = performance.getEntriesByType('resource').map(({ name }) => name)
    return names.every((name) => got.some((address) => address.endsWith(name)))
  }, styles)
  await page.waitForLoadState('networkidle')
}
