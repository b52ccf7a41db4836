import { readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { LIMITS } from '../document/limits'
import type { Plan, Take } from '../document/plan'
import { sheetCsv } from '../export/csv'
import { weighTake } from '../export/headless'
import { problemText, reportJson, takeText } from '../export/headless-text'
import { weighProblem } from '../export/problem'
import { readProblem } from '../plan/problem'
import { readPlan } from '../plan/read'
import { columnsOf } from '../sheet/columns'

/** The command `npm run weigh`. Exit code 0: weighed; 1: the answer could not be written; 2: nothing to weigh. */

const HELP = `Weighs a plan's take frame by frame, each frame held still, or a plain problem.

  npm run weigh -- plan.json [--take NAME] [--csv FILE] [--json]
  npm run weigh -- problem.json [--json]

  --take NAME   the take with this name or id; the first one where it is left out
  --csv FILE    writes the timing sheet to FILE as CSV (RFC 4180), all columns and frames
  --json        prints the report as JSON instead of a table (npm run --silent weigh -- … for nothing else)
  --help        this text

The JSON is { frames: [{ frame, com, room, push, limbs, contacts }] }, in m and N, loads along each
contact's normal, shares of the weight; +X is the body's left, +Y up, +Z forward.
Exit code 0: weighed. 1: FILE can't be written. 2: a bad call or a bad file, one line a fault.
`

/** Ends the command with one line a fault. */
class Refused extends Error {
  constructor(readonly lines: readonly string[]) {
    super(lines.join('\n'))
  }
}

/** What the call prints. Throws Refused on a bad call or a bad file. */
function answer(args: string[]): string {
  const { file, take, csv, json, help } = callOf(args)
  if (help) return HELP
  const bytes = bytesOf(file)
  const plan = readPlan(bytes)
  if (plan.ok) {
    const weighed = weighTake(plan.plan, takeOf(plan.plan, take))
    if (csv !== undefined) writeWhole(csv, sheetCsv(weighed.sheet, columnsOf(weighed.sheet)))
    return json ? reportJson(weighed.report) : takeText(weighed)
  }
  const problem = readProblem(bytes)
  if (problem.ok) {
    if (csv !== undefined || take !== undefined)
      throw new Refused([`${file}: a problem has no takes and no sheet; leave out --take and --csv.`])
    const report = weighProblem(problem.problem)
    return json ? reportJson(report) : problemText(report)
  }
  const isProblem = problem.faults[0]?.code !== 'not-ours'
  const { faults } = isProblem ? problem : plan
  throw new Refused(faults.map(({ message }) => `${file}: ${message}`))
}

interface Call {
  readonly file: string
  readonly take: string | undefined
  readonly csv: string | undefined
  readonly json: boolean
  readonly help: boolean
}

function callOf(args: string[]): Call {
  const { values, positionals } = parsed(args)
  const { take, csv, json = false, help = false } = values
  const [file = '', ...others] = positionals
  if (!help && (file === '' || others.length > 0))
    throw new Refused([`give one file to weigh, got ${positionals.length}; --help shows how.`])
  return { file, take, csv, json, help }
}

function parsed(args: string[]) {
  try {
    return parseArgs({
      args,
      allowPositionals: true,
      options: {
        take: { type: 'string' },
        csv: { type: 'string' },
        json: { type: 'boolean' },
        help: { type: 'boolean' },
      },
    })
  } catch (error) {
    throw new Refused([`${firstLine(error)}; --help shows how.`])
  }
}

/** The file's bytes; one that is larger than any plan is not read. */
function bytesOf(file: string): Uint8Array {
  let size: number
  try {
    size = statSync(file).size
    if (size <= LIMITS.fileBytes) return readFileSync(file)
  } catch (error) {
    throw new Refused([`${file}: it can't be read (${firstLine(error)}).`])
  }
  const megabytes = Math.ceil(size / 1e6)
  throw new Refused([`${file}: it has ${megabytes} MB, and a plan has ${LIMITS.fileBytes / 1e6} MB at most.`])
}

function takeOf(plan: Plan, name: string | undefined): Take {
  const take =
    name === undefined
      ? plan.takes[0]
      : (plan.takes.find((one) => one.name === name) ?? plan.takes.find((one) => one.id === name))
  if (take) return take
  const names = plan.takes.map((one) => JSON.stringify(one.name)).join(', ')
  throw new Refused([`there is no take ${JSON.stringify(name)}; the plan has ${names}.`])
}

/** Writes a file whole or not at all: beside it first, then in its place. Exit code 1 where it can't. */
function writeWhole(file: string, text: string): void {
  const beside = `${file}.${process.pid}.part`
  try {
    writeFileSync(beside, text, { flag: 'wx' })
    renameSync(beside, file)
  } catch (error) {
    rmSync(beside, { force: true })
    process.exitCode = 1
    process.stderr.write(`${file}: it can't be written (${firstLine(error)}).\n`)
  }
}

const firstLine = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).split('\n')[0] ?? ''

// Whoever reads only the first lines closes the pipe: no fault of this command.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error
})

try {
  process.stdout.write(answer(process.argv.slice(2)))
} catch (error) {
  if (!(error instanceof Refused)) throw error
  for (const line of error.lines) process.stderr.write(`${line}\n`)
  process.exitCode = 2
}
