import { expect, it } from 'vitest'
import type { Plan } from '../../src/document/plan'
import { begin, cancel, change, commit, newHistory, perform, redo, undo } from '../../src/plan/history'
import { faultsOf, readPlan } from '../../src/plan/read'
import { writePlan } from '../../src/plan/write'
import { random } from '../../src/space/random'
import { EDITS, randomEdit } from './random-edit'
import { randomPlan } from './random-plan'

/** Freezes everything, so that an edit that changes its plan in place throws. */
function frozen<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value
  Object.freeze(value)
  Object.values(value).forEach(frozen)
  return value
}

it('every edit of 6,000 random ones leaves a plan in order and its argument as it was', () => {
  const done = new Set<string>()
  for (let seed = 0; seed < 100; seed++) {
    const next = random(seed)
    let plan = frozen(randomPlan(next))
    for (let step = 0; step < 60; step++) {
      const edit = randomEdit(plan, next)
      const why = `seed ${seed}, step ${step}: ${edit.name}`
      expect(faultsOf(edit.plan), why).toEqual([])
      if (edit.plan !== plan) done.add(edit.name)
      plan = frozen(edit.plan)
    }
    const read = readPlan(writePlan(plan))
    expect(read.ok, `seed ${seed}`).toBe(true)
  }
  expect([...done].sort()).toEqual(Object.keys(EDITS).sort())
}, 60_000)

it('an edit that changes nothing gives back the very same plan', () => {
  let same = 0
  for (let seed = 0; seed < 100; seed++) {
    const next = random(seed)
    let plan = randomPlan(next)
    for (let step = 0; step < 20; step++) {
      const edit = randomEdit(plan, next)
      if (edit.plan === plan) same += 1
      else
        expect(JSON.stringify(edit.plan), `seed ${seed}, step ${step}: ${edit.name}`).not.toBe(
          JSON.stringify(plan),
        )
      plan = edit.plan
    }
  }
  expect(same).toBeGreaterThan(100)
}, 60_000)

it('undo and redo give back the very states, whatever was done', () => {
  for (let seed = 0; seed < 60; seed++) {
    const next = random(seed)
    let history = newHistory(randomPlan(next))
    // What the history must hold, kept in the plainest way.
    const past: Plan[] = []
    let future: Plan[] = []
    let present = history.present
    const remember = (plan: Plan) => {
      if (plan === present) return
      past.push(present)
      future = []
      present = plan
    }
    for (let step = 0; step < 80; step++) {
      const what = next()
      if (what < 0.25) {
        history = undo(history)
        const before = past.pop()
        if (before !== undefined) {
          future.push(present)
          present = before
        }
      } else if (what < 0.4) {
        history = redo(history)
        const after = future.pop()
        if (after !== undefined) {
          past.push(present)
          present = after
        }
      } else if (what < 0.6) {
        history = begin(history, 'drag')
        for (let i = 0; i < 4; i++) history = change(history, randomEdit(history.present, next).plan)
        if (next() < 0.3) history = cancel(history)
        else {
          remember(history.present)
          history = commit(history)
        }
      } else {
        const edit = randomEdit(history.present, next)
        history = perform(history, edit.name, edit.plan)
        remember(edit.plan)
      }
      expect(history.present === present, `seed ${seed}, step ${step}`).toBe(true)
    }
    while (past.length > 0) {
      history = undo(history)
      expect(history.present === past.pop(), `seed ${seed}`).toBe(true)
    }
  }
}, 60_000)
