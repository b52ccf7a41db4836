import { render, screen, within } from '@testing-library/svelte'
import userEvent from '@testing-library/user-event'
import { flushSync } from 'svelte'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import type { Plan, Take } from '../../src/document/plan'
import { resizePlan } from '../../src/plan/edit/resize'
import { phases } from '../../src/plan/edit/things'
import { faultsOf } from '../../src/plan/read'
import { writePlan } from '../../src/plan/write'
import { Desk } from '../../src/screen/desk.svelte'
import { beatsAsNotes, retimeToBeats, sharedBeats } from '../../src/screen/reads/beats'
import { everydayText } from '../../src/screen/reads/everyday'
import ReadsPage from '../../src/screen/reads/ReadsPage.svelte'
import { readsStateOf } from '../../src/screen/reads/reads-state.svelte'
import { retimed, retimingFor, type Stretch } from '../../src/screen/reads/retime'
import type { SpanReading } from '../../src/worker/protocol'
import { readsAsOf } from '../../src/worker/reads-as'
import { capstone } from '../support/capstone'
import { capstoneBad } from '../support/capstone-bad'
import '../support/jsdom-layout'
import { stancePlan } from '../support/plans'
import { testThread } from '../support/thread'

HTMLCanvasElement.prototype.getContext = () => null
// Whole takes are weighed here, on a machine that may be busy.
vi.setConfig({ testTimeout: 60_000 })
beforeEach(() => void vi.useFakeTimers({ shouldAdvanceTime: true }))
afterEach(() => void vi.useRealTimers())

function open(plan: Plan = capstone()) {
  const thread = testThread({ 'reads as': readsAsOf })
  const desk = new Desk(plan, { worker: thread.worker })
  render(ReadsPage, { desk })
  const read = () => {
    vi.advanceTimersByTime(200)
    thread.answer()
  }
  read()
  return { desk, read, reads: readsStateOf(desk) }
}

const user = userEvent.setup({ advanceTimers: vi.advanceTimersByTime.bind(vi) })
const press = (name: string | RegExp) => user.click(screen.getByRole('button', { name }))
const panel = (name: string) =>
  user.click(within(screen.getByRole('navigation', { name: 'Reads as' })).getByRole('button', { name }))

const takeOf = (plan: Plan): Take => plan.takes[0] as Take
const readingsOf = (plan: Plan) => [...readsAsOf({ plan, chosen: null })].at(-1) as readonly SpanReading[]
const moverIn = (plan: Plan) =>
  readingsOf(plan).find(({ span }) => span.limb === takeOf(plan).mover.limb) as SpanReading

describe('size', () => {
  test('the mover’s move is read at once: a size, needed against used, and whether it is his', () => {
    open()
    const said = screen.getByRole('status')
    expect(said).toHaveTextContent(
      /^Reads as a body of [\d.]+ to [\d.]+ m, \d+ to \d+ kg\. It takes \d+ frames/,
    )
    expect(said).toHaveTextContent(
      /\d+ is the least he can do it in\. That is 1\.\d times as long\. That fits his own 2\.6 m\./,
    )
    expect(screen.getByText(/our own reckoning/)).toHaveTextContent('1.2 to 1.8 times')
    expect(screen.getByRole('button', { name: /^Retime to read as 2\.6\sm$/ })).toBeDisabled()
  })

  test('retimed to another size it reads as that, in one step of undo', async () => {
    const { desk, read, reads } = open()
    const before = writePlan(desk.plan)
    const length = desk.take.length
    const field = screen.getByRole('textbox', { name: 'a body of' })
    await user.clear(field)
    await user.type(field, '5 m{Tab}')
    expect(desk.plan.takes[0]?.length).toBe(length)
    await press(/^Retime to read as 5\sm$/)
    expect(screen.getByText('Being read again …')).toBeVisible()
    read()
    const [least, most] = reads.reading?.reading?.stature ?? [0, 0]
    expect(least).toBeLessThan(5)
    expect(most).toBeGreaterThan(5)
    expect(desk.take.length).toBeGreaterThan(length)
    desk.undo()
    expect(writePlan(desk.plan)).toBe(before)
  })

  test('where no pace will do it says at which frame and why, and retimes nothing', () => {
    open(capstoneBad())
    expect(screen.getByRole('status')).toHaveTextContent(
      /Reads as nobody: no even pace will do\..*Frame 10\d\d stops it: .*Mend that first; the Notes say how\./,
    )
    expect(screen.queryByRole('button', { name: /^Retime/ })).toBeNull()
  })

  test('where nothing is timed by gravity a stretch of one’s own can be', async () => {
    const plan = stancePlan()
    const { read, reads } = open(phases.add(plan, takeOf(plan).id, { name: 'lean', from: 0, to: 10 }))
    expect(screen.getByText('Nothing here is timed by gravity.')).toBeVisible()
    await user.selectOptions(screen.getByRole('combobox'), 'a stretch of my own …')
    read()
    expect(reads.reading?.span.kind).toBe('chosen')
    expect(screen.getByRole('status')).toHaveTextContent('Reads as slow, not large.')
    await press('Leave it')
    expect(reads.chosen).toBeNull()
  })
})

describe('a retiming', () => {
  test.each<[Stretch, number]>([
    ['move', 0.5],
    ['move', 1.9],
    ['move', 4],
    ['take', 0.5],
    ['take', 1.9],
    ['take', 4],
  ])('of the %s to %f times the size is read back as that', (stretch, times) => {
    const plan = capstone()
    const { span, reading } = moverIn(plan)
    const asked = { ...span, pace: reading?.pace ?? 0 }
    const retiming = retimingFor(plan, takeOf(plan).id, asked, times, stretch)
    const made = retimed(plan, takeOf(plan).id, retiming)
    expect(faultsOf(made)).toEqual([])
    expect(takeOf(made).length).toBe(retiming.length)
    const after = moverIn(made).reading
    const [least, most] = after?.times ?? [0, 0]
    expect(least).toBeLessThan(times)
    expect(most).toBeGreaterThan(times)
    // What was foretold in numbers, to a quarter: where the leg is almost empty shifts a little with the pace.
    expect(Math.abs(Math.log(retiming.stature[0] / (after?.stature[0] ?? 1)))).toBeLessThan(0.25)
  })

  test('reads alike at any size: the same pace is the same number of times his own', () => {
    const large = resizePlan(capstone(), 5.2)
    const slow = retimed(large, 'take-1', {
      ...retimingFor(large, 'take-1', { from: 0, to: takeOf(large).length - 1, pace: 1 }, 1, 'take'),
      frames: Math.round((takeOf(large).length - 1) * Math.SQRT2),
    })
    const [a, b] = [moverIn(capstone()).reading?.pace ?? 0, moverIn(slow).reading?.pace ?? 0]
    expect(Math.abs(a / b - 1)).toBeLessThan(0.05)
  })
})

describe('loads', () => {
  test.each([
    [0.2, ''],
    [0.6, 'half of a bag of sugar'],
    [77, 'about a grown person'],
    [180, 'about 2½ grown people'],
    [420, 'about 2 upright pianos'],
    [420_000, 'about 11 loaded lorries'],
  ])('%f kg: %s', (kilograms, words) => expect(everydayText(kilograms)).toBe(words))

  test('of the frame beside everyday things, and how strength falls with size', async () => {
    open()
    await panel('Loads')
    expect(screen.getByText('left leg').parentElement).toHaveTextContent(/191 kg about an upright piano/)
    // Twice the size: eight times the mass, half of its own weight on a limb.
    expect(screen.getByRole('row', { name: /^5\.2\sm/ })).toHaveTextContent(
      /about 3400 kg\s*1\.0 of its own weights/,
    )
  })
})

test('two sizes have each their own time', async () => {
  const { desk } = open()
  await panel('Side by side')
  const [own, person] = screen.getAllByRole('figure')
  const seconds = (desk.take.length - 1) / 24
  expect(own).toHaveTextContent(`2.6 m ${seconds.toFixed(1)} s`)
  expect(person).toHaveTextContent(`1.75 m ${(seconds * Math.sqrt(1.75 / 2.6)).toFixed(1)} s`)
  await press('Play both')
  vi.advanceTimersByTime(500)
  flushSync()
  await press('Stop')
  expect(screen.getByRole('button', { name: 'Play both' })).toBeVisible()
})

describe('acting it out', () => {
  test('the cautions stand there, with their sources and without a limit of our own', async () => {
    open()
    await panel('Act it out')
    const care = screen.getByRole('region', { name: 'Before anybody acts it out' })
    for (const words of [
      /pads under the knees/,
      /little or no added weight/,
      /Slow|slow the footage/,
      /qualified/,
    ])
      expect(care).toHaveTextContent(words)
    for (const source of [/AOTA/, /NIOSH/, /Gallagher/, /Pollard, Porter and Redfern, 2011/, /Seidler/])
      expect(care).toHaveTextContent(source)
    expect(care).toHaveTextContent(/no published limit.*none is given/)
  })

  test('speed of the footage goes with the root of the size', async () => {
    open()
    await panel('Act it out')
    // √(1.75 / 2.6) = 0.820, and 24 / 0.820 = 29.3.
    expect(screen.getByText(/play the footage at/)).toHaveTextContent(
      /82 % speed, or shoot at 29 fps and play it at 24/,
    )
  })

  test('beats tapped or typed become his frames, and notes on the sheet in one step', async () => {
    const { desk } = open()
    await panel('Act it out')
    const tap = screen.getByRole('button', { name: 'Tap: starts' })
    tap.focus()
    await user.keyboard(' ')
    expect(screen.getByRole('button', { name: 'Tap: weight over' })).toHaveFocus()
    const field = screen.getByRole('spinbutton', { name: 'leaves' })
    await user.type(field, '1{Tab}')
    // 1 s of a person of 1.75 m is 1.219 s, 29 frames, at 2.6 m.
    expect(within(field.closest('li') as HTMLElement).getByRole('status')).toHaveTextContent('1030')
    const before = desk.take.notes.length
    await press('Into the sheet as notes')
    expect(desk.take.notes.slice(before).map(({ frame, text }) => [frame, text])).toEqual([
      [0, 'acted: starts'],
      [29, 'acted: leaves'],
    ])
    desk.undo()
    expect(desk.take.notes).toHaveLength(before)
    await press('Start again')
    expect(screen.getByRole('button', { name: 'Tap: starts' })).toBeVisible()
  })

  test('a take retimed to beats has them as far apart, and is still a plan', () => {
    const plan = capstone()
    const beats = [
      { name: 'starts', frame: 10 },
      { name: 'leaves', frame: 60 },
      { name: 'touches', frame: 100 },
      { name: 'loaded', frame: 109 },
    ] as const
    const made = retimeToBeats(plan, takeOf(plan).id, beats)
    expect(faultsOf(made)).toEqual([])
    const own = sharedBeats(takeOf(made), beats).map((beat) => beat.own)
    expect(own).toHaveLength(4)
    expect(own.map((frame) => frame - (own[0] as number))).toEqual([0, 50, 90, 99])
    expect(own[0]).toBe(sharedBeats(takeOf(plan), beats)[0]?.own)
    // One beat is no time.
    expect(retimeToBeats(plan, takeOf(plan).id, beats.slice(0, 1))).toBe(plan)
  })

  test('beats after the end make the take longer', () => {
    const plan = stancePlan()
    const made = beatsAsNotes(plan, takeOf(plan).id, [{ name: 'still', frame: 60 }])
    expect(takeOf(made).length).toBe(61)
    expect(takeOf(made).notes).toMatchObject([{ frame: 60, text: 'acted: still' }])
  })
})
