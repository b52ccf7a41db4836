import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { README, readmeWithTable } from '../support/how-we-know'

/** Without what the formatter does to tables. */
const plain = (markdown: string): string => markdown.replace(/ *\| */g, '|').replace(/-{3,}/g, '---')

test('the README tells what tests/outside checks; `npm run know` writes it anew', () => {
  const readme = readFileSync(README, 'utf8')
  expect(plain(readme)).toBe(plain(readmeWithTable(readme)))
})
