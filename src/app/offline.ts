/**
 * Keeps the built page usable without a network by registering its service worker (written by the build).
 * Does nothing on the development server or where the browser has no service workers (plain http).
 * A newer version waits until every page of the older one is closed: a reload by itself would lose work.
 * @param newer called when a newer version is ready and waits
 */
export function workOffline(newer: () => void): void {
  if (!import.meta.env.PROD || !window.isSecureContext || !('serviceWorker' in navigator)) return
  const { serviceWorker } = navigator
  serviceWorker
    .register('./service-worker.js')
    .then((registration) => {
      registration.addEventListener('updatefound', () => {
        const { installing } = registration
        installing?.addEventListener('statechange', () => {
          // Without a controller it is the first version, and no newer one.
          if (installing.state === 'installed' && serviceWorker.controller !== null) newer()
        })
      })
    })
    .catch((reason: unknown) => {
      console.info('Weighbridge cannot be kept for offline use here:', reason)
    })
}
