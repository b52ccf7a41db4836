import { mirrorPlan } from '../../plan/mirror'
import { newPlan } from '../../plan/new'
import { makeStance } from '../../pose/stances'
import type { Shell } from '../shell/shell.svelte'
import type { Command } from './command'

/** Plans coming and going, and what is handed on. */
export const planCommands = (shell: Shell): Command[] => [
  {
    id: 'new-plan',
    group: 'Plan',
    title: 'New plan',
    hint: 'Starts from a tall kneel with the body that is open; the plan that is open stays on the shelf.',
    keys: [],
    when: () => true,
    run: (desk) => {
      const { plan, body, mover } = desk
      const { controls, contacts } = makeStance('tall-kneel', body, { grip: plan.ground.grip, boxes: [] })
      const spans = contacts.map(({ id: _, from: __, to: ___, ...contact }) => contact)
      const started = newPlan({
        title: 'New plan',
        character: plan.character,
        body: plan.body,
        controls,
        contacts: spans,
        rate: plan.rate,
        firstFrame: plan.firstFrame,
        scene: plan.scene,
        mover,
      })
      void shell.openNew(started, 'at once', 'A new plan in a tall kneel; choose a body and a stance.')
    },
  },
  {
    id: 'shelf',
    group: 'Plan',
    title: 'Shelf of plans …',
    hint: 'Every plan this browser keeps, the last changed first.',
    keys: [],
    when: () => true,
    run: () => void shell.showShelf(),
  },
  {
    id: 'demo',
    group: 'Plan',
    title: 'Open the demo',
    hint: 'A stone-troll mason kneels at a wall and has to free his left leg.',
    keys: [],
    when: () => true,
    run: () => void shell.openDemo(),
  },
  {
    id: 'open-file',
    group: 'Plan',
    title: 'Open a file …',
    hint: 'Opens a plan file as a plan of its own; dropping one on the page does the same.',
    keys: ['Ctrl+O'],
    when: () => true,
    run: () => void shell.openFile(),
  },
  {
    id: 'save-file',
    group: 'Plan',
    title: 'Save to a file',
    hint: 'Writes the whole plan with all its takes, to send on or to put by.',
    keys: ['Ctrl+S'],
    when: () => true,
    run: () => void shell.saveFile(),
  },
  {
    id: 'keep-copy',
    group: 'Plan',
    title: 'Keep a copy',
    hint: 'Puts a copy of the plan on the shelf and goes on with it; the first stays as it is.',
    keys: [],
    when: () => true,
    run: () => void shell.keepCopy(),
  },
  {
    id: 'csv',
    group: 'Plan',
    title: 'Timing sheet as CSV',
    hint: 'Every frame and every column with its unit, for a spreadsheet.',
    keys: [],
    when: ({ takeWeighings }) => takeWeighings?.sheet != null,
    run: () => void shell.saveCsv(),
  },
  {
    id: 'print',
    group: 'Plan',
    title: 'Print the sheet …',
    hint: 'The key poses with pictures on the first page, the full sheet behind.',
    keys: ['Ctrl+P'],
    when: ({ takeWeighings }) => takeWeighings?.sheet != null,
    run: () => shell.show({ kind: 'print' }),
  },
  {
    id: 'details',
    group: 'Plan',
    title: 'Title and scene …',
    hint: 'The head of the sheet: title, character, and how your own scene measures.',
    keys: [],
    when: () => true,
    run: () => shell.show({ kind: 'details' }),
  },
  {
    id: 'mirror-plan',
    group: 'Plan',
    title: 'Swap left and right',
    hint: 'Makes the mirror image of the whole plan: the other knee must move, to his other side.',
    keys: [],
    when: () => true,
    run: (desk) => {
      desk.edit('Swap left and right', mirrorPlan)
      desk.say('Left and right are swapped in every take.')
    },
  },
]
