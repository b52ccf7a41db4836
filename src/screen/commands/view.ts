import type { ViewId } from '../../draw/project'
import { paletteName } from '../theme.svelte'
import type { Command } from './command'

/** How the plan is looked at; none of these changes it. */
export const viewCommands = (): Command[] => [
  enlarge('front', 'Front view large', 'Which side is the weight on? The front view tells.', ['1']),
  enlarge('side', 'Side view large', 'Is the weight over the feet or behind them? The side view tells.', [
    '2',
  ]),
  enlarge(
    'floor',
    'Floor view large',
    'What holds the weight, and how near is it to tipping? The floor view tells.',
    ['3'],
  ),
  enlarge(
    'shot',
    'Shot’s camera large',
    'Does the lean read to the camera of the shot? Drag to carry it round.',
    ['4'],
  ),
  {
    id: 'onion',
    group: 'View',
    title: 'Neighbouring keys',
    hint: 'Draws the key before and the key after behind the pose: where it comes from and where it goes.',
    keys: ['G'],
    mnemonic: 'G for the ghosts of the keys',
    when: () => true,
    run: (desk) => desk.setView({ onion: !desk.view.onion }),
  },
  {
    id: 'loads-in-motion',
    group: 'View',
    title: 'Loads in motion',
    hint: 'The sheet, its print and its table file show what is carried in motion, in place of a body held still in every frame.',
    keys: ['W'],
    mnemonic: 'W for the weight in motion',
    when: () => true,
    run: (desk) => desk.setView({ loads: desk.view.loads === 'motion' ? 'still' : 'motion' }),
  },
  {
    id: 'other-side',
    group: 'View',
    title: 'Side from his other side',
    hint: 'Shows the side view from his other side, where the nearer arm or leg hides less.',
    keys: ['O'],
    mnemonic: 'O for the other side',
    when: () => true,
    run: (desk) => desk.setView({ sideFrom: desk.view.sideFrom === 'R' ? 'L' : 'R' }),
  },
  {
    id: 'mirror-view',
    group: 'View',
    title: 'Mirror the view',
    hint: 'Flips what is seen, not the pose: a fresh eye finds a lean that lists.',
    keys: ['M'],
    mnemonic: 'M for mirror',
    when: () => true,
    run: (desk) => desk.setView({ mirrored: !desk.view.mirrored }),
  },
  {
    id: 'silhouette',
    group: 'View',
    title: 'Solid shape',
    hint: 'Fills the figure: what an audience reads of the pose when nothing else is seen.',
    keys: ['S'],
    mnemonic: 'S for solid',
    when: () => true,
    run: (desk) => desk.setView({ solid: !desk.view.solid }),
  },
  {
    id: 'theme',
    group: 'View',
    title: 'Paper or slate',
    hint: 'Ink on paper for a bright room, chalk on slate for a dark one.',
    keys: [],
    when: () => true,
    run: (desk) => desk.setView({ theme: paletteName(desk.view.theme) === 'slate' ? 'paper' : 'slate' }),
  },
]

const enlarge = (view: ViewId | 'shot', title: string, hint: string, keys: string[]): Command => ({
  id: `large-${view}`,
  group: 'View',
  title,
  hint: `${hint} Once more brings all three back.`,
  keys,
  mnemonic: 'in the order in which the drawing is read',
  when: () => true,
  run: (desk) => desk.setView({ enlarged: desk.view.enlarged === view ? null : view }),
})
