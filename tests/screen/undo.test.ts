import { describe, expect, test } from 'vitest'
import type { Plan } from '../../src/document/plan'
import { HISTORY_STEPS } from '../../src/plan/constants'
import { faultsOf } from '../../src/plan/read'
import { writePlan } from '../../src/plan/write'
import type { Command } from '../../src/screen/commands/command'
import { random } from '../../src/space/random'
import { randomEdit } from '../plan/random-edit'
import { pick, randomPlan, type Source, wholeBetween } from '../plan/random-plan'
import { testShell } from '../support/shell'

/** Commands that put another plan on the desk, on the disk or on paper: nothing of theirs is undone. */
const COMES_AND_GOES = ['new-plan', 'shelf', 'demo', 'open-file', 'save-file', 'keep-copy', 'csv', 'print']

/** Frozen to the last key, so that whatever changed a state in place would throw. */
function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value)
    Object.values(value).forEach(frozen)
  }
  return value
}

/** What the desk must hold after every step, kept in the plainest way: every state, and where we are among them. */
class Model {
  #states: { plan: Plan; text: string }[]
  #at = 0
  constructor(plan: Plan) {
    this.#states = [Model.#state(plan)]
  }
  static #state(plan: Plan) {
    return { plan: frozen(plan), text: writePlan(plan) }
  }
  get here() {
    return this.#states[this.#at] as { plan: Plan; text: string }
  }
  did(plan: Plan): void {
    if (plan === this.here.plan) return
    this.#states = [...this.#states.slice(0, this.#at + 1), Model.#state(plan)].slice(-HISTORY_STEPS - 1)
    this.#at = this.#states.length - 1
  }
  back(): void {
    this.#at = Math.max(0, this.#at - 1)
  }
  forth(): void {
    this.#at = Math.min(this.#states.length - 1, this.#at + 1)
  }
  get steps() {
    return { back: this.#at, forth: this.#states.length - 1 - this.#at }
  }
}

function walk(seed: number, steps: number): Set<string> {
  const next = random(seed)
  const { shell, desk } = testShell(frozen(randomPlan(next)))
  const model = new Model(desk.plan)
  const done = new Set<string>()
  const commands = shell.commands.filter(({ id }) => !COMES_AND_GOES.includes(id))

  const step = (): string => {
    const what = next()
    if (what < 0.45) return command(pick(next, commands))
    if (what < 0.6) return command(shell.command(next() < 0.65 ? 'undo' : 'redo'))
    if (what < 0.75) {
      const { name, plan } = randomEdit(desk.plan, next)
      desk.edit(name, () => plan)
      model.did(desk.plan)
      return name
    }
    if (what < 0.85) return gesture(next)
    desk.setFrame(wholeBetween(next, -5, 150))
    if (next() < 0.3) desk.setTake(pick(next, desk.plan.takes).id)
    return 'look elsewhere'
  }

  const command = (one: Command): string => {
    if (!one.when(desk)) return `${one.id}, which can’t be done`
    const before = desk.plan
    shell.run(one)
    shell.show(null)
    if (one.id === 'undo') model.back()
    else if (one.id === 'redo') model.forth()
    else model.did(desk.plan)
    if (desk.plan !== before) done.add(one.id)
    return one.id
  }

  const gesture = (source: Source): string => {
    desk.begin('Drag')
    for (let i = 0; i < 3; i++) desk.change((plan) => frozen(randomEdit(plan, source).plan))
    const ends = pick(source, ['commit', 'cancel', 'undo'] as const)
    if (ends === 'commit') {
      model.did(desk.plan)
      desk.commit()
    } else if (ends === 'cancel') desk.cancel()
    else desk.undo()
    return `a gesture and ${ends}`
  }

  const agree = (why: string) => {
    expect(desk.plan, why).toBe(model.here.plan)
    expect(desk.busy, why).toBe(false)
    const { back, forth } = model.steps
    expect([desk.undoLabel !== undefined, desk.redoLabel !== undefined], why).toEqual([back > 0, forth > 0])
  }

  for (let i = 0; i < steps; i++) {
    const what = step()
    agree(`seed ${seed}, step ${i}: ${what}`)
  }
  const faults = faultsOf(desk.plan)
  expect(faults, `seed ${seed}`).toEqual([])
  // All the way back and all the way forth, to the letter.
  for (const way of ['undo', 'redo'] as const)
    for (let i = 0; i < steps + 2; i++) {
      desk[way]()
      if (way === 'undo') model.back()
      else model.forth()
      agree(`seed ${seed}, ${way} ${i}`)
      expect(writePlan(desk.plan), `seed ${seed}, ${way} ${i}`).toBe(model.here.text)
    }
  return done
}

describe('undo and redo', () => {
  test('give back every state, whatever commands, edits and gestures came between', {
    timeout: 120_000,
  }, () => {
    const done = new Set<string>()
    for (let seed = 0; seed < 25; seed++) for (const id of walk(seed, 60)) done.add(id)
    // Every command that changes a plan must have had its turn, or this says nothing of it.
    for (const id of CHANGING) expect([...done]).toContain(id)
  })
})

const CHANGING = [
  'undo',
  'redo',
  'add-key',
  'delete-key',
  'hold-key',
  'paste-key',
  'key-later',
  'key-earlier',
  'add-frame',
  'take-frame-out',
  'duplicate-take',
  'delete-take',
  'mirror-plan',
]
