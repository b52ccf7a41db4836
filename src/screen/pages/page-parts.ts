import type { Component } from 'svelte'
import type { Desk } from '../desk.svelte'
import type { PageId } from '../desk-view'
import WeighPage from './WeighPage.svelte'

export type PageComponent = Component<{ desk: Desk }>

/** The page starts with *Weigh*; the others are fetched once it stands, or when one of them is opened. */
const LOADERS: Readonly<Record<PageId, () => Promise<{ readonly default: PageComponent }>>> = {
  weigh: async () => ({ default: WeighPage }),
  body: () => import('./BodyPage.svelte'),
  ground: () => import('./GroundPage.svelte'),
  pose: () => import('./PosePage.svelte'),
  stances: () => import('./StancesPage.svelte'),
  timing: () => import('../timing/TimingPage.svelte'),
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

/** Fetches all pages, so that going from one to another never waits; one that fails is fetched when it is opened. */
export async function loadAllPages(): Promise<void> {
  await Promise.allSettled((Object.keys(LOADERS) as PageId[]).map(loadPage))
}
