import { describe, expect, test } from 'vitest'
import type { Plan } from '../../src/document/plan'
import { setControls } from '../../src/plan/edit/keys'
import { keyedFramesOf, keyPosesOf } from '../../src/plan/key-poses'
import { faultsOf } from '../../src/plan/read'
import { COMMAND_GROUPS, isBareSign, shortcutOf } from '../../src/screen/commands/command'
import { random as seeded } from '../../src/space/random'
import { stancePlan } from '../support/plans'
import { testShell } from '../support/shell'

const press = (
  key: string,
  modifiers: Partial<Record<'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey', boolean>> = {},
) => shortcutOf({ key, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...modifiers })

/** Two key poses, at 0 and 20, the pelvis 10 cm further right at the second. */
const twoKeys = (): Plan => {
  const plan = stancePlan()
  const { desk } = testShell(plan)
  const pose = { ...desk.pose.reached, 'pelvis.x': -0.1 }
  return setControls(plan, desk.takeId, 20, pose)
}

describe('the records', () => {
  const { commands } = testShell().shell

  test('ids are unique, and every command says why', () => {
    expect(new Set(commands.map(({ id }) => id)).size).toBe(commands.length)
    for (const { id, hint, title, group } of commands) {
      expect(hint, id).toMatch(/^[A-Z].*[.!?]$/)
      expect(title, id).toMatch(/^[A-Z]/)
      expect(COMMAND_GROUPS, id).toContain(group)
    }
  })

  test('no two commands share a shortcut, and all are spelled as events are', () => {
    const all = commands.flatMap(({ keys }) => keys)
    expect(all.filter((keys, i) => all.indexOf(keys) !== i)).toEqual([])
    for (const keys of all) {
      const parts = keys.length === 1 ? [keys] : keys.split('+')
      const key = parts.at(-1) as string
      const event = press(key, {
        ctrlKey: parts.includes('Ctrl'),
        altKey: parts.includes('Alt'),
        shiftKey: parts.includes('Shift'),
      })
      expect(event).toBe(keys)
    }
  })

  test.each([
    [press('k'), 'K'],
    [press('K', { shiftKey: true }), 'Shift+K'],
    [press('?', { shiftKey: true }), '?'],
    [press('+', { shiftKey: true }), '+'],
    [press('z', { ctrlKey: true }), 'Ctrl+Z'],
    [press('z', { metaKey: true, shiftKey: true }), 'Ctrl+Shift+Z'],
    [press('ArrowDown', { altKey: true }), 'Alt+ArrowDown'],
  ])('%s is spelled %s', (spelled, expected) => {
    expect(spelled).toBe(expected)
  })

  test('bare signs are known as such', () => {
    expect(isBareSign('K')).toBe(true)
    expect(isBareSign('F1')).toBe(false)
    expect(isBareSign('Ctrl+Z')).toBe(false)
  })
})

describe('keys', () => {
  test('a key is added where there was none, as the pose stands', () => {
    const { shell, desk } = testShell(twoKeys())
    desk.setFrame(10)
    const before = desk.pose.reached['pelvis.x']
    shell.run(shell.command('add-key'))
    expect(keyPosesOf(desk.take)).toEqual([0, 10, 20])
    expect(desk.pose.reached['pelvis.x']).toBeCloseTo(before, 6)
    expect(shell.command('add-key').when(desk)).toBe(false)
  })

  test('a key moves with Alt and an arrow, and stops at its neighbour', () => {
    const { shell, desk } = testShell(twoKeys())
    desk.setFrame(20)
    for (let i = 0; i < 30; i++) shell.run(shell.command('key-earlier'))
    expect(keyPosesOf(desk.take)).toEqual([0, 1])
    expect(desk.frame).toBe(1)
  })

  test('a copied key is pasted, over a key that is there too', () => {
    const { shell, desk } = testShell(twoKeys())
    desk.setFrame(20)
    shell.run(shell.command('copy-key'))
    for (const frame of [30, 0]) {
      desk.setFrame(frame)
      shell.run(shell.command('paste-key'))
    }
    expect(keyPosesOf(desk.take)).toEqual([0, 20, 30])
    expect(desk.take.channels['pelvis.x'].map(({ value }) => value)).toEqual([-0.1, -0.1, -0.1])
  })

  test('pasting nothing says so and changes nothing', () => {
    const { shell, desk } = testShell(twoKeys())
    const { plan } = desk
    shell.run(shell.command('paste-key'))
    expect(desk.plan).toBe(plan)
    expect(desk.status?.kind).toBe('hint')
  })

  test('a hold puts the key before on this frame', () => {
    const { shell, desk } = testShell(twoKeys())
    desk.setFrame(12)
    shell.run(shell.command('hold-key'))
    expect(desk.take.channels['pelvis.x'].map(({ frame, value }) => [frame, value])).toEqual([
      [0, 0],
      [12, 0],
      [20, -0.1],
    ])
  })

  test('a take’s only key is not deleted', () => {
    const { shell, desk } = testShell()
    const { plan } = desk
    shell.run(shell.command('delete-key'))
    expect(desk.plan).toBe(plan)
  })

  test('next key and key before go from key to key', () => {
    const { shell, desk } = testShell(twoKeys())
    shell.run(shell.command('next-key'))
    expect(desk.frame).toBe(20)
    expect(shell.command('next-key').when(desk)).toBe(false)
    shell.run(shell.command('key-before'))
    expect(desk.frame).toBe(0)
  })

  test('time is given and taken frame by frame', () => {
    const { shell, desk } = testShell(twoKeys())
    desk.setFrame(5)
    shell.run(shell.command('add-frame'))
    shell.run(shell.command('add-frame'))
    expect(keyPosesOf(desk.take)).toEqual([0, 22])
    shell.run(shell.command('take-frame-out'))
    expect([desk.take.length, ...keyPosesOf(desk.take)]).toEqual([49, 0, 21])
  })
})

test('before and after: a copy over the first, swapped and back', () => {
  const { shell, desk } = testShell()
  shell.run(shell.command('duplicate-take'))
  expect([desk.takeId, desk.compared?.id]).toEqual(['take-2', 'take-1'])
  shell.run(shell.command('swap-takes'))
  expect([desk.takeId, desk.compared?.id]).toEqual(['take-1', 'take-2'])
})

test('playing keeps the rate whatever the screen does, goes round, and stops', () => {
  const { shell, desk, frames } = testShell()
  shell.run(shell.command('play'))
  frames.show(1000)
  frames.show(1000 + 1000 / 24 + 1)
  expect(desk.frame).toBe(1)
  frames.show(1500 + 1)
  expect(desk.frame).toBe(12)
  frames.show(1000 + 49 * (1000 / 24) + 1)
  expect(desk.frame).toBe(1)
  desk.setFrame(40)
  frames.show(9000)
  frames.show(9000 + 2 * (1000 / 24) + 1)
  expect(desk.frame).toBe(42)
  shell.run(shell.command('play'))
  expect([shell.playback.playing, frames.waiting]).toEqual([false, 0])
})

test.each([1, 2, 3, 4])(
  'any commands in any order leave a valid plan, and undo is exact (seed %i)',
  (seed) => {
    const random = seeded(seed)
    const { shell, desk } = testShell(twoKeys())
    const start = desk.plan
    // These leave the plan or need a person.
    const left = new Set(['new-plan', 'shelf', 'demo', 'open-file', 'save-file', 'keep-copy', 'csv', 'play'])
    const commands = shell.commands.filter(({ id }) => !left.has(id))
    for (let i = 0; i < 60; i++) {
      desk.setFrame(Math.floor(random() * desk.take.length))
      const command = commands[Math.floor(random() * commands.length)]
      if (command) shell.run(command)
      expect(faultsOf(desk.plan), command?.id).toEqual([])
      expect(keyedFramesOf(desk.take).length).toBeGreaterThan(0)
    }
    const end = desk.plan
    let steps = 0
    while (desk.undoLabel !== undefined && steps++ < 100) desk.undo()
    expect(desk.plan).toBe(start)
    while (desk.redoLabel !== undefined && steps++ < 300) desk.redo()
    if (end !== start) expect(faultsOf(desk.plan)).toEqual([])
  },
)
