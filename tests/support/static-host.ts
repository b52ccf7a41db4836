import { existsSync, readFileSync, statSync } from 'node:fs'
import { createServer } from 'node:http'
import { extname, join, normalize } from 'node:path'

/** The plainest static host there is: files by their names, nothing cached, nothing rewritten. */
export interface StaticHost {
  /** With a slash at the end. */
  readonly url: string
  /** What was asked for so far, below the base: 'assets/index.js'; '' is the page. */
  readonly asked: string[]
  /** Contents that take a file's place from now on, by its name. */
  readonly instead: Map<string, string>
  close(): Promise<void>
}

/**
 * Serves a folder on a port of its own.
 * @param base path below which it lies, with a slash at either end
 */
export async function hostFolder(folder: string, base = '/'): Promise<StaticHost> {
  const asked: string[] = []
  const instead = new Map<string, string>()
  const server = createServer((request, response) => {
    const path = decodeURIComponent((request.url ?? '').replace(/[?#].*$/, ''))
    const name = path.startsWith(base) ? normalize(path.slice(base.length)) : '..'
    const wanted = name === '.' ? '' : name
    asked.push(wanted)
    const file = join(folder, wanted === '' ? 'index.html' : wanted)
    const there = !wanted.startsWith('..') && existsSync(file) && statSync(file).isFile()
    if (!there) {
      response.writeHead(404).end()
      return
    }
    const content = instead.get(wanted) ?? readFileSync(file)
    const type = TYPES[extname(file)] ?? 'application/octet-stream'
    response.writeHead(200, { 'content-type': type, 'cache-control': 'no-store' }).end(content)
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const address = server.address()
  if (typeof address !== 'object' || address === null) throw new Error('The host has no address')
  return {
    url: `http://127.0.0.1:${address.port}${base}`,
    asked,
    instead,
    close: () => {
      server.closeAllConnections()
      return new Promise((resolve) => server.close(() => resolve()))
    },
  }
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
}
