import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright'

/**
 * What axe finds in a part of the page against WCAG 2.2 A and AA, and against its own good practice: a rule with the
 * places that break it, each a line.
 * @param part a selector
 * @param rules some of axe's rules alone
 */
export async function axeFaults(page: Page, part: string, rules?: string[]): Promise<string[]> {
  // The page has no frames of other sites, so that nothing need be put together in a second page.
  const axe = new AxeBuilder({ page }).include(part).setLegacyMode()
  const { violations } = await (rules ? axe.withRules(rules) : axe).analyze()
  return violations.map(
    ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 140)).join(' | ')}`,
  )
}
