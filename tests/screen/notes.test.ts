import { render, screen, within } from '@testing-library/svelte'
import userEvent from '@testing-library/user-event'
import { flushSync } from 'svelte'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import type { Plan } from '../../src/document/plan'
import { writePlan } from '../../src/plan/write'
import { Desk } from '../../src/screen/desk.svelte'
import NotesPage from '../../src/screen/notes/NotesPage.svelte'
import { marginOf } from '../../src/screen/notes/numbered'
import { doRemedyOf, readNotesOf } from '../../src/worker/read-notes'
import { capstoneBad } from '../support/capstone-bad'
import { stancePlan } from '../support/plans'
import { testThread } from '../support/thread'

// Whole takes are weighed here, on a machine that may be busy.
vi.setConfig({ testTimeout: 60_000 })
beforeEach(() => void vi.useFakeTimers({ shouldAdvanceTime: true }))
afterEach(() => void vi.useRealTimers())

function open(plan: Plan = capstoneBad()) {
  const thread = testThread({ 'read notes': readNotesOf, 'do remedy': doRemedyOf })
  const copied: string[] = []
  const desk = new Desk(plan, {
    worker: thread.worker,
    copyBoard: {
      copyText: async (text) => {
        copied.push(text)
        return { kind: 'copied' }
      },
      copyPicture: async () => ({ kind: 'copied' }),
    },
  })
  render(NotesPage, { desk })
  /** The picture rests, and the thread answers. */
  const read = () => {
    vi.advanceTimersByTime(200)
    thread.answer()
  }
  read()
  return { desk, thread, copied, read }
}

const user = userEvent.setup({ advanceTimers: vi.advanceTimersByTime.bind(vi) })
const list = () => within(screen.getByRole('list', { name: 'Notes on weight' }))
const notes = () => list().getAllByRole('article')
const press = (name: string | RegExp) => user.click(screen.getByRole('button', { name }))
const first = () => list().getAllByRole('button', { expanded: false })[0] as HTMLElement

describe('the list', () => {
  test('one line for the take, five notes with frames, level in words and sentence, then the others', async () => {
    open()
    expect(screen.getAllByRole('status')[0]).toHaveTextContent(
      /^\d to fix, first at 103\d: left leg leaves with/,
    )
    expect(notes()).toHaveLength(5)
    for (const note of notes())
      expect(note).toHaveTextContent(/^\d 1\d{3}( to 1\d{3})? (!!|!|~) (breaks|look|style)/)
    await press(/^\d+ more$/)
    expect(notes().length).toBeGreaterThan(5)
    await press('Only the first')
    expect(notes()).toHaveLength(5)
  })

  test('a note goes to its frame and opens its remedy', async () => {
    const { desk } = open()
    const [shown] = desk.notes?.shown ?? []
    expect(screen.queryByRole('button', { name: 'Do it' })).toBeNull()
    await user.click(first())
    expect(desk.frame).toBe(shown?.from)
    expect(notes()[0]).toHaveTextContent((shown?.remedy ?? 'none').replaceAll('\u00a0', ' '))
    expect(screen.getByRole('button', { name: 'Do it' })).toBeVisible()
  })

  test('all of it as text', async () => {
    const { desk, copied } = open()
    await press('Copy as text')
    expect(copied).toEqual([desk.notes?.text])
  })

  test('says what was read where nothing fires', () => {
    open(stancePlan())
    expect(
      screen.getByText(/He was read for contacts, pelvis, timing, spine and head, arms and texture/),
    ).toBeVisible()
    expect(screen.getByText('Nothing breaks the weight.')).toBeVisible()
  })
})

describe('remedies', () => {
  test('one press is one step of undo; the old list stays, marked, until the take is read again', async () => {
    const { desk, thread, read } = open()
    const before = writePlan(desk.plan)
    const count = desk.notes?.notes.length ?? 0
    await user.click(first())
    await press('Do it')
    thread.answer()
    expect(writePlan(desk.plan)).not.toBe(before)
    expect(desk.undoLabel).toBe('Lifts too early')
    expect(screen.getByText('Being read again …')).toBeVisible()
    expect(notes()).toHaveLength(5)
    expect(
      screen.queryAllByRole('button', { name: 'Do it' }).every((button) => button.matches(':disabled')),
    ).toBe(true)
    read()
    expect(screen.queryByText('Being read again …')).toBeNull()
    expect(desk.notes?.notes.length).toBeLessThan(count)
    desk.undo()
    expect(writePlan(desk.plan)).toBe(before)
  })

  test('pressed in turn, as far as there are buttons, leave nothing that breaks the weight', async () => {
    const { desk, thread, read } = open()
    for (let pressed = 0; pressed < 10; pressed++) {
      const breaks = notes().find((note) => note.textContent?.includes('breaks the weight'))
      if (!breaks) break
      if (within(breaks).queryByRole('button', { name: 'Do it' }) === null)
        await user.click(within(breaks).getAllByRole('button')[0] as HTMLElement)
      await user.click(within(breaks).getByRole('button', { name: 'Do it' }))
      thread.answer()
      read()
    }
    expect(desk.notes?.line).toMatch(/^Nothing breaks the weight/)
  })

  test('a take that was changed meanwhile is left alone', async () => {
    const { desk, thread } = open()
    await user.click(first())
    await press('Do it')
    desk.edit('Title', (plan) => ({
      ...plan,
      takes: plan.takes.map((take) => ({ ...take, name: 'Another' })),
    }))
    const { plan } = desk
    thread.answer()
    expect(desk.plan).toBe(plan)
    expect(desk.status?.text).toMatch(/changed meanwhile/)
  })
})

test('a note is set aside with a reason, kept in the plan, and brought back', async () => {
  const { desk, read } = open()
  const [shown] = desk.notes?.shown ?? []
  await user.click(first())
  await press('Set aside …')
  const field = screen.getByRole('textbox', { name: 'Why it is meant so' })
  expect(field).toHaveFocus()
  expect(screen.getByRole('button', { name: 'Set it aside' })).toBeDisabled()
  await user.type(field, 'He is thrown.{Enter}')
  read()
  expect(desk.take.setAside).toMatchObject([
    { rule: shown?.rule, from: shown?.from, reason: 'He is thrown.' },
  ])
  expect(desk.notes?.notes.some(({ sentence }) => sentence === shown?.sentence)).toBe(false)
  await user.click(screen.getByText('Set aside: 1'))
  expect(screen.getByRole('list', { name: 'Notes set aside' })).toHaveTextContent('He is thrown.')
  await press(/^Bring back/)
  read()
  expect(desk.take.setAside).toEqual([])
  expect(desk.notes?.notes.some(({ sentence }) => sentence === shown?.sentence)).toBe(true)
})

test('in the style graphic a push is a plain number', async () => {
  const { desk, read } = open()
  await user.click(screen.getByRole('radio', { name: 'graphic' }))
  read()
  expect(desk.take.style).toBe('graphic')
  const pushes = desk.notes?.notes.filter(({ rule }) => rule === 'push') ?? []
  expect(pushes.length).toBeGreaterThan(0)
  expect(pushes.every(({ level }) => level === 'style')).toBe(true)
})

test('accents are marked at the frame and taken out; two on one drawing are a note', async () => {
  const { desk, read } = open(stancePlan())
  desk.setFrame(12)
  flushSync()
  await user.click(screen.getByText('Accents'))
  for (const name of ['blink', 'fist closes']) {
    await user.type(screen.getByLabelText('At 1013'), name)
    await press('Mark it')
  }
  read()
  expect(desk.take.accents.map(({ frame, name }) => [frame, name])).toEqual([
    [12, 'blink'],
    [12, 'fist closes'],
  ])
  expect(notes()[0]).toHaveTextContent('blink and fist closes start together at 1013.')
  await press('Take out blink at 1013')
  read()
  expect(desk.notes?.notes).toEqual([])
})

test('numbers in the sheet’s margin are those of the page', () => {
  const { desk } = open()
  const margin = marginOf(desk.notes)
  const [shown] = desk.notes?.shown ?? []
  expect(margin.get(shown?.from ?? -1)).toMatch(/^note 1: lifts too early/)
  expect(marginOf(null).size).toBe(0)
})
