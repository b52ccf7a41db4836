import type { Shell } from '../shell/shell.svelte'
import type { Command } from './command'

/** Finding one's way. */
export const helpCommands = (shell: Shell): Command[] => [
  {
    id: 'doors',
    group: 'Help',
    title: 'The three doors',
    hint: 'What brings you here: a shot to block, a shot to review, or a timing to read. Each door leads straight to it.',
    keys: [],
    when: () => true,
    run: (desk) => desk.setPage('doors'),
  },
  {
    id: 'tour',
    group: 'Help',
    title: 'Show me round',
    hint: 'Seven short stops: where the weight is seen, what holds it, and where the plan is written down.',
    keys: [],
    when: () => true,
    run: (desk) => {
      shell.tour(true)
      // Whoever comes through the doors is shown where it starts; whoever is at work stays where he is.
      if (desk.page === 'doors') desk.setFrame(0)
    },
  },
  {
    id: 'glossary',
    group: 'Help',
    title: 'The words, drawn',
    hint: 'Plumb, pinned, press, sink, push from nowhere: what each looks like on the body that is open.',
    keys: [],
    when: () => true,
    run: () => shell.show({ kind: 'glossary' }),
  },
  {
    id: 'help',
    group: 'Help',
    title: 'What every key does',
    hint: 'All commands with their reasons and shortcuts.',
    keys: ['?', 'F1'],
    when: () => true,
    run: () => shell.show({ kind: 'help' }),
  },
]
