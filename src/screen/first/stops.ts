import type { Desk } from '../desk.svelte'
import type { PageId } from '../desk-view'
import type { Box } from '../shell/place'
import { stageStateOf } from '../stage/stage-state.svelte'

/** One stop on the way round: what it shows and what is said there. */
export interface Stop {
  readonly title: string
  readonly text: string
  /** The page that has to be open. */
  readonly page?: PageId
  /** What it is about, in the window's pixels; null where it can't be seen. */
  readonly find: (desk: Desk) => Box | null
}

export const STOPS: readonly Stop[] = [
  {
    title: 'One drawing, three views',
    text: 'Front, side and floor stand in line, so the heavy line falls unbroken from the weight in the body to its point on the floor: the plumb.',
    page: 'weigh',
    find: () => elementBox('.stage'),
  },
  {
    title: 'What each limb carries',
    text: 'Under the ground hang the loads, in percent of his weight and in kilograms. Drag a part of the body, or tap it and then the place, and they follow.',
    find: (desk) => viewBox(desk, 'front'),
  },
  {
    title: 'Where the limb is empty',
    text: 'On the floor, the double hatching is where the weight would have to be for the limb to lift. The arrow says how far it still is.',
    find: (desk) => viewBox(desk, 'floor'),
  },
  {
    title: 'The answer in words',
    text: 'Is the limb pinned, and how far must the weight go? Find the lean that empties it; try the lift to see which way he would fall. Underlined figures open how they are worked out.',
    page: 'weigh',
    find: () => elementBox('.pages .page'),
  },
  {
    title: 'Pages',
    text: 'First what is asked of a plan: weigh it, plan a shift, time it, read it. Below what it is made of: body, ground, pose.',
    find: () => elementBox('.pages nav'),
  },
  {
    title: 'The sheet is the timeline',
    text: 'Frames run down, limbs across. Pick a row and the drawing shows that frame; key poses, contacts, phases and notes are changed here.',
    find: () => elementBox('#timing-sheet'),
  },
  {
    title: 'Out again',
    text: 'Under Plan: print the sheet with its pose pictures, save a file, write the table. Everything is kept in this browser by itself and nothing leaves it.',
    find: () => elementBox('.bar .doing'),
  },
]

function elementBox(selector: string): Box | null {
  const box = document.querySelector(selector)?.getBoundingClientRect()
  return box && box.width > 0 && box.height > 0 ? box : null
}

/** A view of the stage; the whole stage where that view is not shown. */
function viewBox(desk: Desk, id: 'front' | 'floor'): Box | null {
  const stage = elementBox('.stage')
  const area = stageStateOf(desk).drawing.view(id)?.area
  if (stage === null || area === undefined) return stage
  return { left: stage.left + area.x, top: stage.top + area.y, width: area.width, height: area.height }
}
