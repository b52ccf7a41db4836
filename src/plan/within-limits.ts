import type { Range } from '../document/limits'
import type { Form, FormNode } from './form'
import { isId, tidyText } from './text-rules'

/**
 * A value brought within a form's limits, so that no edit can make a plan that could not be read again:
 * numbers go to the nearest allowed one, text loses what it may not hold.
 * @throws TypeError or RangeError on what has no nearest allowed value (NaN, an unknown choice, a missing
 *   field): the caller's mistake
 */
export const withinLimits = <T>(form: Form<T>, value: T): T => limitNode(form, value) as T

function limitNode(node: FormNode, value: unknown): unknown {
  switch (node.kind) {
    case 'number': {
      const number = clamp(value as number, node.range)
      return node.whole ? Math.round(number) : number
    }
    case 'vector':
      return items(value).map((item) => clamp(item as number, node.range))
    case 'text':
      return tidyText(String(value), node.longest, node.lines ? 'lines' : 'line')
    case 'id':
      if (typeof value === 'string' && isId(value)) return value
      throw new RangeError(`expected an id, got ${String(value)}`)
    case 'choice':
      if (node.of.includes(value as string | number)) return value
      throw new RangeError(`expected one of ${node.of.join(', ')}, got ${String(value)}`)
    case 'boolean':
      return Boolean(value)
    case 'nullable':
      return value === null ? null : limitNode(node.of, value)
    case 'list':
      return items(value)
        .slice(0, node.most)
        .map((item) => limitNode(node.of, item))
    case 'object': {
      if (typeof value !== 'object' || value === null) throw new TypeError(`expected an object, got ${value}`)
      const fields = [...node.fields].filter(([name]) => !node.partial || Object.hasOwn(value, name))
      const entries = fields.map(([name, of]) => [
        name,
        limitNode(of, (value as Record<string, unknown>)[name]),
      ])
      return Object.fromEntries(entries)
    }
  }
}

/** @throws RangeError on NaN, an infinity or what is no number */
export function clamp(value: number, [least, most]: Range): number {
  if (!Number.isFinite(value)) throw new RangeError(`expected a finite number, got ${value}`)
  return Math.min(most, Math.max(least, value))
}

function items(value: unknown): readonly unknown[] {
  if (Array.isArray(value)) return value
  throw new TypeError(`expected a list, got ${String(value)}`)
}
