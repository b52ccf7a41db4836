import type { Command } from './command'

export const undoCommands = (): Command[] => [
  {
    id: 'undo',
    group: 'Undo',
    title: 'Undo',
    hint: 'Takes back the last change, exactly; during a drag it takes back the drag.',
    keys: ['Ctrl+Z'],
    when: ({ undoLabel }) => undoLabel !== undefined,
    run: (desk) => {
      const label = desk.undoLabel
      desk.undo()
      if (label !== undefined) desk.say(`Undone: ${label}.`)
    },
  },
  {
    id: 'redo',
    group: 'Undo',
    title: 'Redo',
    hint: 'Does again what was undone.',
    keys: ['Ctrl+Shift+Z', 'Ctrl+Y'],
    when: ({ redoLabel }) => redoLabel !== undefined,
    run: (desk) => {
      const label = desk.redoLabel
      desk.redo()
      if (label !== undefined) desk.say(`Done again: ${label}.`)
    },
  },
]
