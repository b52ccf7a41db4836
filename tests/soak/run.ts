/**
 * `npm run soak`: the long forms of what the tests do briefly. `-- weighings trials` for some alone, `-- shifts=300` for
 * fewer seeds, `-- shifts=300@5000` for others. Exits with 1 where a seed failed, and prints it: it becomes a named
 * regression beside its kind. One case's time is the processor's own, so that a busy machine changes little;
 * `--timeless` does not look at it.
 */
import { cpus } from 'node:os'
import { SOAKS } from './all'
import type { BrowserSoak } from './in-browser'
import type { Soak } from './soak'

const words = process.argv.slice(2)
const timed = !words.includes('--timeless')
const asked = words
  .filter((word) => word !== '--timeless')
  .map((word) => {
    const [, name = word, count, from] = /^(\w+)(?:=(\d+))?(?:@(\d+))?$/.exec(word) ?? []
    return { name, count, from }
  })
const chosen = <T extends { readonly name: string }>(all: readonly T[]): T[] =>
  all.filter(({ name }) => asked.length === 0 || asked.some((one) => one.name === name))
const countOf = ({ name, long }: { readonly name: string; readonly long: number }) => {
  const one = asked.find((word) => word.name === name)
  return { count: Number(one?.count ?? long), from: Number(one?.from ?? 0) }
}

console.log(`${cpus()[0]?.model ?? 'unknown processor'} × ${cpus().length}, Node ${process.version}`)
for (const soak of chosen(SOAKS)) soakIn(soak, countOf(soak).count, countOf(soak).from)
if (asked.length === 0 || asked.some(({ name }) => !SOAKS.some((soak) => soak.name === name))) {
  // Only now: builder and browser would take up memory that the ones before are held to.
  const { BROWSER_SOAKS, withBuiltPage } = await import('./in-browser')
  const names = [...SOAKS, ...BROWSER_SOAKS].map(({ name }) => name)
  for (const { name } of asked)
    if (!names.includes(name)) throw new RangeError(`there is no "${name}": ${names.join(', ')}`)
  await withBuiltPage(async (url) => {
    for (const soak of chosen(BROWSER_SOAKS)) await soakAt(url, soak)
  })
}

async function soakAt(url: string, soak: BrowserSoak): Promise<void> {
  const { count, from } = countOf(soak)
  try {
    const { said, well } = await soak.run(url, count, from)
    console.log(`${soak.name}: ${said}${well ? '' : ' FAILED'}`)
    if (!well) process.exitCode = 1
  } catch (error) {
    console.log(`${soak.name} FAILED: ${error instanceof Error ? error.message : error}`)
    process.exitCode = 1
  }
}

function soakIn(soak: Soak, count: number, from: number): void {
  let slowest = { took: 0, seed: from }
  const failed: string[] = []
  const start = performance.now()
  for (let seed = from; seed < from + count; seed++) {
    soak.prepare?.(seed)
    const before = process.cpuUsage()
    let took = 0
    try {
      const look = soak.attempt(seed)
      const { user, system } = process.cpuUsage(before)
      took = (user + system) / 1000
      look?.()
    } catch (error) {
      failed.push(`seed ${seed}: ${error instanceof Error ? error.message : error}`)
    }
    if (took > slowest.took) slowest = { took, seed }
    if (timed && took > soak.most) failed.push(`seed ${seed}: took ${took.toFixed(0)} ms of ${soak.most}`)
  }
  const minutes = (performance.now() - start) / 60_000
  const heap = process.memoryUsage().heapUsed / 1e6
  console.log(
    `${soak.name}: ${count} seeds from ${from}, ${failed.length} failed, slowest ${slowest.took.toFixed(0)} ms (seed ${slowest.seed}), ${minutes.toFixed(1)} min, heap ${heap.toFixed(0)} MB`,
  )
  for (const line of failed.slice(0, 20)) console.log(`  ${line}`)
  if (failed.length > 0) process.exitCode = 1
}
