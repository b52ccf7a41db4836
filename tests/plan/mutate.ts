import { pick, type Source, wholeBetween } from './random-plan'

const ODD: readonly unknown[] = [
  null,
  true,
  -1,
  0,
  0.5,
  1e9,
  -1e9,
  1e300,
  3.0000000001,
  '',
  '12',
  'ground',
  'constructor',
  '__proto__',
  'a\u0000b',
  'two\nlines',
  '\ud800',
  'x'.repeat(5000),
  [],
  [0, 0],
  [0, 0, 0],
  [0, 0, 0, 0],
  {},
  { frame: 0 },
]

type Node = Record<string, unknown> | unknown[]
const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null

/** A deep copy of a JSON value with one thing changed somewhere; the result is JSON too. */
export function mutateValue(next: Source, value: unknown): unknown {
  const copy: unknown = JSON.parse(JSON.stringify(value))
  const nodes: Node[] = []
  const collect = (node: unknown) => {
    if (!isNode(node)) return
    nodes.push(node)
    Object.values(node).forEach(collect)
  }
  collect(copy)
  const node = pick(next, nodes)
  if (Array.isArray(node)) mutateList(next, node)
  else mutateObject(next, node)
  return copy
}

function mutateList(next: Source, list: unknown[]): void {
  const index = wholeBetween(next, 0, Math.max(0, list.length - 1))
  const item = list[index]
  const change = wholeBetween(next, 0, 4)
  if (change === 0) list.splice(index, 1)
  else if (change === 1) list.push(item === undefined ? pick(next, ODD) : item)
  else if (change === 2) list.reverse()
  else if (typeof item === 'number' && change === 3) list[index] = nudge(next, item)
  else list[index] = pick(next, ODD)
}

function mutateObject(next: Source, object: Record<string, unknown>): void {
  const names = Object.keys(object)
  const name = names.length > 0 ? pick(next, names) : 'nothing'
  const value = object[name]
  const change = wholeBetween(next, 0, 5)
  if (change === 0) delete object[name]
  else if (change === 1) object[pick(next, ['extra', '__proto', 'prototype', 'Frame'])] = pick(next, ODD)
  else if (change === 2) define(object, pick(next, ['__proto__', 'constructor']), pick(next, ODD))
  else if (typeof value === 'number' && change === 3) object[name] = nudge(next, value)
  else object[name] = pick(next, ODD)
}

/** JSON may hold a field of the name `__proto__`; an assignment would set the prototype instead. */
function define(object: object, name: string, value: unknown): void {
  Object.defineProperty(object, name, { value, enumerable: true, configurable: true, writable: true })
}

const nudge = (next: Source, value: number): number =>
  pick(next, [-value, value + 1, value - 1, value * 1000, value + 0.25, 1e-320, value / 3])

/** A text with one stretch of it changed, cut, doubled or replaced. */
export function mutateText(next: Source, text: string): string {
  const at = wholeBetween(next, 0, text.length - 1)
  const end = Math.min(text.length, at + wholeBetween(next, 1, 12))
  const inserted = pick(next, [
    '',
    '0',
    '-',
    'NaN',
    '1e999',
    '"',
    '\\',
    '[',
    ']',
    '{',
    '}',
    ',',
    ':',
    '\u0000',
    'é',
  ])
  const change = wholeBetween(next, 0, 3)
  if (change === 0) return text.slice(0, at)
  if (change === 1) return text.slice(0, end) + text.slice(at)
  return text.slice(0, at) + inserted + text.slice(change === 2 ? at : end)
}
