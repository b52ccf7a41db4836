import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { join, sep } from 'node:path'
import type { Plugin } from 'vite'

/**
 * Writes `service-worker.js` into the build: it keeps every file of the build on the user's machine and answers from
 * there, so the page opens without a network. Each build has its own store, named by a hash of what it holds; an older
 * build's store goes once no page uses it any more. Nothing is ever fetched from elsewhere and nothing reloads by itself.
 */
export function serviceWorker(): Plugin {
  let publicDir = ''
  return {
    name: 'weighbridge:service-worker',
    apply: 'build',
    configResolved(config) {
      publicDir = config.publicDir
    },
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const hash = createHash('sha256')
        const files: string[] = []
        for (const output of Object.values(bundle)) {
          files.push(output.fileName)
          hash.update(output.fileName).update(output.type === 'chunk' ? output.code : output.source)
        }
        for (const name of filesUnder(publicDir)) {
          files.push(name)
          hash.update(name).update(readFileSync(join(publicDir, name)))
        }
        const source = workerSource(files.sort(), hash.digest('hex').slice(0, 16))
        this.emitFile({ type: 'asset', fileName: 'service-worker.js', source })
      },
    },
  }
}

/** Names with forward slashes, relative to `directory`, sorted; none when there is no such directory. */
function filesUnder(directory: string): string[] {
  if (!existsSync(directory)) return []
  return readdirSync(directory, { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(directory, name)).isFile())
    .map((name) => name.split(sep).join('/'))
    .sort()
}

/**
 * The page is kept as './' and not as 'index.html', because some servers redirect the latter, and a redirected answer
 * cannot open a page. `ignoreVary`: servers vary by headers that differ between the install and a later request.
 * The store's name holds the scope, since several copies under one origin share the browser's storage.
 */
function workerSource(files: readonly string[], version: string): string {
  const kept = files.map((name) => (name === 'index.html' ? './' : name))
  return `const files = ${JSON.stringify(kept)};
const mine = 'weighbridge ' + self.registration.scope + ' ';
const store = mine + '${version}';
const page = new URL('./', self.registration.scope).href;
self.addEventListener('install', (event) => {
  const requests = files.map((file) => new Request(file, { cache: 'reload' }));
  event.waitUntil(caches.open(store).then((cache) => cache.addAll(requests)));
});
self.addEventListener('activate', (event) => {
  const old = (name) => name.startsWith(mine) && name !== store;
  event.waitUntil(
    caches.keys().then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name)))),
  );
});
self.addEventListener('fetch', (event) => {
  if (event.request.method !== 'GET') return;
  const url = event.request.url.replace(/[?#].*$/, '').replace(/\\/index\\.html$/, '/');
  if (event.request.mode === 'navigate' && url !== page) return;
  event.respondWith(
    caches.open(store)
      .then((cache) => cache.match(url, { ignoreVary: true }))
      .then((kept) => kept ?? fetch(event.request)),
  );
});
`
}
