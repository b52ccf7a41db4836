/**
 * `npm run bench`: how long the calculations take on this machine, what they allocate, and how they compare with
 * libraries. `-- weigh peers` measures these groups alone (see GROUPS; `peers` are the libraries), `-- --json` prints
 * the figures for machines. Exits with 1 where a firm goal is missed: a median, or a ratio to a library, which is
 * measured in the same run.
 */
import { cpus, loadavg } from 'node:os'
import { bytesPerRun } from './allocation'
import { type Case, type Figures, measure, ROUNDS } from './measure'
import { motionCases } from './motion'
import { notesCases } from './notes'
import type { Agreement, Peer } from './peer'
import { peers } from './peers'
import { plannerCases } from './planner'
import { trialCases } from './trial'
import { weighCases } from './weigh'

/** Time for each case, and for each side of a comparison. */
const SECONDS = 2

const MISSED = 'MISSED'

const GROUPS: Readonly<Record<string, () => Case[]>> = {
  weigh: weighCases,
  motion: motionCases,
  trial: trialCases,
  planner: plannerCases,
  notes: notesCases,
}
const words = process.argv.slice(2).filter((word) => !word.startsWith('--'))
const isAsked = (group: string): boolean => words.length === 0 || words.includes(group)

const cases = Object.entries(GROUPS).flatMap(([group, make]) => (isAsked(group) ? make() : []))
const figures = measure(cases, SECONDS)
const results = cases.map((one, i) => {
  const { name, input, goal } = one
  const timed = figures[i] as Figures
  return { name, input, goal, ...timed, bytes: bytesPerRun(one), verdict: verdictOn(goal, timed) }
})
const compared = compare(isAsked('peers') ? await peers() : [])
const missed = [...results, ...compared].some(({ verdict }) => verdict === MISSED)

const load = Number(loadavg()[0]?.toFixed(1))
/** This program alone makes a load of 1. */
const busy = load > cpus().length
const machine = `${cpus()[0]?.model ?? 'unknown processor'} × ${cpus().length}, Node ${process.version}`
if (process.argv.includes('--json'))
  console.log(JSON.stringify({ machine, load, busy, unit: 'ms', results, peers: compared }, null, 2))
else {
  console.log(`${machine}; load ${load}`)
  if (busy) console.log('The machine is busy: times come out somewhat too long.')
  if (results.length > 0) printResults()
  if (compared.length > 0) printPeers()
}
process.exitCode = missed ? 1 : 0

function compare(all: readonly Peer[]) {
  const sides = measure(
    all.flatMap(({ ours, theirs }) => [ours, theirs]),
    SECONDS,
  )
  return all.map(({ name, library, how, goal, ours: { input }, agree }, i) => {
    const ours = (sides[2 * i] as Figures).median
    const theirs = (sides[2 * i + 1] as Figures).median
    const ratio = theirs / ours
    const verdict = goal === undefined ? '' : ratio >= goal ? 'met' : MISSED
    return { name, input, library, how, ours, theirs, ratio, goal, verdict, agreement: agree() }
  })
}

function verdictOn(goal: Case['goal'], { median, p99 }: Figures): string {
  if (goal.median === undefined && goal.p99 === undefined) return ''
  if (median > (goal.median ?? Number.POSITIVE_INFINITY)) return MISSED
  return p99 > (goal.p99 ?? Number.POSITIVE_INFINITY) ? 'met, p99 over' : 'met'
}

function printResults(): void {
  console.log(
    `\nTimes in ms, of the quietest of ${ROUNDS} rounds or of all where they are few, and what one run allocates.\n`,
  )
  const rows = results.map(({ name, input, goal, median, p95, p99, bytes, verdict, runs }) => [
    name,
    shown(median),
    shown(p95),
    shown(p99),
    sizeText(bytes),
    [goal.median && `median ≤ ${goal.median}`, goal.p99 && `p99 ≤ ${goal.p99}`].filter(Boolean).join(', '),
    verdict,
    `${input} (${runs} runs)`,
  ])
  printTable([['', 'median', 'p95', 'p99', 'allocates', 'goal', '', 'input'], ...rows])
  console.log(
    '\nFirm are the medians. A 99th percentile over its goal is told only: on a busy machine it is not all ours.',
  )
}

function printPeers(): void {
  console.log('\nMedians in ms beside libraries on the same problems, in the same run.\n')
  const notes = [...new Set(compared.map(noteOf))]
  const rows = compared.map((one) => [
    one.name,
    shown(one.ours),
    shown(one.theirs),
    `${one.ratio < 100 ? one.ratio.toPrecision(2) : Math.round(one.ratio)}×`,
    one.goal === undefined ? '' : `≥ ${one.goal}×`,
    one.verdict,
    differing(one.agreement),
    `(${notes.indexOf(noteOf(one)) + 1})`,
    one.input,
  ])
  printTable([['', 'ours', 'theirs', 'ratio', 'goal', '', 'answers differ by', '', 'input'], ...rows])
  console.log()
  for (const [i, note] of notes.entries()) console.log(`(${i + 1}) ${note}.`)
}

function noteOf({ library, how }: { readonly library: string; readonly how: string }): string {
  return `${library} ${how}`
}

function differing({ difference, of }: Agreement): string {
  return `${difference < 1e-15 ? '0' : difference.toPrecision(1)} of ${of}`
}

function sizeText(bytes: number): string {
  return bytes < 1e6 ? `${(bytes / 1e3).toFixed(1)} kB` : `${(bytes / 1e6).toFixed(1)} MB`
}

function shown(time: number): string {
  return time.toPrecision(3)
}

function printTable(rows: readonly (readonly string[])[]): void {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)))
  for (const row of rows)
    console.log(
      row
        .map((cell, i) => cell.padEnd(widths[i] ?? 0))
        .join('  ')
        .trimEnd(),
    )
}
