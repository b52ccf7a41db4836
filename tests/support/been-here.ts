import type { BrowserContext } from 'playwright'

/** Makes a context that of someone who has been in by one of the doors: the page opens on *Weigh*, at rest. */
export const beenHere = (context: BrowserContext): Promise<unknown> =>
  context.addInitScript(`try {
    if (localStorage.getItem('weighbridge/view') === null)
      localStorage.setItem('weighbridge/view', '{"welcomed":true}')
  } catch {
    // A page that may keep nothing meets the doors.
  }`)
