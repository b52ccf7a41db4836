import { flushSync } from 'svelte'
import { LIMITS } from '../../document/limits'
import type { Plan } from '../../document/plan'
import { sheetCsv } from '../../export/csv'
import type { FileKind, FilePlace, Files } from '../../keep/files'
import { fileName, readFile } from '../../keep/files'
import type { ShelfEntry } from '../../keep/shelf'
import type { Fault } from '../../plan/faults'
import { readPlan } from '../../plan/read'
import { writePlan } from '../../plan/write'
import { columnsOf } from '../../sheet/columns'
import type { Command } from '../commands/command'
import type { Desk } from '../desk.svelte'
import type { Playback } from '../playback.svelte'
import type { CardSubject } from '../sheet/card'
import { columnOptions } from '../sheet/screen-columns'
import { shownSheet } from '../timing/motion-state.svelte'
import type { Keeping } from './keeping.svelte'

/** What lies over the drawing until it is closed. */
export type Dialog =
  | { readonly kind: 'help' }
  | { readonly kind: 'glossary' }
  | { readonly kind: 'details' }
  | { readonly kind: 'print' }
  | { readonly kind: 'shelf'; readonly entries: readonly ShelfEntry[] }
  /** A file that could not be opened, and every reason. */
  | { readonly kind: 'faults'; readonly name: string; readonly faults: readonly Fault[] }
  /** The open plan is not kept and another is about to take its place. */
  | { readonly kind: 'unkept'; readonly goOn: () => void }

export type Paper = 'A4' | 'Letter'

export interface ShellParts {
  readonly desk: Desk
  readonly playback: Playback
  readonly keeping: Keeping
  readonly files: Files
  readonly demo: () => Plan
  /** Opens the browser's print window and comes back when it is closed. */
  readonly printPage: () => void
  readonly commands: (shell: Shell) => readonly Command[]
}

/** Everything around the drawing: commands, dialogs, plans coming and going. */
export class Shell {
  readonly desk: Desk
  readonly playback: Playback
  readonly keeping: Keeping
  readonly commands: readonly Command[]
  readonly #files: Files
  readonly #demo: () => Plan
  readonly #printPage: () => void
  #place: FilePlace | undefined
  #dialog: Dialog | null = $state.raw(null)
  #card: CardSubject | null = $state.raw(null)
  #hint: string | null = $state.raw(null)
  #touring = $state.raw(false)
  #printing: Paper | null = $state.raw(null)

  constructor(parts: ShellParts) {
    this.desk = parts.desk
    this.playback = parts.playback
    this.keeping = parts.keeping
    this.#files = parts.files
    this.#demo = parts.demo
    this.#printPage = parts.printPage
    this.commands = parts.commands(this)
  }

  command(id: string): Command {
    const found = this.commands.find((command) => command.id === id)
    if (found === undefined) throw new RangeError(`there is no command "${id}"`)
    return found
  }

  /** Does a command if it can be done now. */
  run(command: Command): void {
    if (command.when(this.desk)) command.run(this.desk)
  }

  /** The card of the timing sheet that is asked for; the sheet shows it where it belongs. */
  get card(): CardSubject | null {
    return this.#card
  }
  openCard(subject: CardSubject): void {
    this.playback.stop()
    // A new object each time, so that asking again opens it again.
    this.#card = { ...subject }
  }
  /** Takes the card away, unless another was asked for meanwhile. */
  closeCard(subject: CardSubject): void {
    if (this.#card === subject) this.#card = null
  }

  get dialog(): Dialog | null {
    return this.#dialog
  }
  show(dialog: Dialog | null): void {
    this.playback.stop()
    this.#dialog = dialog
  }

  /** Whether someone is being shown round. */
  get touring(): boolean {
    return this.#touring
  }
  tour(on: boolean): void {
    this.playback.stop()
    this.#touring = on
  }

  /** Why one would use the control under the pointer or with the focus. */
  get hint(): string | null {
    return this.#hint
  }
  setHint(hint: string | null): void {
    this.#hint = hint
  }

  // ── Plans coming and going

  /** Opens a plan of no file and no place on the shelf yet. */
  async openNew(plan: Plan, when: 'at once' | 'with a change', said: string): Promise<void> {
    if (!(await this.#mayLeave(() => this.openNew(plan, when, said)))) return
    const begun = this.keeping.begin(plan, when)
    this.#put(plan, undefined)
    this.desk.say(said)
    await begun
  }

  /** Goes on with a copy of the open plan, in a place of its own. */
  async keepCopy(): Promise<void> {
    const copy = { ...this.desk.plan, title: `${this.desk.plan.title}, copy` }
    const begun = this.keeping.begin(copy, 'at once')
    this.#put(copy, undefined)
    this.desk.say('This is the copy; the first stands on the shelf.')
    await begun
  }

  openDemo(): Promise<void> {
    return this.openNew(
      this.#demo(),
      'with a change',
      'The demo is open; a change makes it a plan of your own.',
    )
  }

  /** Opens a plan that stands on the shelf. */
  async openKept(id: string): Promise<void> {
    if (id === this.keeping.planId) {
      this.show(null)
      return
    }
    const loaded = await this.keeping.load(id)
    if (loaded.kind === 'failed') this.desk.say(loaded.failure.message, 'problem')
    else if (loaded.kind === 'absent') this.desk.say('This plan is not on the shelf any more.', 'problem')
    else if (loaded.kind === 'damaged')
      this.show({ kind: 'faults', name: 'The plan on the shelf', faults: loaded.faults })
    else {
      if (!(await this.#mayLeave(() => this.openKept(id)))) return
      const claim = await this.keeping.resume(id, loaded.plan, loaded.at)
      this.#put(loaded.plan, undefined)
      this.show(null)
      if (claim === 'elsewhere')
        this.desk.say(
          'Another tab writes this plan: nothing is kept from here. Keep a copy to change it.',
          'problem',
        )
      else if (loaded.damaged)
        this.desk.say('The last save of this plan was damaged; this is the one before it.', 'problem')
      else this.desk.say(`${loaded.plan.title} is open.`)
    }
  }

  /** Opens a plan file as a new plan; one that cannot be read changes nothing and is told fault by fault. */
  async openBytes(name: string, bytes: Uint8Array, place?: FilePlace): Promise<void> {
    const read = readPlan(bytes)
    if (!read.ok) {
      this.show({ kind: 'faults', name, faults: read.faults })
      return
    }
    await this.openNew(read.plan, 'at once', `${name} is open as a plan of its own.`)
    this.#place = place
  }

  async openFile(): Promise<void> {
    const opened = await this.#files.open(PLAN_FILE)
    if (opened.kind === 'refused') this.desk.say(opened.message, 'problem')
    else if (opened.kind === 'opened') await this.openBytes(opened.file.name, opened.file.bytes, opened.place)
  }

  async dropFile(file: File): Promise<void> {
    const opened = await readFile(file, PLAN_FILE)
    if (opened.kind === 'refused') this.desk.say(opened.message, 'problem')
    else if (opened.kind === 'opened') await this.openBytes(opened.file.name, opened.file.bytes)
  }

  async saveFile(): Promise<void> {
    const { plan } = this.desk
    const file = { name: fileName(plan.title, PLAN_FILE), content: writePlan(plan) }
    const saved = await this.#files.save(file, PLAN_FILE, this.#place)
    if (saved.kind === 'saved') this.#place = saved.place
    this.#tell(saved)
  }

  async saveCsv(): Promise<void> {
    const { sheet } = shownSheet(this.desk)
    if (!sheet) {
      this.desk.say('The take is being weighed; try again in a moment.', 'hint')
      return
    }
    const content = sheetCsv(sheet, columnsOf(sheet, columnOptions(sheet, this.desk.view)))
    const name = fileName(`${this.desk.plan.title} ${this.desk.take.name}`, CSV_FILE)
    this.#tell(await this.#files.save({ name, content }, CSV_FILE))
  }

  async showShelf(): Promise<void> {
    await this.keeping.flush()
    const list = await this.keeping.list()
    if (list.ok) this.show({ kind: 'shelf', entries: list.value })
    else this.desk.say(list.failure.message, 'problem')
  }

  async removeKept(id: string): Promise<void> {
    const removed = await this.keeping.remove(id)
    if (!removed.ok) this.desk.say(removed.failure.message, 'problem')
    await this.showShelf()
  }

  /** The paper that is being printed on; the print view is in the page while there is one. */
  get printing(): Paper | null {
    return this.#printing
  }

  /** Puts the print view into the page at once, for a print window that opens by itself; null takes it out. */
  preparePrint(paper: Paper | null): void {
    this.#printing = paper
    flushSync()
  }

  print(paper: Paper): void {
    this.show(null)
    this.preparePrint(paper)
    this.#printPage()
    this.preparePrint(null)
  }

  #put(plan: Plan, place: FilePlace | undefined): void {
    this.playback.stop()
    this.#place = place
    this.#card = null
    this.desk.open(plan)
  }

  async #mayLeave(goOn: () => void): Promise<boolean> {
    if (this.#leaving || (await this.keeping.flush())) {
      this.#leaving = false
      return true
    }
    this.show({
      kind: 'unkept',
      goOn: () => {
        this.#leaving = true
        this.show(null)
        goOn()
      },
    })
    return false
  }
  #leaving = false

  #tell(saved: Awaited<ReturnType<Files['save']>>): void {
    if (saved.kind === 'saved') this.desk.say(`Saved as ${saved.place.name}.`)
    else if (saved.kind === 'downloaded') this.desk.say(`${saved.name} is among your downloads.`)
    else if (saved.kind === 'refused') this.desk.say(saved.message, 'problem')
  }
}

const PLAN_FILE: FileKind = {
  description: 'Plan',
  type: 'application/json',
  extensions: ['.json'],
  most: LIMITS.fileBytes,
}

const CSV_FILE: FileKind = {
  description: 'Timing sheet',
  type: 'text/csv',
  extensions: ['.csv'],
  most: LIMITS.fileBytes,
}
