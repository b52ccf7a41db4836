import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020'
import { describe, expect, it } from 'vitest'
import type { Fault } from '../../src/plan/faults'
import { readProblem } from '../../src/plan/problem'
import { random } from '../../src/space/random'
import { mutateValue } from './mutate'

const schema = JSON.parse(readFileSync('static/problem.schema.json', 'utf8'))
const validate = new Ajv2020().compile(schema)

/** A table with a load, everything said. */
const WHOLE = {
  format: 'weighbridge-problem',
  version: 1,
  title: 'a table',
  gravity: 9.8,
  mass: 25,
  com: [0, 0.7, 0],
  size: 1.5,
  force: [0, -10, 0],
  moment: [0, 0, 5],
  loads: [{ force: [0, -100, 0], at: [0.3, 0.7, 0.2] }],
  contacts: ['a', 'b', 'c'].map((id, i) => ({
    id,
    limb: 'legs',
    vertices: [[i, 0, i % 2]],
    normal: [0, 1, 0],
    friction: 0.5,
    stiffness: 2,
    limit: 1.5,
  })),
}

/** A ladder, everything left out that may be. */
const LEAST = {
  format: 'weighbridge-problem',
  version: 1,
  mass: 10,
  com: [0, 2, 1],
  contacts: [
    { id: 'foot', vertices: [[0, 0, 0]], normal: [0, 1, 0], friction: 0.5 },
    { id: 'wall', vertices: [[0, 4, 2]], normal: [0, 0, -1], friction: 0 },
  ],
}

/** What a schema cannot say: how parts fit together, and how long a normal is. */
const isBeyondASchema = ({ code, path }: Fault): boolean =>
  code === 'duplicate-id' || code === 'bad-outline' || (code === 'out-of-range' && path.endsWith('/normal'))

describe('the JSON Schema of a problem', () => {
  it.each([
    ['whole', WHOLE],
    ['least', LEAST],
  ])('accepts a %s problem, as the reader does', (_, problem) => {
    validate(problem)
    expect(validate.errors).toBeNull()
    expect(readProblem(JSON.stringify(problem))).toMatchObject({ ok: true })
  })

  it('agrees with the reader on 5,000 files with a changed value', () => {
    const seen = { accepted: 0, refused: 0 }
    for (let seed = 0; seed < 5_000; seed++) {
      const changed = mutateValue(random(seed), seed % 2 ? WHOLE : LEAST)
      const read = readProblem(JSON.stringify(changed))
      const readerTakes = read.ok || isBeyondASchema(read.faults[0] as Fault)
      const schemaTakes = validate(JSON.parse(JSON.stringify(changed)))
      const why = `seed ${seed}: ${read.ok ? 'read' : read.faults[0]?.message}; ${JSON.stringify(validate.errors)}`
      expect(schemaTakes, why).toBe(readerTakes)
      if (schemaTakes) seen.accepted += 1
      else seen.refused += 1
    }
    expect(seen.accepted).toBeGreaterThan(300)
    expect(seen.refused).toBeGreaterThan(2_000)
  }, 60_000)

  it('has the limits and defaults of the reader', () => {
    const limits = limitsOf(schema, WHOLE, '')
    expect(limits.length).toBeGreaterThan(30)
    for (const { path, least, most } of limits) {
      const beyond = (value: number) => value + Math.max(Math.abs(value) * 1e-9, 1e-9)
      const refused = (value: number) => faultsWith(path, value).some((fault) => fault.path === path)
      expect([refused(least), refused(most)], path).toEqual([false, false])
      expect([refused(-beyond(-least)), refused(beyond(most))], path).toEqual([true, true])
    }
    const read = readProblem(JSON.stringify(LEAST))
    const { gravity, force, moment, loads, title } = schema.properties
    const { stiffness, limit } = schema.$defs.contact.properties
    expect(read).toMatchObject({
      problem: {
        title: title.default,
        gravity: gravity.default,
        force: force.default,
        moment: moment.default,
        loads: loads.default,
        contacts: [{ limb: 'foot', stiffness: stiffness.default, limit: limit.default }, { limb: 'wall' }],
      },
    })
  })
})

interface Limits {
  readonly path: string
  readonly least: number
  readonly most: number
}

/** The limits of every number in an example, as the schema has them. */
function limitsOf(part: typeof schema, example: unknown, path: string): Limits[] {
  const node = part.$ref ? schema.$defs[String(part.$ref).replace('#/$defs/', '')] : part
  if (typeof example === 'number')
    return node.minimum === undefined ? [] : [{ path, least: node.minimum, most: node.maximum }]
  if (typeof example !== 'object' || example === null) return []
  return Object.entries(example).flatMap(([name, value]) =>
    limitsOf(Array.isArray(example) ? node.items : node.properties[name], value, `${path}/${name}`),
  )
}

function faultsWith(path: string, value: number): readonly Fault[] {
  const changed = structuredClone(WHOLE)
  const way = path.split('/').slice(1)
  const last = way.pop() as string
  const node = way.reduce<Record<string, unknown>>((at, name) => at[name] as never, changed as never)
  node[last] = value
  const read = readProblem(JSON.stringify(changed))
  return read.ok ? [] : read.faults
}
