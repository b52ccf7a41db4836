import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020'
import { describe, expect, it } from 'vitest'
import type { FaultCode } from '../../src/plan/faults'
import type { FormNode } from '../../src/plan/form'
import { PLAN_FORM } from '../../src/plan/plan-form'
import { readPlan } from '../../src/plan/read'
import { ID_RULE, LINE_RULE, LINES_RULE } from '../../src/plan/text-rules'
import { writePlan } from '../../src/plan/write'
import { random } from '../../src/space/random'
import { mutateValue } from './mutate'
import { randomPlan, smallPlan } from './random-plan'

const schema = JSON.parse(readFileSync('static/plan.schema.json', 'utf8'))
const validate = new Ajv2020({ allErrors: false }).compile(schema)

/** What a schema cannot say; everything else it must refuse as the reader does. */
const BEYOND_A_SCHEMA: ReadonlySet<FaultCode> = new Set([
  'duplicate-id',
  'no-such-box',
  'keys-out-of-order',
  'outside-take',
  'span-reversed',
  'span-too-short',
  'contacts-overlap',
  'arcs-overlap',
  'kind-not-allowed',
  'normal-not-unit',
  'rate-out-of-range',
  'width-out-of-range',
  'camera-at-aim',
])

describe('the JSON Schema of a plan', () => {
  it('accepts what the writer writes', () => {
    for (let seed = 0; seed < 100; seed++) {
      validate(JSON.parse(writePlan(randomPlan(random(seed)))))
      expect(validate.errors, `seed ${seed}`).toBeNull()
    }
  })

  it('agrees with the reader on 5,000 files with a changed value', () => {
    const plans = [1, 2, 3, 4, 5].map(smallPlan)
    const seen = { accepted: 0, refused: 0 }
    for (let seed = 0; seed < 5_000; seed++) {
      const changed = JSON.parse(JSON.stringify(mutateValue(random(seed), plans[seed % plans.length])))
      const read = readPlan(JSON.stringify(changed))
      // How parts fit together is looked at only when each has its form, so the first fault tells which it was.
      const readerTakes = read.ok || BEYOND_A_SCHEMA.has(read.faults[0]?.code as FaultCode)
      const schemaTakes = validate(changed)
      const why = `seed ${seed}: ${read.ok ? 'read' : read.faults[0]?.message}; ${JSON.stringify(validate.errors)}`
      expect(schemaTakes, why).toBe(readerTakes)
      if (schemaTakes) seen.accepted += 1
      else seen.refused += 1
    }
    expect(seen.accepted).toBeGreaterThan(300)
    expect(seen.refused).toBeGreaterThan(2_000)
  }, 60_000)

  it('has the limits, choices and fields of the form, and a title or a description for each', () => {
    compare(PLAN_FORM, schema, '')
  })
})

type Json = { readonly [name: string]: Json }

function resolve(part: Json): Json {
  const { $ref, ...rest } = part
  if ($ref === undefined) return part
  const name = String($ref).replace('#/$defs/', '')
  return { ...resolve(schema.$defs[name]), ...rest }
}

function compare(node: FormNode, reference: Json, path: string): void {
  const part = resolve(reference)
  expect(part.title ?? part.description, `title of ${path}`).toBeTypeOf('string')
  switch (node.kind) {
    case 'number':
      expect([part.minimum, part.maximum, part.type], path).toEqual([
        ...node.range,
        node.whole ? 'integer' : 'number',
      ])
      break
    case 'vector': {
      const item = resolve(part.items as Json)
      expect([part.minItems, part.maxItems, item.minimum, item.maximum], path).toEqual([3, 3, ...node.range])
      break
    }
    case 'text':
      expect([part.maxLength, part.pattern], path).toEqual([
        node.longest,
        (node.lines ? LINES_RULE : LINE_RULE).source,
      ])
      break
    case 'id':
      expect(part.pattern, path).toBe(ID_RULE.source)
      break
    case 'choice':
      expect(part.enum ?? [part.const], path).toEqual(node.of)
      break
    case 'boolean':
      expect(part.type, path).toBe('boolean')
      break
    case 'nullable': {
      const [nothing, something] = part.anyOf as unknown as [Json, Json]
      expect(nothing, path).toEqual({ type: 'null' })
      compare(node.of, something, path)
      break
    }
    case 'list':
      expect([part.minItems ?? 0, part.maxItems], path).toEqual([node.least, node.most])
      compare(node.of, part.items as Json, `${path}/0`)
      break
    case 'object':
      expect(Object.keys(part.properties as Json), path).toEqual([...node.fields.keys()])
      expect([part.required ?? [], part.additionalProperties], path).toEqual([
        node.partial ? [] : [...node.fields.keys()],
        false,
      ])
      for (const [name, of] of node.fields)
        compare(of, (part.properties as Json)[name] as Json, `${path}/${name}`)
  }
}
