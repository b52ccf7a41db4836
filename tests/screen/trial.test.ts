import { cleanup, render, screen } from '@testing-library/svelte'
import { flushSync } from 'svelte'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { setControls } from '../../src/plan/edit/keys'
import { trialCommands } from '../../src/screen/commands/trial'
import { Desk } from '../../src/screen/desk.svelte'
import WeighPage from '../../src/screen/pages/WeighPage.svelte'
import { Playback } from '../../src/screen/playback.svelte'
import Stage from '../../src/screen/stage/Stage.svelte'
import { RESTED } from '../../src/screen/trial/constants'
import { liftTryOf } from '../../src/screen/trial/lift-try.svelte'
import type { WorkerClient } from '../../src/worker/client'
import type { FrameProblem } from '../../src/worker/protocol'
import { secondOpinionsAt, tryLiftAt } from '../../src/worker/trials'
import { capstone } from '../support/capstone'
import { stancePlan } from '../support/plans'
import { fakeFrames } from '../support/shell'
import '../support/jsdom-layout'

HTMLCanvasElement.prototype.getContext = () => null
beforeEach(() => vi.useFakeTimers())
afterEach(() => {
  cleanup()
  vi.useRealTimers()
  vi.unstubAllGlobals()
})

/** The calculation thread on this thread; trials are answered at once, or when `answer` is called. */
function trials(held: (() => void)[] | null = null): Pick<WorkerClient, 'request'> & { asked: string[] } {
  const asked: string[] = []
  return {
    asked,
    request(job, input, listener) {
      if (job === 'weigh take') return
      asked.push(job)
      const work = job === 'try lift' ? tryLiftAt : secondOpinionsAt
      const answer = () => listener.pieces([...work(input as FrameProblem)] as never[], true)
      if (held) held.push(answer)
      else answer()
    },
  }
}

function open(plan = capstone(), held: (() => void)[] | null = null) {
  const worker = trials(held)
  const desk = new Desk(plan, { worker })
  const frames = fakeFrames()
  const lift = liftTryOf(desk, frames)
  render(Stage, { desk })
  render(WeighPage, { desk })
  return { desk, frames, lift, worker }
}

const press = (name: string | RegExp) => {
  screen.getByRole('button', { name }).click()
  flushSync()
}
const outcome = () => screen.queryByRole('region', { name: 'What came of the trial' })
const stopButton = () => screen.queryByRole('button', { name: 'Stop the trial' })

test('at the first key he tips to his left, in words and on the stage, and it fades', () => {
  const { frames, lift, desk } = open()
  press('Try the lift')
  expect(outcome()).toHaveTextContent(/He tips to his left\. ?Past 5° in 0\.27\ss, 6½\sframes\./)
  expect(desk.status?.text).toMatch(/^He tips to his left\. Past 5°/)
  frames.show(1000)
  flushSync()
  expect(lift.showing).toMatchObject({ angle: 0, opacity: 1 })
  expect(stopButton()).toBeVisible()
  frames.show(1000 + 350 + (1000 * 7) / 24 + 1)
  expect(lift.showing?.since).toBe(7)
  expect(((lift.showing?.angle ?? 0) * 180) / Math.PI).toBeGreaterThan(5)
  frames.show(1000 + 350 + (1000 * 10) / 24 + 900 + 250)
  expect(lift.showing?.opacity).toBeCloseTo(0.5, 2)
  frames.show(1000 + 350 + (1000 * 10) / 24 + 900 + 501)
  flushSync()
  expect(lift.showing).toBeNull()
  expect(stopButton()).toBeNull()
  expect(frames.waiting).toBe(0)
  expect(outcome()).toHaveTextContent('He tips to his left.')
})

test('at the end of the sink he holds', () => {
  const { desk } = open()
  desk.setFrame(31)
  flushSync()
  press('Try the lift')
  expect(outcome()).toHaveTextContent(/He holds\. ?\d+\scm of room before he would tip to his left\./)
})

test('Escape and the button stop it; what came of it stays', () => {
  const { frames, lift } = open()
  for (const stop of [
    () => window.dispatchEvent(new KeyboardEvent('keydown', { key: 'Escape', cancelable: true })),
    () => press('Stop the trial'),
  ]) {
    press(/^Try /)
    frames.show(0)
    flushSync()
    expect(lift.showing).not.toBeNull()
    stop()
    flushSync()
    expect(lift.showing).toBeNull()
    expect(frames.waiting).toBe(0)
    expect(outcome()).toHaveTextContent('He tips to his left.')
  }
})

test('an edit, another frame and another mover end it and what was said', () => {
  const { desk, frames, lift } = open()
  const ends: (() => void)[] = [
    () => desk.setFrame(3),
    () => desk.edit('Move', (plan) => setControls(plan, desk.takeId, desk.frame, { 'pelvis.x': 0.01 })),
    () => screen.getByRole('button', { name: /^Fist L/ }).click(),
  ]
  for (const end of ends) {
    press('Try the lift')
    frames.show(0)
    expect(lift.showing).not.toBeNull()
    end()
    flushSync()
    expect(lift.showing).toBeNull()
    expect(outcome()).toBeNull()
    frames.show(20)
    expect(frames.waiting).toBe(0)
  }
})

test('an answer to an older trial, or to a pose that has gone, is passed over', () => {
  const held: (() => void)[] = []
  const { desk, frames } = open(capstone(), held)
  press('Try the lift')
  expect(document.body).toHaveTextContent('Trying …')
  desk.setFrame(2)
  flushSync()
  held[0]?.()
  flushSync()
  expect(outcome()).toBeNull()
  expect(frames.waiting).toBe(0)
})

test('where nothing may move, the pose is shown still as it has just tipped', () => {
  vi.stubGlobal('matchMedia', (query: string) => ({
    matches: query.includes('reduced-motion'),
    addEventListener: () => undefined,
    removeEventListener: () => undefined,
  }))
  const { frames, lift } = open()
  press('Try the lift')
  expect(frames.waiting).toBe(0)
  expect(lift.showing?.since).toBe(7)
  press('Stop the trial')
  expect(lift.showing).toBeNull()
})

test('a limb that is off can’t be tried, and it says why', () => {
  const desk = new Desk(stancePlan('standing'), { worker: trials() })
  desk.edit('Choose', (plan) => ({
    ...plan,
    takes: plan.takes.map((take) => ({ ...take, mover: { limb: 'armL' as const, toesStay: false } })),
  }))
  render(WeighPage, { desk })
  const button = screen.getByRole('button', { name: 'Try the lift' })
  expect(button).toBeDisabled()
  expect(button).toHaveAccessibleDescription(/off already/)
})

test('L tries it from any page; playing stops first', () => {
  const { desk, lift } = open()
  const playback = new Playback(desk, fakeFrames())
  const [command] = trialCommands(desk, playback)
  desk.setPage('body')
  playback.play()
  command?.run(desk)
  expect(command?.keys).toEqual(['L'])
  expect(playback.playing).toBe(false)
  expect(desk.page).toBe('weigh')
  expect(lift.words?.headline).toBe('He tips to his left.')
})

test('the second opinion is not asked for before the first trial, and then says how near it is', () => {
  const { worker } = open(stancePlan())
  vi.advanceTimersByTime(10 * RESTED)
  expect(worker.asked).toEqual([])
  press('Try the lift')
  vi.advanceTimersByTime(RESTED)
  flushSync()
  expect(worker.asked).toEqual(['try lift', 'second opinion'])
  expect(
    screen.getByText(/Loads checked by a physics engine in the front and side views: within 0\.0\d\s%\./),
  ).toBeInTheDocument()
  expect(screen.getByRole('rowheader', { name: 'knee R, toes R' })).toBeInTheDocument()
})

test('where no view shows two places, it says nothing', () => {
  const { worker } = open()
  press('Try the lift')
  vi.advanceTimersByTime(RESTED)
  flushSync()
  expect(worker.asked).toEqual(['try lift', 'second opinion'])
  expect(screen.queryByText(/physics engine/)).toBeNull()
})
