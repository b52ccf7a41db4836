import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Browser, chromium } from 'playwright'
import { browserFlags, findBrowser } from '../support/browser'

/** A browser with a profile on the disk, which can be killed like a machine that loses its power. */
export class KilledBrowser {
  readonly #profile = mkdtempSync(join(tmpdir(), 'weighbridge-killed-'))
  #process: ChildProcess | undefined
  #browser: Browser | undefined

  /** Starts it with all that its profile held when it was killed. */
  async start(): Promise<Browser> {
    const args = ['--headless=new', '--remote-debugging-port=0', `--user-data-dir=${this.#profile}`]
    // A group of its own, so that all its processes can be killed at once and no others.
    this.#process = spawn(findBrowser(), [...args, ...browserFlags, 'about:blank'], {
      detached: true,
      stdio: ['ignore', 'ignore', 'pipe'],
    })
    this.#browser = await chromium.connectOverCDP(await addressOf(this.#process))
    return this.#browser
  }

  /** Ends every process of it at once; nothing is told, nothing is tidied. */
  async kill(): Promise<void> {
    const running = this.#process
    if (running?.pid === undefined || running.exitCode !== null || running.signalCode !== null) return
    const ended = once(running, 'exit')
    process.kill(-running.pid, 'SIGKILL')
    await ended
    await this.#browser?.close().catch(() => {})
  }

  async dispose(): Promise<void> {
    await this.kill()
    rmSync(this.#profile, { recursive: true, force: true, maxRetries: 5 })
  }
}

/** Where it is driven from, which it says when it stands. */
function addressOf({ stderr }: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = ''
    stderr?.on('data', (piece: Buffer) => {
      said += piece
      const address = /DevTools listening on (ws:\S+)/.exec(said)?.[1]
      if (address !== undefined) resolve(address)
    })
    stderr?.on('close', () => reject(new Error(`The browser did not start: ${said}`)))
  })
}
