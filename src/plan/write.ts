import type { Plan } from '../document/plan'
import type { Form, FormNode, ListNode, ObjectNode } from './form'
import { PLAN_FORM } from './plan-form'

/**
 * A plan as the text of a file: fields in a fixed order, numbers rounded to 1e-9, a key, a contact span, a
 * note on a line of its own, so that a change shows as a line or two in a comparison.
 * Reading the text and writing it again gives the same text.
 * @param plan a valid plan; extra fields are left out
 * @throws RangeError on a number that is not finite: no file can hold it
 */
export function writePlan(plan: Plan): string {
  return `${writeForm(PLAN_FORM, plan)}\n`
}

/** A value as JSON in a form's order and layout, without a line break at the end. */
const writeForm = <T>(form: Form<T>, value: T): string => text(form, value, '\n')

/** @param newline a line break and the indentation of the line that the value stands on */
function text(node: FormNode, value: unknown, newline: string): string {
  switch (node.kind) {
    case 'number':
      return numberText(value as number)
    case 'vector':
      return `[${(value as readonly number[]).map(numberText).join(', ')}]`
    case 'nullable':
      return value === null ? 'null' : text(node.of, value, newline)
    case 'list':
      return listText(node, value as readonly unknown[], newline)
    case 'object':
      return objectText(node, value as Readonly<Record<string, unknown>>, newline)
    default:
      return JSON.stringify(value)
  }
}

/** Nanometres and nanoradians: far below what is seen, far above the last bit, so that rounding is stable. */
const GRID = 1e9

function numberText(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a plan holds finite numbers only, got ${value}`)
  // −0 comes out as 0.
  return String(Math.round(value * GRID) / GRID)
}

function listText(node: ListNode, items: readonly unknown[], newline: string): string {
  if (items.length === 0) return '[]'
  const inner = `${newline}  `
  return `[${inner}${items.map((item) => text(node.of, item, inner)).join(`,${inner}`)}${newline}]`
}

function objectText(node: ObjectNode, value: Readonly<Record<string, unknown>>, newline: string): string {
  const inner = node.inline ? ' ' : `${newline}  `
  const fields: string[] = []
  for (const [name, of] of node.fields)
    if (!node.partial || Object.hasOwn(value, name))
      fields.push(`${JSON.stringify(name)}: ${text(of, value[name], inner)}`)
  if (fields.length === 0) return '{}'
  return `{${inner}${fields.join(`,${inner}`)}${node.inline ? ' ' : newline}}`
}
