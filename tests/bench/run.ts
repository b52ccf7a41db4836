/**
 * `npm run bench`: how long the calculations take on this machine. `-- --json` prints the figures for machines.
 * Exits with 1 where a goal is missed.
 */
import { cpus } from 'node:os'
import { type Case, type Figures, measure } from './measure'
import { trialCases } from './trial'
import { weighCases } from './weigh'

const SECONDS = 2

const machine = `${cpus()[0]?.model ?? 'unknown processor'} × ${cpus().length}, Node ${process.version}`
const results = [...weighCases(), ...trialCases()].map((one) => ({ ...one, figures: measure(one, SECONDS) }))
const missed = results.filter(({ goal, figures }) => !meets(goal, figures))

if (process.argv.includes('--json')) console.log(JSON.stringify({ machine, unit: 'ms', results }, null, 2))
else {
  console.log(`${machine}; times in ms\n`)
  const rows = results.map(({ name, input, goal, figures }) => [
    name,
    shown(figures.median),
    shown(figures.p95),
    shown(figures.p99),
    goalText(goal),
    meets(goal, figures) ? 'met' : 'MISSED',
    `${input} (${figures.runs} runs)`,
  ])
  printTable([['', 'median', 'p95', 'p99', 'goal', '', 'input'], ...rows])
}
process.exitCode = missed.length > 0 ? 1 : 0

function meets(goal: Case['goal'], figures: Figures): boolean {
  return (
    figures.median <= (goal.median ?? Number.POSITIVE_INFINITY) &&
    figures.p99 <= (goal.p99 ?? Number.POSITIVE_INFINITY)
  )
}

function goalText({ median, p99 }: Case['goal']): string {
  return [median && `median ≤ ${median}`, p99 && `p99 ≤ ${p99}`].filter(Boolean).join(', ')
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
