import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build, type PreviewServer, preview } from 'vite'
import type { TestProject } from 'vitest/node'
import { findBrowser } from './browser'

declare module 'vitest' {
  interface ProvidedContext {
    /** The built page at its server's root, with a slash at the end. */
    pageUrl: string
    /** The same build served from below a folder, with a slash at the end. */
    subPathUrl: string
    browserPath: string
  }
}

/** Builds the page once into a folder of its own, serves it twice and finds a browser, for all browser tests. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const outDir = mkdtempSync(join(tmpdir(), 'weighbridge-e2e-'))
  await buildAsReleased(outDir)
  const servers = [await serve(outDir, '/'), await serve(outDir, '/some/sub-path/')] as const
  project.provide('pageUrl', urlOf(servers[0]))
  project.provide('subPathUrl', urlOf(servers[1]))
  project.provide('browserPath', findBrowser())
  return async () => {
    await Promise.all(servers.map((server) => server.close()))
    rmSync(outDir, { recursive: true, force: true })
  }
}

/** Vitest's own variables would give a build for tests: development warnings and no minifying. */
async function buildAsReleased(outDir: string): Promise<void> {
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

function serve(outDir: string, base: string): Promise<PreviewServer> {
  // Port 0: a free one, whatever else runs on the machine.
  const place = { port: 0, host: '127.0.0.1', open: false }
  return preview({ configFile: 'vite.config.ts', logLevel: 'warn', base, build: { outDir }, preview: place })
}

function urlOf(server: PreviewServer): string {
  const url = server.resolvedUrls?.local[0]
  if (url === undefined) throw new Error('The preview server gave no address')
  return url
}
