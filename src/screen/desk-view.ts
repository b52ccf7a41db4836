import type { ViewId } from '../draw/project'

/** What is read in the fourth quarter of the drawing: first what is asked of a plan, then what it is made of. */
export const PAGE_GROUPS = [
  [
    { id: 'weigh', name: 'Weigh' },
    { id: 'shift', name: 'Shift' },
    { id: 'timing', name: 'Timing' },
    { id: 'reads', name: 'Reads as' },
    { id: 'notes', name: 'Notes' },
    { id: 'review', name: 'Review' },
  ],
  [
    { id: 'body', name: 'Body' },
    { id: 'ground', name: 'Ground' },
    { id: 'pose', name: 'Pose' },
    { id: 'stances', name: 'Stances' },
  ],
] as const
export const PAGES = PAGE_GROUPS.flat()
/** `doors` stands there before any page, for whoever comes for the first time. */
export type PageId = (typeof PAGES)[number]['id'] | 'doors'

/** `system` follows what the user's machine asks for. */
export type ThemeChoice = 'system' | 'paper' | 'slate'

/** How the user likes to look at plans: kept apart from every plan, on this machine. */
export interface ViewSettings {
  /** From which of his sides the side view is seen. */
  readonly sideFrom: 'R' | 'L'
  /** As a mirror shows it. */
  readonly mirrored: boolean
  /** The one view that fills the stage, or the shot's camera; null for all three. */
  readonly enlarged: ViewId | 'shot' | null
  /** The figure as a solid shape, as an audience reads it. */
  readonly solid: boolean
  readonly theme: ThemeChoice
  /** The sheet's columns, by id, that were shown (true) or hidden (false) by hand. */
  readonly columns: Readonly<Record<string, boolean>>
  /** The sheet's unit of length: centimetres, or the animator's own scene's. */
  readonly distances: 'cm' | 'scene'
  /** What chest and head are measured to on the sheet. */
  readonly angles: 'world' | 'parent'
  /** Whether the sheet's loads are those of a body held still or those in motion. */
  readonly loads: 'still' | 'motion'
  /** Whether the keys around the frame are drawn behind it. */
  readonly onion: boolean
  /** How a take is played. */
  readonly playing: 'over and over' | 'back and forth' | 'once'
  /** Whether someone has been in by one of the doors. */
  readonly welcomed: boolean
  /** Whether shortcuts of a single sign work. */
  readonly letterKeys: boolean
  /** A take drawn behind the open one for before and after; only for this sitting. */
  readonly compareTakeId: string | null
}

export const FIRST_VIEW: ViewSettings = {
  sideFrom: 'R',
  mirrored: false,
  enlarged: null,
  solid: false,
  theme: 'system',
  columns: {},
  distances: 'cm',
  angles: 'world',
  loads: 'still',
  onion: false,
  playing: 'over and over',
  welcomed: false,
  letterKeys: true,
  compareTakeId: null,
}

/** Reads settings that were kept; what is missing or strange becomes the first view's. */
export function readView(text: string | null): ViewSettings {
  const kept = parsed(text)
  const choice = <T>(value: unknown, of: readonly T[], otherwise: T): T =>
    of.includes(value as T) ? (value as T) : otherwise
  return {
    sideFrom: choice(kept.sideFrom, ['R', 'L'], FIRST_VIEW.sideFrom),
    mirrored: kept.mirrored === true,
    enlarged: choice(kept.enlarged, ['front', 'side', 'floor', 'shot', null], FIRST_VIEW.enlarged),
    solid: kept.solid === true,
    theme: choice(kept.theme, ['system', 'paper', 'slate'], FIRST_VIEW.theme),
    columns: flags(kept.columns),
    distances: choice(kept.distances, ['cm', 'scene'], FIRST_VIEW.distances),
    angles: choice(kept.angles, ['world', 'parent'], FIRST_VIEW.angles),
    loads: choice(kept.loads, ['still', 'motion'], FIRST_VIEW.loads),
    onion: kept.onion === true,
    playing: choice(kept.playing, ['over and over', 'back and forth', 'once'], FIRST_VIEW.playing),
    welcomed: kept.welcomed === true,
    letterKeys: kept.letterKeys !== false,
    compareTakeId: null,
  }
}

/** What is kept of the settings, for `readView`. */
export function writeView(view: ViewSettings): string {
  const { compareTakeId: _, ...kept } = view
  return JSON.stringify(kept)
}

function flags(value: unknown): Record<string, boolean> {
  if (typeof value !== 'object' || value === null) return {}
  return Object.fromEntries(Object.entries(value).filter(([, flag]) => typeof flag === 'boolean'))
}

function parsed(text: string | null): Partial<Record<keyof ViewSettings, unknown>> {
  try {
    const value: unknown = JSON.parse(text ?? '{}')
    return typeof value === 'object' && value !== null ? value : {}
  } catch {
    return {}
  }
}
