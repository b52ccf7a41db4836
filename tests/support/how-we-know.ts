import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import ts from 'typescript'
import { literalsIn } from './literals'

/*
 * The README's table "How we know". A check in tests/outside says of itself, in a comment before it:
 *
 * @checks what is checked
 * @against which figure, or what else gives it
 * @from the source, and behind a semicolon how it was come by (see KINDS)
 * @within how far apart the two may be
 *
 * `npm run know` writes the table; a test fails where it isn't the README's.
 */

/** How a figure from outside was come by. */
const KINDS: Readonly<Record<string, string>> = {
  read: 'the figure stands in the source',
  derived: 'worked out from figures read there',
  memory: 'recalled, not looked up',
  library: 'a library of the registry solves or simulates the same, for tests alone',
  integrated: 'the textbook’s equation, integrated in the test',
}

const TAGS = ['checks', 'against', 'from', 'within'] as const
type Check = Readonly<Record<(typeof TAGS)[number], string>>

const BEGIN = '<!-- how we know -->'
const END = '<!-- /how we know -->'
const at = (path: string): string => join(fileURLToPath(import.meta.url), '../../..', path)
/** Where the project keeps it. */
export const README = at('README.md')

/** A README with its table as the checks have it. Throws, saying where, on a check that isn't fully told. */
export function readmeWithTable(readme: string): string {
  const [before, rest, more] = readme.split(`${BEGIN}\n`)
  const after = rest?.split(END)[1]
  if (before === undefined || after === undefined || more !== undefined)
    throw new Error(`README.md needs ${BEGIN} and ${END}, once each and in this order`)
  return `${before}${BEGIN}\n${table()}${END}${after}`
}

function table(): string {
  const files = readdirSync(at('tests/outside')).filter((name) => name.endsWith('.test.ts'))
  const rows = files.sort().flatMap((name) => checksIn(name).map((check) => rowOf(check, name)))
  const kinds = Object.entries(KINDS).filter(([kind]) => rows.some((row) => row.includes(`; ${kind} |`)))
  return [
    '| what is checked | against | from | within | test |',
    '|---|---|---|---|---|',
    ...rows,
    '',
    `${kinds.map(([kind, meaning]) => `_${kind}_: ${meaning}`).join('. ')}.`,
    '',
  ].join('\n')
}

function rowOf({ checks, against, from, within }: Check, name: string): string {
  const test = `[${name.replace('.test.ts', '')}](tests/outside/${name})`
  return `| ${[checks, against, withVersion(from), within, test].join(' | ')} |`
}

/** A library is named with the version that the checks run against. */
function withVersion(from: string): string {
  if (!from.endsWith('; library')) return from
  const library = from.slice(0, -'; library'.length)
  const { devDependencies } = JSON.parse(readFileSync(at('package.json'), 'utf8'))
  const version = devDependencies[library]
  if (version === undefined) throw new Error(`${library} is no development dependency`)
  return `${library} ${version}; library`
}

function checksIn(name: string): Check[] {
  const text = readFileSync(at(`tests/outside/${name}`), 'utf8')
  const file = ts.createSourceFile(name, text, ts.ScriptTarget.Latest, true)
  const found: Check[] = []
  const visit = (node: ts.Node): void => {
    if (ts.isExpressionStatement(node)) found.push(...checkAt(node, file))
    ts.forEachChild(node, visit)
  }
  visit(file)
  if (found.length === 0) throw new Error(`tests/outside/${name} doesn’t say what it checks: no @checks`)
  return found
}

function checkAt(node: ts.ExpressionStatement, file: ts.SourceFile): Check[] {
  const told = new Map<string, string>()
  for (const tag of ts.getJSDocTags(node)) {
    const words = ts.getTextOfJSDocComment(tag.comment) ?? ''
    told.set(tag.tagName.text, words.replace(/\s+/g, ' ').trim())
  }
  if (!told.has('checks')) return []
  const check = Object.fromEntries(TAGS.map((tag) => [tag, told.get(tag) ?? ''])) as Check
  const fault = faultOf(check) ?? strayNumber(check, literalsIn(node, file))
  if (fault) throw new Error(`tests/outside/${file.fileName}, “${check.checks}”: ${fault}`)
  return [check]
}

function faultOf(check: Check): string | null {
  const missing = TAGS.find((tag) => !check[tag] || check[tag].includes('|'))
  if (missing) return `no @${missing}, or a | in it`
  const kind = check.from.split('; ').at(-1) as string
  return kind in KINDS ? null : `@from ends with “${kind}”, not with one of ${Object.keys(KINDS).join(', ')}`
}

/** Figures told must be figures tested, in per cent or thousandths as it may be. */
function strayNumber({ against, within }: Check, tested: ReadonlySet<number>): string | null {
  const same = (told: number) =>
    [...tested].some((one) => [1, 100, 1000].some((part) => Math.abs(told / part / one - 1) < 1e-9))
  const stray = `${against} ${within}`
    .match(/\d+(\.\d+)?(e-?\d+)?/g)
    ?.find((figure) => Number(figure) !== 0 && !same(Number(figure)))
  return stray === undefined ? null : `its code has no ${stray}`
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(README, readmeWithTable(readFileSync(README, 'utf8')))
