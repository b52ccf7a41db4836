import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { README, readmeWithTable } from '../support/how-we-know'

test('the README tells what tests/outside checks; `npm run know` writes it anew', () => {
  const readme = readFileSync(README, 'utf8')
  expect(readme).toBe(readmeWithTable(readme))
})
