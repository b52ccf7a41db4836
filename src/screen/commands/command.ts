import type { Desk } from '../desk.svelte'

/** In the order in which the help sheet shows them. */
export const COMMAND_GROUPS = [
  'Plan',
  'Undo',
  'Time',
  'Keys',
  'Sheet',
  'Contacts',
  'Pose',
  'View',
  'Takes',
  'Help',
] as const
export type CommandGroup = (typeof COMMAND_GROUPS)[number]

/** One thing the user can do: its button, its shortcut and its line on the help sheet all come from here. */
export interface Command {
  readonly id: string
  readonly group: CommandGroup
  /** What it does, as its button says it: 'Add key'. */
  readonly title: string
  /** Why one would: the physical or the trade's reason, a sentence. */
  readonly hint: string
  /**
   * Shortcuts, the first one shown: modifiers in the order Ctrl, Alt, Shift (Ctrl is Command on a Mac), then
   * the key as KeyboardEvent.key gives it, letters in capitals: 'Ctrl+Shift+Z', 'K', 'Alt+ArrowUp'.
   */
  readonly keys: readonly string[]
  /** Why these keys. */
  readonly mnemonic?: string
  /** Whether its shortcut works everywhere or only while the timing sheet has the focus. */
  readonly within?: 'sheet'
  /** Whether it can be done now; its button is greyed otherwise. */
  when(desk: Desk): boolean
  run(desk: Desk): void
}

/** A keyboard event's shortcut, in the spelling of `Command.keys`. */
export function shortcutOf(event: {
  readonly key: string
  readonly ctrlKey: boolean
  readonly metaKey: boolean
  readonly altKey: boolean
  readonly shiftKey: boolean
}): string {
  const { key } = event
  const letter = key.length === 1
  const parts: string[] = []
  if (event.ctrlKey || event.metaKey) parts.push('Ctrl')
  if (event.altKey) parts.push('Alt')
  // What Shift makes of a sign is the sign itself: '?' is not 'Shift+?'.
  if (event.shiftKey && (!letter || /[a-z]/i.test(key))) parts.push('Shift')
  parts.push(letter ? key.toUpperCase() : key)
  return parts.join('+')
}

/** Whether a shortcut is a bare sign, which a user may want to switch off (WCAG 2.1.4). */
export const isBareSign = (keys: string): boolean => keys.length === 1

/** As it is written on the screen: 'Ctrl + Shift + Z', '↓'. */
export const keysText = (keys: string): string =>
  keys
    .split('+')
    .map((part) => NAMES[part] ?? part)
    .join('\u2009+\u2009')

const NAMES: Readonly<Record<string, string>> = {
  ArrowUp: '↑',
  ArrowDown: '↓',
  ArrowLeft: '←',
  ArrowRight: '→',
  PageUp: 'Page up',
  PageDown: 'Page down',
  ' ': 'Space',
  Escape: 'Esc',
}
