import { cleanup, render, screen, within } from '@testing-library/svelte'
import userEvent from '@testing-library/user-event'
import { flushSync } from 'svelte'
import { afterEach, expect, test } from 'vitest'
import { Desk } from '../../src/screen/desk.svelte'
import Pages from '../../src/screen/pages/Pages.svelte'
import TimingSheet from '../../src/screen/sheet/TimingSheet.svelte'
import { stageStateOf } from '../../src/screen/stage/stage-state.svelte'
import { capstone } from '../support/capstone'
import { testShell } from '../support/shell'
import '../support/jsdom-layout'

HTMLCanvasElement.prototype.getContext = () => null
afterEach(cleanup)

function open(): Desk {
  const desk = new Desk(capstone())
  stageStateOf(desk).drawing.setSize(838, 676, false)
  render(Pages, { desk })
  return desk
}

const card = () => screen.getByRole('dialog', { hidden: true })
/** Cards are fetched with the first of them. */
const opened = () => screen.findByRole('dialog', { hidden: true })
const row = (limb: RegExp) =>
  screen.getByRole('button', { name: limb }).closest<HTMLElement>('li') as HTMLElement
/** The share of a limb's row; its name is its text. */
const shareOf = (limb: RegExp) => within(row(limb)).getAllByText(/%/)[0] as HTMLElement

test('a figure opens its formula, its inputs with units, its result and where it comes from', async () => {
  open()
  const shown = shareOf(/^Leg L/)
  await userEvent.click(shown)
  await opened()
  const how = within(card())
  expect(how.getByRole('heading', { hidden: true })).toHaveTextContent(
    'What his left leg carries of the weight',
  )
  expect(card()).toHaveTextContent('s = (k₁ + k₂) ÷ m')
  expect(card()).toHaveTextContent(/k₁\s?knee L presses up\s?\d+(\.\d+)?\skg/)
  expect(card()).toHaveTextContent(`s = ${shown.textContent?.trim().replace('\u00a0', ' ')}`)
  expect(card()).toHaveTextContent('Friction by Coulomb')
})

test('Enter opens it as well, and every figure of the page has one', async () => {
  open()
  const figures = [...document.querySelectorAll<HTMLElement>('.figure')]
  expect(figures.length).toBeGreaterThan(12)
  for (const figure of figures) {
    figure.focus()
    await userEvent.keyboard('{Enter}')
    await opened()
    expect(card()).toHaveTextContent(/=/)
    within(card()).getByRole('button', { name: 'Close', hidden: true }).click()
    flushSync()
    expect(screen.queryByRole('dialog', { hidden: true })).toBeNull()
  }
})

test('forces are in kilograms until newtons are asked for', async () => {
  open()
  await userEvent.click(shareOf(/^Leg L/))
  await opened()
  const kilograms = Number(
    /presses up\s?([\d.]+)\skg/.exec(card().textContent?.replace(/\s+/g, ' ') ?? '')?.[1],
  )
  expect(card().textContent).not.toMatch(/\d\u00a0N/)
  await userEvent.click(within(card()).getByRole('checkbox', { name: 'forces in newtons', hidden: true }))
  const newtons = Number(/presses up\s?([\d.]+)\sN/.exec(card().textContent?.replace(/\s+/g, ' ') ?? '')?.[1])
  expect(newtons / kilograms).toBeCloseTo(9.81, 1)
})

test('the stiffness of pads stands with the loads and can be changed, in one step of undo', async () => {
  const desk = open()
  const before = desk.plan
  const shown = shareOf(/^Fist L/).textContent
  await userEvent.click(shareOf(/^Fist L/))
  await opened()
  await userEvent.click(within(card()).getByText('How stiff each pad is'))
  const field = within(card()).getByLabelText<HTMLInputElement>('fist')
  expect(field.value).toBe('0.5')
  field.value = '0.05'
  field.dispatchEvent(new Event('change', { bubbles: true }))
  flushSync()
  expect(desk.plan.stiffness).toEqual({ fist: 0.05 })
  expect(desk.undoLabel).toBe('Stiffness of fist')
  expect(shareOf(/^Fist L/).textContent).not.toBe(shown)
  expect(card()).toHaveTextContent(
    `s = ${shareOf(/^Fist L/)
      .textContent?.trim()
      .replace('\u00a0', ' ')}`,
  )
  desk.undo()
  flushSync()
  expect(desk.plan).toBe(before)
  expect(shareOf(/^Fist L/).textContent).toBe(shown)
})

test('a stiffness set back to the table’s is the table’s again', async () => {
  const desk = open()
  await userEvent.click(shareOf(/^Fist L/))
  await opened()
  const set = (text: string) => {
    const field = within(card()).getByLabelText<HTMLInputElement>('toes')
    field.value = text
    field.dispatchEvent(new Event('change', { bubbles: true }))
    flushSync()
  }
  set('1')
  expect(desk.plan.stiffness).toEqual({ toes: 1 })
  set('0.25')
  expect(desk.plan.stiffness).toEqual({})
  set('0')
  expect(desk.plan.stiffness).toEqual({})
  set('2')
  await userEvent.click(within(card()).getByRole('button', { name: 'As in the table', hidden: true }))
  expect(desk.plan.stiffness).toEqual({})
})

test('in the sheet = explains the picked cell; where nothing is worked out it says so', async () => {
  const { shell } = testShell(capstone(), { weighs: true })
  render(TimingSheet, { shell })
  flushSync()
  const grid = screen.getByRole('grid')
  grid.focus()
  await userEvent.keyboard('=')
  await opened()
  expect(card()).toHaveTextContent('n = i + f')
  shell.closeCard(shell.card as NonNullable<typeof shell.card>)
  flushSync()
  await userEvent.keyboard('{ArrowRight}=')
  await opened()
  expect(card()).toHaveTextContent('nothing is worked out in it')
  shell.closeCard(shell.card as NonNullable<typeof shell.card>)
  flushSync()
  await userEvent.keyboard('{ArrowRight}{ArrowRight}=')
  await opened()
  expect(card()).toHaveTextContent('What his left leg carries of the weight')
})

test('body and ground explain theirs: mass, natural mass, hips, friction, stiffness', async () => {
  const desk = open()
  const texts = async () => {
    const found: string[] = []
    for (const figure of document.querySelectorAll<HTMLElement>('.figure')) {
      await userEvent.click(figure)
      await opened()
      found.push(card().textContent ?? '')
    }
    return found.join(' ')
  }
  desk.setPage('body')
  flushSync()
  expect(await texts()).toMatch(/All that weighs.*The mass that is natural for him.*Hip joint to hip joint/s)
  desk.setPage('ground')
  flushSync()
  expect(await texts()).toMatch(/What rough ground holds sideways.*University Physics/s)
  expect(screen.getByLabelText('instep')).toHaveValue('0.25')
})
