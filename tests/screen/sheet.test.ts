import { fireEvent, render, screen, within } from '@testing-library/svelte'
import userEvent from '@testing-library/user-event'
import { flushSync } from 'svelte'
import { expect, test } from 'vitest'
import { setControls } from '../../src/plan/edit/keys'
import { keyPosesOf } from '../../src/plan/key-poses'
import TimingSheet from '../../src/screen/sheet/TimingSheet.svelte'
import { stancePlan } from '../support/plans'
import '../support/jsdom-layout'
import { testShell } from '../support/shell'

function openSheet() {
  const plan = stancePlan()
  const pose = testShell(plan).desk.pose.reached
  const keyed = setControls(plan, 'take-1', 5, { ...pose, 'pelvis.x': -0.05 })
  const tools = testShell(
    { ...keyed, takes: keyed.takes.map((take) => ({ ...take, length: 12 })) },
    { weighs: true },
  )
  render(TimingSheet, { shell: tools.shell })
  return { ...tools, user: userEvent.setup(), grid: screen.getByRole('grid') }
}

const rowAt = (grid: HTMLElement, frame: number) =>
  within(grid)
    .getAllByRole('row')
    .find((row) => row.getAttribute('aria-rowindex') === String(frame + 2)) as HTMLElement

test('a grid of frames says how many rows it has and which is which', () => {
  const { grid } = openSheet()
  expect(grid).toHaveAttribute('aria-rowcount', '13')
  expect(rowAt(grid, 0)).toHaveTextContent('1001')
  expect(rowAt(grid, 0)).toHaveTextContent('K')
  expect(rowAt(grid, 5)).toHaveTextContent('1006')
  expect(within(grid).getAllByRole('columnheader')[0]).toHaveAccessibleName('frame')
})

test('the loads at a key are in its row', () => {
  const { grid, desk } = openSheet()
  const [left] = desk.weighed.weighing.limbs
  const percent = String(Math.round((left?.vertical ?? 0) * 100))
  expect(within(rowAt(grid, 0)).getAllByText(percent).length).toBeGreaterThan(0)
})

test('picking a row moves the time, and arrows go on from it', async () => {
  const { grid, desk, user } = openSheet()
  grid.focus()
  await user.keyboard('{ArrowDown}{ArrowDown}')
  expect(desk.frame).toBe(2)
  await user.keyboard('{Control>}{ArrowDown}{/Control}')
  expect(desk.frame).toBe(5)
  await user.keyboard('{Control>}{End}{/Control}')
  expect(desk.frame).toBe(11)
  expect(grid.getAttribute('aria-activedescendant')).toBe('cell-11-0')
  expect(document.getElementById('cell-11-0')).toHaveAttribute('aria-selected', 'true')
})

test('a key is moved with Alt and an arrow and deleted with Delete', async () => {
  const { grid, desk, user } = openSheet()
  desk.setFrame(5)
  grid.focus()
  await user.keyboard('{Alt>}{ArrowDown}{/Alt}')
  expect(keyPosesOf(desk.take)).toEqual([0, 6])
  await user.keyboard('{Delete}')
  expect(keyPosesOf(desk.take)).toEqual([0])
})

test('a key is typed to another frame in its card', async () => {
  const { grid, desk, user } = openSheet()
  desk.setFrame(5)
  grid.focus()
  await user.keyboard('{Enter}')
  const field = screen.getByLabelText('Key at')
  expect(field).toHaveValue(1006)
  await user.clear(field)
  await user.type(field, '1009{Enter}')
  await fireEvent.change(field)
  expect(keyPosesOf(desk.take)).toEqual([0, 8])
  const ease = screen.getByLabelText(/Slow-in/)
  await user.clear(ease)
  await user.type(ease, '80')
  await fireEvent.change(ease)
  expect(desk.take.channels['pelvis.x'][1]?.in).toBe(0.8)
})

test('a note is written on the picked frame', async () => {
  const { grid, desk, user } = openSheet()
  desk.setFrame(3)
  grid.focus()
  await user.click(screen.getByRole('button', { name: 'Note' }))
  await user.type(screen.getByLabelText('New note'), 'Hold the hip down.')
  await fireEvent.change(screen.getByLabelText('New note'))
  expect(desk.take.notes).toMatchObject([{ frame: 3, text: 'Hold the hip down.' }])
})

test('contacts are typed and tapped in their card', async () => {
  const { grid, desk, user } = openSheet()
  desk.setFrame(4)
  grid.focus()
  await user.click(screen.getByRole('button', { name: 'Contacts' }))
  const span = desk.take.contacts[0]
  await user.click(
    screen.getAllByRole('button', { name: 'Lifts after here', hidden: true })[0] as HTMLElement,
  )
  expect(desk.take.contacts.find(({ id }) => id === span?.id)?.to).toBe(4)
})

test('the rate is chosen and typed, and wrong ones are refused with words', async () => {
  const { desk, user } = openSheet()
  await user.click(screen.getByRole('button', { name: /24\s*fps/ }))
  await user.selectOptions(screen.getByLabelText('Frames a second'), '23.976 (24000/1001)')
  expect(desk.plan.rate).toEqual({ num: 24_000, den: 1_001 })
  await user.selectOptions(screen.getByLabelText('Frames a second'), 'Another …')
  const field = screen.getByLabelText('From 12 to 60')
  await user.clear(field)
  await user.type(field, '500')
  await fireEvent.change(field)
  expect(desk.plan.rate).toEqual({ num: 24_000, den: 1_001 })
  expect(desk.status?.kind).toBe('problem')
})

test('while the take is being weighed again the sheet says so and its old numbers stay', async () => {
  const { grid, desk } = openSheet()
  expect(grid).toHaveAttribute('aria-busy', 'false')
  desk.begin('Move pelvis')
  desk.change((plan) => setControls(plan, desk.takeId, 0, { 'pelvis.x': -0.08 }))
  flushSync()
  // A gesture is not weighed as a whole, but the row of its frame follows.
  const right = desk.weighed.weighing.limbs.find(({ id }) => id === 'legR')
  expect(rowAt(grid, 0)).toHaveTextContent(String(Math.round((right?.vertical ?? 0) * 100)))
})
