import { execFileSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { type Browser, chromium } from 'playwright'

/** Quiet and self-contained: no calls home, no first-run pages, no graphics card needed. */
const flags = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

const isRoot = process.getuid?.() === 0

/** What a Chromium is started with here. It refuses to run as root inside its own sandbox. */
export const browserFlags: readonly string[] = isRoot ? ['--no-sandbox', ...flags] : flags

/**
 * Starts a headless Chromium.
 * @param executablePath a browser from {@link findBrowser}, which is asked when it is left out
 * @throws when no browser can be found or installed, or the browser does not start
 */
export function launch(executablePath = findBrowser()): Promise<Browser> {
  return chromium.launch({ executablePath, args: [...browserFlags] })
}

/**
 * The path of a Chromium: the one CHROMIUM_PATH names, else one installed at a usual place, else Playwright's own, else
 * one installed now (Debian's package when root on a Debian system, Playwright's download otherwise).
 * @throws when CHROMIUM_PATH names no file, or the installation fails
 */
export function findBrowser(): string {
  const named = process.env.CHROMIUM_PATH
  if (named) {
    if (existsSync(named)) return named
    throw new Error(`CHROMIUM_PATH names ${named}, and there is no such file`)
  }
  return installed() ?? install()
}

function installed(): string | undefined {
  return [...usualPlaces(), chromium.executablePath()].find((path) => existsSync(path))
}

function usualPlaces(): string[] {
  if (process.platform === 'darwin') {
    return [
      '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
      '/Applications/Chromium.app/Contents/MacOS/Chromium',
    ]
  }
  if (process.platform === 'win32') {
    return [process.env.PROGRAMFILES, process.env['PROGRAMFILES(X86)'], process.env.LOCALAPPDATA]
      .filter((folder) => folder !== undefined)
      .map((folder) => join(folder, 'Google', 'Chrome', 'Application', 'chrome.exe'))
  }
  return ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'].map(
    (name) => `/usr/bin/${name}`,
  )
}

function install(): string {
  console.info('No Chromium found: installing one for the browser tests.')
  if (isRoot && existsSync('/usr/bin/apt-get')) {
    run('apt-get', ['update', '-q'])
    run('apt-get', ['install', '-y', '-q', '--no-install-recommends', 'chromium'])
  } else {
    const commandLine = join(
      createRequire(import.meta.url).resolve('playwright/package.json'),
      '..',
      'cli.js',
    )
    run(process.execPath, [commandLine, 'install', 'chromium'])
  }
  const path = installed()
  if (path === undefined) {
    throw new Error(
      'Chromium was installed but not found; name it with the environment variable CHROMIUM_PATH',
    )
  }
  return path
}

function run(command: string, args: string[]): void {
  execFileSync(command, args, {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  })
}
