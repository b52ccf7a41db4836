import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { TestProject } from 'vitest/node'
import { findBrowser } from './browser'
import { buildPage, servePage, urlOf } from './built-page'

declare module 'vitest' {
  interface ProvidedContext {
    /** The built page at its server's root, with a slash at the end. */
    pageUrl: string
    /** The same build served from below a folder, with a slash at the end. */
    subPathUrl: string
    browserPath: string
    /** Where the build lies on this machine. */
    builtFolder: string
  }
}

/** Builds the page once into a folder of its own, serves it twice and finds a browser, for all browser tests. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const outDir = mkdtempSync(join(tmpdir(), 'weighbridge-e2e-'))
  await buildPage(outDir)
  const servers = [await servePage(outDir), await servePage(outDir, '/some/sub-path/')] as const
  project.provide('pageUrl', urlOf(servers[0]))
  project.provide('subPathUrl', urlOf(servers[1]))
  project.provide('browserPath', findBrowser())
  project.provide('builtFolder', outDir)
  return async () => {
    await Promise.all(servers.map((server) => server.close()))
    rmSync(outDir, { recursive: true, force: true })
  }
}
