import type { Faults, Place } from './faults'
import { shown } from './faults'
import type { Form, FormNode, ListNode, ObjectNode } from './form'
import { FORBIDDEN_IDS, idRule, isId, isText, LINE_RULE, LINES_RULE } from './text-rules'

/**
 * What a parsed JSON value says in a form: a fresh value with only the form's fields, in the form's order.
 * @returns undefined where there are faults; they are added to `faults`
 */
export function readForm<T>(form: Form<T>, value: unknown, faults: Faults, place?: Place): T | undefined {
  const before = faults.count
  const read = take(form, value, place, faults)
  return faults.count === before ? (read as T) : undefined
}

function take(node: FormNode, value: unknown, place: Place | undefined, faults: Faults): unknown {
  switch (node.kind) {
    case 'number':
      return takeNumber(node, value, place, faults)
    case 'vector':
      return takeVector(node, value, place, faults)
    case 'text':
      return takeText(node, value, place, faults)
    case 'id':
      return takeId(value, place, faults)
    case 'choice':
      return takeChoice(node.of, value, place, faults)
    case 'boolean':
      if (typeof value !== 'boolean') wrongType(value, 'true or false', place, faults)
      return value
    case 'nullable':
      return value === null ? null : take(node.of, value, place, faults)
    case 'list':
      return takeList(node, value, place, faults)
    case 'object':
      return takeObject(node, value, place, faults)
  }
}

function wrongType(value: unknown, wanted: string, place: Place | undefined, faults: Faults): undefined {
  faults.add('wrong-type', place, () => `it is ${shown(value)}`, `write ${wanted} there`)
  return undefined
}

function takeNumber(
  node: Extract<FormNode, { kind: 'number' }>,
  value: unknown,
  place: Place | undefined,
  faults: Faults,
): number | undefined {
  const [least, most] = node.range
  const wanted = () =>
    `write a${node.whole ? ' whole' : ''} number from ${least} to ${most}${node.unit && ` ${node.unit}`}`
  if (typeof value !== 'number') return wrongType(value, wanted().slice('write '.length), place, faults)
  if (!Number.isFinite(value)) faults.add('not-finite', place, 'it is not a finite number', wanted())
  else if (node.whole && !Number.isInteger(value))
    faults.add('not-whole', place, `it is ${value}, not a whole number`, wanted())
  else if (value < least || value > most) faults.add('out-of-range', place, `it is ${value}`, wanted())
  // −0 would not come back from a file as it was.
  return value === 0 ? 0 : value
}

function takeVector(
  node: Extract<FormNode, { kind: 'vector' }>,
  value: unknown,
  place: Place | undefined,
  faults: Faults,
): unknown {
  if (!Array.isArray(value)) return wrongType(value, 'a list of three numbers, [x, y, z],', place, faults)
  if (value.length !== 3) {
    const code = value.length < 3 ? 'too-few' : 'too-many'
    faults.add(code, place, `it has ${value.length} numbers`, 'write three, [x, y, z]')
    return undefined
  }
  const component = { kind: 'number', range: node.range, unit: node.unit, whole: false } as const
  return value.map((item: unknown, i) => takeNumber(component, item, { above: place, name: i }, faults))
}

function takeText(
  node: Extract<FormNode, { kind: 'text' }>,
  value: unknown,
  place: Place | undefined,
  faults: Faults,
): string | undefined {
  if (typeof value !== 'string') return wrongType(value, 'text in double quotes', place, faults)
  if (isLonger(value, node.longest))
    faults.add('bad-text', place, 'the text is too long', `shorten it to ${node.longest} characters`)
  else if (!isText(value, node.lines ? LINES_RULE : LINE_RULE))
    faults.add(
      'bad-text',
      place,
      node.lines ? 'the text holds control characters' : 'the text holds line breaks or control characters',
      'take them out',
    )
  return value
}

/** Whether a text has more than `most` code points; never counts a huge one. */
function isLonger(text: string, most: number): boolean {
  if (text.length <= most) return false
  return text.length > 2 * most || [...text].length > most
}

function takeId(value: unknown, place: Place | undefined, faults: Faults): string | undefined {
  if (typeof value !== 'string') return wrongType(value, `an id in double quotes (${idRule})`, place, faults)
  if (!isId(value)) {
    const why = FORBIDDEN_IDS.has(value) ? 'a word no id may be' : 'no id'
    faults.add('bad-id', place, () => `${shown(value)} is ${why}`, `use ${idRule}`)
  }
  return value
}

function takeChoice(
  choices: readonly (string | number)[],
  value: unknown,
  place: Place | undefined,
  faults: Faults,
): unknown {
  if (!choices.includes(value as string | number))
    faults.add(
      'not-a-choice',
      place,
      () => `it is ${shown(value)}`,
      `write ${choices.map((c) => JSON.stringify(c)).join(' or ')}`,
    )
  return value
}

function takeList(node: ListNode, value: unknown, place: Place | undefined, faults: Faults): unknown {
  if (!Array.isArray(value)) return wrongType(value, `a list of ${node.what}`, place, faults)
  if (value.length < node.least || value.length > node.most) {
    const few = value.length < node.least
    faults.add(
      few ? 'too-few' : 'too-many',
      place,
      `it has ${value.length} ${node.what}`,
      few ? `give it at least ${node.least}` : `leave ${node.most} at most`,
    )
    return undefined
  }
  return value.map((item: unknown, i) => take(node.of, item, { above: place, name: i }, faults))
}

function takeObject(node: ObjectNode, value: unknown, place: Place | undefined, faults: Faults): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return wrongType(value, 'an object, { … },', place, faults)
  for (const name of Object.keys(value)) if (!node.fields.has(name)) strange(name, place, faults)
  const read: Record<string, unknown> = {}
  for (const [name, of] of node.fields) {
    const at = { above: place, name }
    if (Object.hasOwn(value, name))
      read[name] = take(of, (value as Record<string, unknown>)[name], at, faults)
    else if (!node.partial) faults.add('missing-field', at, 'it is missing', 'add it, or choose a whole file')
  }
  return read
}

function strange(name: string, place: Place | undefined, faults: Faults): void {
  const at = { above: place, name }
  if (name === '__proto__' || name === 'constructor' || name === 'prototype')
    faults.add('forbidden-field', at, 'no file may hold a field of this name', 'take it out')
  else
    faults.add(
      'unknown-field',
      at,
      'this version knows no field of this name',
      'take it out, or mend its name',
    )
}
