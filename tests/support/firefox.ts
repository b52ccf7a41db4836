import { execFileSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import puppeteer, { type Browser } from 'puppeteer-core'

const isRoot = process.getuid?.() === 0
const canInstall = isRoot && existsSync('/usr/bin/apt-get')

/** Starts a headless Firefox, driven by WebDriver BiDi. */
export const launchFirefox = (executablePath: string): Promise<Browser> =>
  puppeteer.launch({
    browser: 'firefox',
    executablePath,
    headless: true,
    extraPrefsFirefox: {
      // No calls home and no first-run pages.
      'app.update.enabled': false,
      'browser.aboutwelcome.enabled': false,
      'datareporting.policy.dataSubmissionEnabled': false,
      'network.captive-portal-service.enabled': false,
      'network.connectivity-service.enabled': false,
      'toolkit.telemetry.enabled': false,
    },
  })

/**
 * The path of a Firefox: the one FIREFOX_PATH names, else one installed at a usual place, else Debian's firefox-esr,
 * installed now where this is a Debian system and we are root. Undefined where none can be had.
 * @throws when FIREFOX_PATH names no file, or the installation fails
 */
export function findFirefox(): string | undefined {
  const named = process.env.FIREFOX_PATH
  if (named) {
    if (existsSync(named)) return named
    throw new Error(`FIREFOX_PATH names ${named}, and there is no such file`)
  }
  const there = installed()
  if (there !== undefined || !canInstall) return there
  console.info('No Firefox found: installing one for the browser tests.')
  for (const args of [
    ['update', '-q'],
    ['install', '-y', '-q', '--no-install-recommends', 'firefox-esr'],
  ])
    execFileSync('apt-get', args, {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    })
  const path = installed()
  if (path === undefined)
    throw new Error('Firefox was installed but not found; name it with the environment variable FIREFOX_PATH')
  return path
}

const installed = (): string | undefined =>
  [
    '/usr/bin/firefox-esr',
    '/usr/bin/firefox',
    '/Applications/Firefox.app/Contents/MacOS/firefox',
    'C:\\Program Files\\Mozilla Firefox\\firefox.exe',
  ].find((path) => existsSync(path))
