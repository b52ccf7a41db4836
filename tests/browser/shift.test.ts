import { expect, inject } from 'vitest'
import { test } from '../support/page-test'

test('on the demo: planned, used, played, and taken back', async ({ page, complaints }) => {
  await page.goto(inject('pageUrl'))
  await page.locator('[role=grid][aria-busy=false]').waitFor()
  await page.getByRole('button', { name: 'Shift', exact: true }).click()
  await page.getByRole('button', { name: 'Plan it' }).click()
  await page.getByRole('heading', { name: /each weighed frame by frame/ }).waitFor()
  await page.getByRole('button', { name: /^Use it: The pelvis leads/ }).click()
  await page.locator('[role=grid][aria-busy=false]').waitFor()
  const grid = page.getByRole('grid')
  for (const phase of ['press', 'lean']) await grid.getByText(phase, { exact: true }).first().waitFor()
  const row = () => page.locator('[role=row].current').getAttribute('aria-rowindex')
  const before = await row()
  await page.getByRole('button', { name: 'Play', exact: true }).click()
  await expect.poll(row).not.toBe(before)
  await page.getByRole('button', { name: 'Pause' }).click()
  await page.getByRole('button', { name: 'Undo' }).click()
  await page.getByText('24 fps, 167 frames').waitFor()
  expect(complaints).toEqual([])
})
