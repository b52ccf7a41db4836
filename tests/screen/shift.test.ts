import { render, screen, within } from '@testing-library/svelte'
import userEvent from '@testing-library/user-event'
import { flushSync } from 'svelte'
import { describe, expect, test, vi } from 'vitest'
import type { Plan } from '../../src/document/plan'
import { setManner } from '../../src/plan/edit/takes'
import { writePlan } from '../../src/plan/write'
import { Desk } from '../../src/screen/desk.svelte'
import ShiftPage from '../../src/screen/shift/ShiftPage.svelte'
import { shiftStateOf } from '../../src/screen/shift/shift-state.svelte'
import { stageStateOf } from '../../src/screen/stage/stage-state.svelte'
import { distance } from '../../src/space/vec'
import { planShiftOf } from '../../src/worker/plan-shift'
import type { ShiftPiece, ShiftProblem } from '../../src/worker/protocol'
import { capstone } from '../support/capstone'
import '../support/jsdom-layout'
import { stancePlan } from '../support/plans'

HTMLCanvasElement.prototype.getContext = () => null

/** The same question has the same answer: planned once. */
const known = new Map<string, readonly ShiftPiece[]>()
function piecesOf(problem: ShiftProblem | null): readonly ShiftPiece[] {
  const key = JSON.stringify(problem)
  const pieces = known.get(key) ?? [...planShiftOf(problem)]
  known.set(key, pieces)
  return pieces
}

/** What planning in the page's own thread may take on a busy machine. */
vi.setConfig({ testTimeout: 60_000 })

/** A desk whose planner answers when it is told to. */
function open(plan: Plan = capstone()) {
  const asked: {
    problem: ShiftProblem | null
    pieces: (pieces: readonly ShiftPiece[], done: boolean) => void
    failed: (reason: string) => void
  }[] = []
  const worker = {
    request: (
      job: string,
      problem: unknown,
      listener: {
        pieces: (pieces: never[], done: boolean) => void
        failed: (reason: string) => void
      },
    ) => {
      if (job === 'plan shift')
        asked.push({
          problem: problem as ShiftProblem | null,
          pieces: listener.pieces as never,
          failed: listener.failed,
        })
    },
  }
  const desk = new Desk(plan, { worker: worker as never })
  stageStateOf(desk).drawing.setSize(838, 676, false)
  desk.setPage('shift')
  render(ShiftPage, { desk })
  const answer = () => {
    const { problem, pieces } = asked.at(-1) as (typeof asked)[number]
    pieces(piecesOf(problem), true)
    flushSync()
  }
  const fail = (reason: string) => {
    asked.at(-1)?.failed(reason)
    flushSync()
  }
  return { desk, asked, answer, fail }
}

describe('asking', () => {
  test('two presses from the demo to options, each with a strip and its figures; one becomes a take', async () => {
    const { desk, answer } = open()
    const before = writePlan(desk.plan)
    await userEvent.click(screen.getByRole('button', { name: 'Plan it' }))
    expect(screen.getByRole('button', { name: 'Stop' })).toBeVisible()
    answer()
    const [first] = screen.getAllByRole('article')
    expect(first).toHaveTextContent('The pelvis leads')
    expect(first).toHaveTextContent(/\d+ frames · leans \d+°, hip line \d+° · most on the right leg: \d+\s%/)
    await userEvent.click(within(first as HTMLElement).getByRole('button', { name: /Use it/ }))
    expect(desk.plan.takes).toHaveLength(2)
    expect(desk.take.name).toBe('The pelvis leads')
    expect(desk.take.phases.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['press', 'lean', 'sink', 'lift', 'travel', 'touch']),
    )
    desk.undo()
    flushSync()
    expect(writePlan(desk.plan)).toBe(before)
  })

  test('the ways that were found are there again on the take they were found for', async () => {
    const { desk, answer } = open()
    await userEvent.click(screen.getByRole('button', { name: 'Plan it' }))
    answer()
    const found = screen.getAllByRole('article').length
    await userEvent.click(screen.getAllByRole('button', { name: /Use it/ })[0] as HTMLElement)
    await userEvent.click(screen.getByRole('button', { name: `Back to ${desk.plan.takes[0]?.name}` }))
    expect(screen.getAllByRole('article')).toHaveLength(found)
    expect(desk.take.id).toBe(desk.plan.takes[0]?.id)
  })

  test('from the end of a shift the next is planned', async () => {
    const { desk, answer } = open()
    await userEvent.click(screen.getByRole('button', { name: 'Plan it' }))
    answer()
    await userEvent.click(screen.getAllByRole('button', { name: /Use it/ })[0] as HTMLElement)
    await userEvent.click(screen.getByRole('button', { name: /^Then, from/ }))
    expect(desk.frame).toBeGreaterThan(40)
    expect(shiftStateOf(desk).question?.frame).toBe(desk.frame)
    // The left foot is down now: what a standing foot can do is offered.
    expect(screen.getByLabelText('Where it goes')).toHaveTextContent('back to heel sit')
  })

  test('a question that is stopped has no answer; one that was answered keeps it while other frames are looked at', async () => {
    const { desk, asked, answer } = open()
    await userEvent.click(screen.getByRole('button', { name: 'Plan it' }))
    await userEvent.click(screen.getByRole('button', { name: 'Stop' }))
    expect(asked.at(-1)?.problem).toBeNull()
    expect(screen.getByRole('button', { name: 'Plan it' })).toHaveFocus()
    await userEvent.click(screen.getByRole('button', { name: 'Plan it' }))
    answer()
    const found = screen.getAllByRole('article').length
    desk.setFrame(9)
    flushSync()
    expect(screen.getAllByRole('article')).toHaveLength(found)
    expect(screen.getByText('Answer to: left leg, forward to half kneel, from 1001.')).toBeVisible()
    await userEvent.click(screen.getAllByRole('button', { name: /Use it/ })[0] as HTMLElement)
    expect(desk.frame).toBe(0)
  })

  test('pace is the take’s: once it is changed, the ways that were found for another are gone', async () => {
    const { desk, answer } = open()
    await userEvent.click(screen.getByRole('button', { name: 'Plan it' }))
    answer()
    desk.edit('Pace', (plan) => setManner(plan, desk.takeId, { pace: 1 }))
    flushSync()
    expect(screen.queryAllByRole('article')).toHaveLength(0)
  })

  test('a way that is pointed at or gone through by keys is drawn over the stage, and used the focus goes on', async () => {
    const { desk, answer } = open()
    await userEvent.click(screen.getByRole('button', { name: 'Plan it' }))
    answer()
    const outlines = () => JSON.stringify(stageStateOf(desk).drawing.stage.list)
    const without = outlines()
    const strip = screen.getAllByRole('slider', { name: /^Key poses/ })[0] as HTMLElement
    strip.focus()
    flushSync()
    const leaving = outlines()
    expect(leaving).not.toBe(without)
    await userEvent.keyboard('{End}')
    expect(strip).toHaveAttribute('aria-valuetext', expect.stringContaining('settle'))
    expect(outlines()).not.toBe(leaving)
    strip.blur()
    flushSync()
    expect(outlines()).toBe(without)
    await userEvent.click(screen.getAllByRole('button', { name: /Use it/ })[0] as HTMLElement)
    await vi.waitFor(() => expect(screen.getByRole('button', { name: /^Then, from/ })).toHaveFocus())
  })

  test('wishes go into the question, and are counted while they are folded away', async () => {
    const { desk } = open()
    await userEvent.click(screen.getByRole('button', { name: 'More wishes' }))
    await userEvent.selectOptions(screen.getByLabelText('its foot'), 'stays')
    await userEvent.selectOptions(screen.getByLabelText('led by'), 'chest')
    await userEvent.type(screen.getByLabelText('not before'), '1030{Enter}')
    await userEvent.tab()
    expect(shiftStateOf(desk).question).toMatchObject({ foot: 'stays', leads: 'chest', notBefore: 29 })
    await userEvent.click(screen.getByRole('button', { name: /^Fewer wishes/ }))
    expect(screen.getByRole('button', { name: 'More wishes: 3' })).toBeVisible()
  })
})

test('the planner’s breakdown is said, with what to do', async () => {
  const { fail } = open()
  await userEvent.click(screen.getByRole('button', { name: 'Plan it' }))
  fail('out of memory')
  expect(screen.getByRole('alert')).toHaveTextContent(/out of memory\. Plan it again, or from another frame/)
})

describe('what cannot be done', () => {
  test('knees too far apart and no hand: the limit, and remedies that are takes', async () => {
    const wide = stancePlan('tall-kneel')
    const take = wide.takes[0] as (typeof wide.takes)[number]
    const spread = 0.12 * wide.body.stature
    const apart: Plan = {
      ...wide,
      takes: [
        {
          ...take,
          contacts: take.contacts.map((contact) => ({
            ...contact,
            position: [
              contact.part.endsWith('L') ? spread : -spread,
              contact.position[1],
              contact.position[2],
            ],
          })),
        },
      ],
    }
    const { desk, answer } = open(apart)
    await userEvent.selectOptions(screen.getByLabelText('Where it goes'), 'shuffle')
    await userEvent.click(screen.getByRole('button', { name: 'More wishes' }))
    await userEvent.click(screen.getByLabelText('a hand may help'))
    await userEvent.click(screen.getByRole('button', { name: 'Plan it' }))
    answer()
    const state = shiftStateOf(desk)
    if (state.asked?.answer?.found !== false) throw new Error('there should be no way')
    expect(screen.getByText(state.asked.answer.limit.text)).toBeVisible()
    for (const { text } of state.asked.answer.remedies) expect(screen.getByText(text)).toBeVisible()
  })

  test('a limb in the air is told so, and where it is down', async () => {
    const { desk } = open()
    desk.setFrame(50)
    flushSync()
    expect(screen.getByText(/is in the air/)).toBeVisible()
    expect(screen.queryByRole('button', { name: 'Plan it' })).toBeNull()
    await userEvent.click(screen.getByRole('button', { name: 'Go to 1034, where it touches' }))
    expect(desk.frame).toBe(33)
    expect(screen.getByRole('button', { name: 'Plan it' })).toBeVisible()
  })
})

test('a place is typed as he sees it and marked on the stage, where dragging it leaves the plan alone', async () => {
  const { desk } = open()
  await userEvent.selectOptions(screen.getByLabelText('Where it goes'), 'place')
  const shift = shiftStateOf(desk)
  const field = screen.getByLabelText('forward')
  await userEvent.clear(field)
  await userEvent.type(field, '20{Enter}')
  field.blur()
  flushSync()
  expect(shift.place[2] - shift.from[2]).toBeCloseTo(0.2, 6)
  const { drawing } = stageStateOf(desk)
  const target = drawing.things.find(({ id }) => id === 'target')
  expect(target?.at).toEqual(shift.place)
  const { plan } = desk
  const to = [shift.place[0] + 0.1, shift.place[1], shift.place[2]] as const
  expect(target?.hold()(to, [0, 1, 0])).toBe(plan)
  expect(distance(shift.place, to)).toBeLessThan(1e-9)
  expect(JSON.stringify(drawing.stage.list)).toContain('to here')
})
