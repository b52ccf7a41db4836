/**
 * Keeps the built page usable without a network by registering its service worker (written by the build).
 * Does nothing on the development server or where the browser has no service workers (plain http).
 * A newer version waits until every page of the older one is closed: a reload by itself would lose work.
 */
export function workOffline(): void {
  if (!import.meta.env.PROD || !window.isSecureContext || !('serviceWorker' in navigator)) return
  navigator.serviceWorker.register('./service-worker.js').catch((reason: unknown) => {
    console.info('Weighbridge cannot be kept for offline use here:', reason)
  })
}
