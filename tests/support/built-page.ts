import { build, type PreviewServer, preview } from 'vite'

/** Builds the page into a folder as it is released, also while tests run. */
export async function buildPage(outDir: string): Promise<void> {
  // Vitest's own variables would give a build for tests: development warnings and no minifying.
  const { VITEST, NODE_ENV } = process.env
  delete process.env.VITEST
  process.env.NODE_ENV = 'production'
  try {
    await build({ configFile: 'vite.config.ts', logLevel: 'warn', build: { outDir } })
  } finally {
    restore('VITEST', VITEST)
    restore('NODE_ENV', NODE_ENV)
  }
}

function restore(name: string, value: string | undefined): void {
  if (value === undefined) delete process.env[name]
  else process.env[name] = value
}

/** Serves a built page from its folder on a port of its own, from below `base`, which has a slash at the end. */
export function servePage(outDir: string, base = '/'): Promise<PreviewServer> {
  // Port 0: a free one, whatever else runs on the machine.
  const place = { port: 0, host: '127.0.0.1', open: false }
  return preview({ configFile: 'vite.config.ts', logLevel: 'warn', base, build: { outDir }, preview: place })
}

/** The address that a server gives the page, with a slash at the end. */
export function urlOf(server: PreviewServer): string {
  const url = server.resolvedUrls?.local[0]
  if (url === undefined) throw new Error('The preview server gave no address')
  return url
}
