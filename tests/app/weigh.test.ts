import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { afterAll, describe, expect, it } from 'vitest'
import { LIMITS } from '../../src/document/limits'

const root = join(import.meta.dirname, '../..')
const demo = join(root, 'static/capstone.json')
const folder = mkdtempSync(join(tmpdir(), 'weigh-'))
afterAll(() => rmSync(folder, { recursive: true }))

/** Runs the command as `npm run weigh` does. */
function weigh(...args: string[]) {
  const command = ['--import', 'tsx', join(root, 'src/app/weigh.ts'), ...args]
  const { status, stdout, stderr } = spawnSync(process.execPath, command, {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 64_000_000,
  })
  return { status, stdout, lines: stderr.split('\n').filter(Boolean) }
}

function file(name: string, text: string): string {
  const path = join(folder, name)
  writeFileSync(path, text)
  return path
}

const plan = () => JSON.parse(readFileSync(demo, 'utf8'))

describe('npm run weigh', { timeout: 30_000 }, () => {
  it('prints a report as JSON', () => {
    const { status, stdout, lines } = weigh(demo, '--json')
    const { frames } = JSON.parse(stdout)
    expect([status, lines]).toEqual([0, []])
    expect(frames).toHaveLength(plan().takes[0].length)
    expect(frames[0].limbs[0]).toMatchObject({ id: 'legL', verdict: 'pinned' })
  })

  it('prints a table, and writes the sheet as CSV and nothing beside it', () => {
    const csv = join(folder, 'sheet.csv')
    const { status, stdout } = weigh(demo, '--take', plan().takes[0].name, '--csv', csv)
    expect(status).toBe(0)
    expect(stdout).toContain('1001: His left leg is pinned here.')
    const records = parse(readFileSync(csv, 'utf8'), { columns: true }) as Record<string, string>[]
    expect(records).toHaveLength(plan().takes[0].length)
    expect(records[0]).toMatchObject({ frame: '1001', mark: 'K', 'leg R state': 'down' })
    expect(readdirSync(folder).filter((name) => name.includes('.part'))).toEqual([])
  })

  it('weighs a plain problem', () => {
    // Ladder of 5 m and 400 N on a smooth wall at 53°: OpenStax University Physics vol. 1, Example 12.5.
    const [height, out] = [5 * Math.sin((53 * Math.PI) / 180), 5 * Math.cos((53 * Math.PI) / 180)]
    const ladder = {
      format: 'weighbridge-problem',
      version: 1,
      gravity: 10,
      mass: 40,
      com: [0, height / 2, out / 2],
      contacts: [
        { id: 'floor', vertices: [[0, 0, 0]], normal: [0, 1, 0], friction: 0.5 },
        { id: 'wall', vertices: [[0, height, out]], normal: [0, 0, -1], friction: 0 },
      ],
    }
    const { status, stdout } = weigh(file('ladder.json', JSON.stringify(ladder)), '--json')
    const [{ contacts, push }] = JSON.parse(stdout).frames
    expect([status, push]).toEqual([0, 0])
    expect(contacts[0].load).toBeCloseTo(400, 3)
    expect(contacts[1].load).toBeCloseTo(150.7, 1)
    // It needs 0.377 of the 0.5 there are.
    expect(contacts[0].frictionUsed).toBeCloseTo(0.377 / 0.5, 2)
  })

  it('refuses a bad plan: exit code 2, one line a fault, nothing written', () => {
    const bad = { ...plan(), gravity: -1, firstFrame: 0.5, title: 7 }
    const csv = join(folder, 'never.csv')
    const { status, stdout, lines } = weigh(file('bad.json', JSON.stringify(bad)), '--csv', csv)
    expect([status, stdout]).toEqual([2, ''])
    expect(lines).toHaveLength(3)
    for (const path of ['/gravity', '/firstFrame', '/title'])
      expect(lines.filter((line) => line.includes(path))).toHaveLength(1)
    expect(readdirSync(folder)).not.toContain('never.csv')
  })

  it.each([
    ['not JSON', 'noise.json', '\u0000\u0001 noise {'],
    ['not ours', 'other.json', '{"format": "other"}'],
    ['a newer version', 'newer.json', '{"format": "weighbridge-plan", "version": 2}'],
    ['a bad problem', 'problem.json', '{"format": "weighbridge-problem", "version": 1}'],
    ['an empty file', 'empty.json', ''],
  ])('refuses %s', (_, name, text) => {
    const { status, stdout, lines } = weigh(file(name, text))
    expect([status, stdout]).toEqual([2, ''])
    expect(lines.length).toBeGreaterThan(0)
    for (const line of lines) expect(line).toContain(`${name}: `)
  })

  it('refuses a file larger than any plan without reading it', () => {
    const { status, lines } = weigh(file('huge.json', ' '.repeat(LIMITS.fileBytes + 1)))
    expect(status).toBe(2)
    expect(lines).toEqual([expect.stringContaining('20 MB at most')])
  })

  it.each([
    ['no file', []],
    ['a file that is not there', ['nowhere.json']],
    ['a folder', [folder]],
    ['an unknown option', [demo, '--fast']],
    ['a take that is not there', [demo, '--take', 'Second thoughts']],
  ])('refuses %s in one line', (_, args) => {
    const { status, stdout, lines } = weigh(...args)
    expect([status, stdout, lines.length]).toEqual([2, '', 1])
  })

  it('says by its exit code that the CSV could not be written, and leaves no part of it', () => {
    const { status, lines } = weigh(demo, '--csv', join(folder, 'no-such-folder', 'x.csv'))
    expect(status).toBe(1)
    expect(lines).toEqual([expect.stringContaining("can't be written")])
  })

  it('explains itself', () => {
    const { status, stdout } = weigh('--help')
    expect(status).toBe(0)
    expect(stdout).toContain('npm run weigh -- plan.json [--take NAME] [--csv FILE] [--json]')
  })
})
