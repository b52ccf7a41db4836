import { render, screen } from '@testing-library/svelte'
import userEvent from '@testing-library/user-event'
import { flushSync } from 'svelte'
import { describe, expect, test } from 'vitest'
import App from '../../src/app/App.svelte'
import { BUILDS } from '../../src/body/builds'
import { makeBody } from '../../src/body/model'
import { drawnWords } from '../../src/screen/first/drawn-words'
import { STOPS } from '../../src/screen/first/stops'
import '../support/jsdom-layout'
import { stancePlan } from '../support/plans'
import { testShell } from '../support/shell'

describe('the doors', () => {
  test('each leads to its page at the first frame and is remembered', async () => {
    for (const [door, page] of [
      [/shot to block/, 'shift'],
      [/shot to review/, 'weigh'],
      [/How heavy/, 'reads'],
    ] as const) {
      const { shell, desk } = testShell()
      const { unmount } = render(App, { shell })
      desk.setPage('doors')
      desk.setFrame(7)
      await userEvent.click(await screen.findByRole('button', { name: door }))
      expect(desk.page).toBe(page)
      expect(desk.frame).toBe(0)
      expect(desk.view.welcomed).toBe(true)
      unmount()
    }
  })

  test('a word of the row leads past them, and Help brings them back', async () => {
    const { shell, desk } = testShell()
    render(App, { shell })
    desk.setPage('doors')
    flushSync()
    await userEvent.click(screen.getByRole('button', { name: 'Body' }))
    expect(desk.view.welcomed).toBe(true)
    shell.run(shell.command('doors'))
    expect(await screen.findByRole('button', { name: /shot to block/ })).toBeVisible()
  })
})

describe('the way round', () => {
  test('stops everywhere in order, back and forth by arrows, and is left with Escape', async () => {
    const { shell } = testShell()
    render(App, { shell })
    shell.run(shell.command('tour'))
    const card = (await screen.findByText(STOPS[0]?.title as string)).closest('[popover]') as HTMLElement
    for (const [i, { title, text }] of STOPS.entries()) {
      expect(card).toHaveTextContent(title)
      expect(card).toHaveTextContent(text)
      expect(card).toHaveTextContent(`${i + 1} of ${STOPS.length}`)
      if (i < STOPS.length - 1) await userEvent.keyboard('{ArrowRight}')
    }
    await userEvent.keyboard('{ArrowLeft}')
    expect(card).toHaveTextContent(STOPS.at(-2)?.title as string)
    await userEvent.keyboard('{Escape}')
    expect(shell.touring).toBe(false)
    expect(card).not.toBeInTheDocument()
  })

  test('ends after its last stop', async () => {
    const { shell } = testShell()
    render(App, { shell })
    shell.tour(true)
    await screen.findByText(`1 of ${STOPS.length}`)
    for (const _ of STOPS) await userEvent.keyboard('{ArrowRight}')
    expect(shell.touring).toBe(false)
  })
})

describe('the words, drawn', () => {
  test.each(BUILDS.map(({ name, spec }) => [name, spec] as const))(
    '%s: the press loads the limb, the shift frees it, and five frames need a push',
    (_, spec) => {
      const words = drawnWords(makeBody(spec), { ...stancePlan(), body: spec })
      const shares = (word: string) => {
        const list = words.find((one) => one.word === word)?.list
        return (
          JSON.stringify(list)
            .match(/"text":"(\d+)\s?%"/g)
            ?.map((text) => Number(/\d+/.exec(text)?.[0])) ?? []
        )
      }
      const pinned = Math.max(...shares('Pinned'))
      expect(Math.max(...shares('Press'))).toBeGreaterThan(pinned)
      expect(JSON.stringify(words.find(({ word }) => word === 'Push from nowhere')?.list)).toContain(
        'from nowhere',
      )
      expect(JSON.stringify(words.find(({ word }) => word === 'Press')?.list)).not.toContain('from nowhere')
    },
  )

  test('open from Help', async () => {
    const { shell } = testShell()
    render(App, { shell })
    shell.run(shell.command('glossary'))
    const dialog = await screen.findByRole('dialog', { hidden: true })
    for (const word of ['Plumb', 'Pinned', 'Press', 'Sink', 'Push from nowhere'])
      expect(dialog).toHaveTextContent(word)
  })
})
