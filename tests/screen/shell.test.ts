import { render, screen } from '@testing-library/svelte'
import { describe, expect, test } from 'vitest'
import App from '../../src/app/App.svelte'
import { failingStorage, memoryStorage } from '../../src/keep/fakes/storage'
import { setHeader } from '../../src/plan/edit/head'
import { writePlan } from '../../src/plan/write'
import { stancePlan } from '../support/plans'
import '../support/jsdom-layout'
import { testShell } from '../support/shell'

const bytes = (text: string) => new TextEncoder().encode(text)
const retitled = (title: string) => (plan: ReturnType<typeof stancePlan>) => setHeader(plan, { title })

describe('the page', () => {
  test('is headed by the plan’s title, with size and mass', () => {
    const { shell } = testShell(stancePlan('standing', 'Over the stile'))
    render(App, { shell })
    expect(screen.getByRole('heading', { level: 1 })).toHaveTextContent('Over the stile')
    expect(screen.getByText(/1\.75\sm · 75\skg/)).toBeInTheDocument()
  })

  test('every command of the help sheet has its words and keys', async () => {
    const { shell } = testShell()
    render(App, { shell })
    shell.show({ kind: 'help' })
    const dialog = await screen.findByRole('dialog', { hidden: true })
    for (const { title } of shell.commands) expect(dialog).toHaveTextContent(title)
    expect(dialog).toHaveTextContent('Ctrl + Z')
  })

  test('a dialog is gone with Escape at once: the key pressed right after it is for the page', async () => {
    const { shell } = testShell()
    render(App, { shell })
    shell.show({ kind: 'details' })
    const field = await screen.findByLabelText('Title')
    const pressed = new KeyboardEvent('keydown', { key: 'Escape', bubbles: true, cancelable: true })
    field.dispatchEvent(pressed)
    expect(shell.dialog).toBeNull()
    expect(pressed.defaultPrevented).toBe(true)
  })

  test('the print view is there while it is printed and then gone', () => {
    const { shell, printed } = testShell(stancePlan(), { weighs: true })
    render(App, { shell })
    shell.print('A4')
    expect(printed).toEqual([1])
    expect(document.querySelector('.print-view')).toBeNull()
  })
})

describe('keeping', () => {
  test('a plan that is only looked at takes no place; its first change does', async () => {
    const storage = memoryStorage()
    const { desk, keeping, clock } = testShell(stancePlan(), { storage })
    await keeping.begin(desk.plan, 'with a change')
    await clock.advance(5000)
    expect([...storage.texts.keys()].filter((key) => key.startsWith('plan/'))).toEqual([])
    desk.edit('Title', retitled('Mine'))
    await clock.advance(1000)
    expect(keeping.status?.state).toBe('saved')
    const shelf = await keeping.list()
    expect(shelf.ok && shelf.value.map(({ title }) => title)).toEqual(['Mine'])
  })

  test('what was open last comes back as it was', async () => {
    const storage = memoryStorage()
    const first = testShell(stancePlan(), { storage })
    await first.keeping.begin(first.desk.plan, 'with a change')
    first.desk.edit('Title', retitled('Before the reload'))
    await first.keeping.flush()
    const last = await testShell(stancePlan(), { storage }).keeping.last()
    expect(last?.loaded.kind === 'loaded' && writePlan(last.loaded.plan)).toBe(writePlan(first.desk.plan))
  })

  test('a plan on the shelf is opened, and the one that was open is kept there', async () => {
    const { shell, desk, keeping } = testShell(stancePlan('standing', 'One'))
    await keeping.begin(desk.plan, 'at once')
    const one = keeping.planId as string
    await shell.openNew(stancePlan('standing', 'Two'), 'at once', 'Open.')
    desk.edit('Title', retitled('Two, changed'))
    await shell.openKept(one)
    expect(desk.plan.title).toBe('One')
    expect(desk.undoLabel).toBeUndefined()
    const shelf = await keeping.list()
    expect(shelf.ok && shelf.value.map(({ title }) => title).sort()).toEqual(['One', 'Two, changed'])
  })

  test('a full browser is told, and leaving an unkept plan is asked about', async () => {
    const { shell, desk, keeping, clock } = testShell(stancePlan(), {
      storage: failingStorage((_, key) => (key.startsWith('plan/') ? 'full' : undefined)),
    })
    await keeping.begin(desk.plan, 'with a change')
    desk.edit('Title', retitled('Not kept'))
    await clock.advance(1000)
    expect(keeping.status?.state).toBe('failed')
    await shell.openDemo()
    expect(desk.plan.title).toBe('Not kept')
    expect(shell.dialog?.kind).toBe('unkept')
    if (shell.dialog?.kind === 'unkept') shell.dialog.goOn()
    await expect.poll(() => desk.plan.title).toBe('The demo')
  })

  test('a plan that another tab writes is not written from here; a copy is', async () => {
    const tabs = { storage: memoryStorage(), held: new Set<string>() }
    const first = testShell(stancePlan('standing', 'Shared'), tabs)
    await first.keeping.begin(first.desk.plan, 'at once')
    await first.keeping.flush()
    const id = first.keeping.planId as string

    const { shell, desk, keeping, clock } = testShell(stancePlan(), tabs)
    await keeping.begin(desk.plan, 'with a change')
    await shell.openKept(id)
    expect([desk.plan.title, desk.status?.kind, keeping.status?.state]).toEqual([
      'Shared',
      'problem',
      'elsewhere',
    ])
    desk.edit('Title', retitled('Changed here'))
    await clock.advance(2000)
    const titles = async () => {
      const shelf = await keeping.list()
      return shelf.ok && shelf.value.map(({ title }) => title).sort()
    }
    expect(await titles()).toEqual(['Shared'])
    await shell.openDemo()
    expect([shell.dialog?.kind, desk.plan.title]).toEqual(['unkept', 'Changed here'])
    shell.show(null)

    shell.run(shell.command('keep-copy'))
    await expect.poll(() => desk.plan.title).toBe('Changed here, copy')
    await keeping.flush()
    expect(await titles()).toEqual(['Changed here, copy', 'Shared'])
  })
})

describe('files', () => {
  test('a plan file opens as a plan of its own', async () => {
    const { shell, desk, files, keeping } = testShell()
    await keeping.begin(desk.plan, 'with a change')
    const before = keeping.planId
    const file = { name: 'stile.json', bytes: bytes(writePlan(stancePlan('standing', 'Over the stile'))) }
    files.next = { kind: 'opened', file, place: undefined }
    await shell.openFile()
    expect(desk.plan.title).toBe('Over the stile')
    expect(keeping.planId).not.toBe(before)
  })

  test('a bad file is told fault by fault and changes nothing', async () => {
    const { shell, desk } = testShell()
    render(App, { shell })
    const { plan } = desk
    const text = writePlan(stancePlan()).replace('"gravity": 9.81', '"gravity": "much"')
    await shell.openBytes('bad.json', bytes(text))
    expect(desk.plan).toBe(plan)
    const dialog = await screen.findByRole('dialog', { hidden: true })
    expect(dialog).toHaveTextContent('bad.json can’t be opened')
    expect(dialog).toHaveTextContent('wrong-type')
    expect(dialog).toHaveTextContent('/gravity')
  })

  test('a saved file opens again as the same plan', async () => {
    const { shell, desk, files } = testShell(stancePlan('half-kneel-right', 'Back and forth'))
    await shell.saveFile()
    const [name, content] = [...files.saved][0] as [string, string]
    expect(name).toMatch(/\.json$/)
    const { plan } = desk
    await shell.openBytes(name, bytes(content))
    expect(writePlan(desk.plan)).toBe(writePlan(plan))
  })

  test('the timing sheet as CSV has a record for every frame and one for the head', async () => {
    const { shell, files, desk } = testShell(stancePlan(), { weighs: true })
    await shell.saveCsv()
    const [name, content] = [...files.saved][0] as [string, string]
    expect(name).toMatch(/\.csv$/)
    expect(content.split('\r\n').length).toBe(desk.take.length + 2)
  })
})
