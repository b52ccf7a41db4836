import type { Component } from 'svelte'
import type { Desk } from '../desk.svelte'
import type { PageId as AnyPage } from '../desk-view'
import WeighPage from './WeighPage.svelte'

/** The pages with a word of their own. */
export type PageId = Exclude<AnyPage, 'doors'>
export type PageComponent = Component<{ desk: Desk }>

/** The page starts with *Weigh*; the others are fetched once it stands, or when one of them is opened. */
const LOADERS: Readonly<Record<PageId, () => Promise<{ readonly default: PageComponent }>>> = {
  weigh: async () => ({ default: WeighPage }),
  body: () => import('./BodyPage.svelte'),
  ground: () => import('./GroundPage.svelte'),
  pose: () => import('./PosePage.svelte'),
  stances: () => import('./StancesPage.svelte'),
  shift: () => import('../shift/ShiftPage.svelte'),
  timing: () => import('../timing/TimingPage.svelte'),
  reads: () => import('../reads/ReadsPage.svelte'),
  notes: () => import('../notes/NotesPage.svelte'),
  review: () => import('./ReviewPage.svelte'),
}

const loaded = new Map<PageId, PageComponent>([['weigh', WeighPage]])

/** A page that is here already, or undefined. */
export const pageHere = (id: PageId): PageComponent | undefined => loaded.get(id)

/** Fetches a page. Rejects where it can't be fetched; asked again it is tried again. */
export async function loadPage(id: PageId): Promise<PageComponent> {
  const known = loaded.get(id)
  if (known !== undefined) return known
  const { default: page } = await LOADERS[id]()
  loaded.set(id, page)
  return page
}

/** Parts of pages that come with a click: they too are fetched once the page stands. */
const PARTS: readonly (() => Promise<unknown>)[] = [
  () => import('../first/Doors.svelte'),
  () => import('../first/Tour.svelte'),
  () => import('../how/HowCard.svelte'),
  () => import('../how/CellHow.svelte'),
  () => import('../sheet/SheetCard.svelte'),
  () => import('../stage/HandleCard.svelte'),
  () => import('../shell/Dialogs.svelte'),
  () => import('../timing/InMotion.svelte'),
  () => import('../timing/ShotStage.svelte'),
  () => import('../../export/picture-head'),
]

/**
 * Fetches all that is not here yet, so that nothing waits and nothing is asked of the network once the page
 * stands; what fails is fetched when it is opened.
 */
export async function loadAllPages(): Promise<void> {
  await Promise.allSettled([
    ...(Object.keys(LOADERS) as PageId[]).map(loadPage),
    ...PARTS.map((load) => load()),
  ])
}
