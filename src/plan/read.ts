import type { Plan } from '../document/plan'
import { checkPlan } from './check'
import { type Fault, Faults, shown } from './faults'
import { PLAN_FORM } from './plan-form'
import { readForm } from './read-form'
import { parseText } from './text'

/**
 * The plan in a file, or every reason why it cannot be read. Strict: what this version does not know is a
 * fault, because a newer version has a number of its own.
 * @param text the file's text, or its bytes (UTF-8)
 * @returns a fresh plan with only the known fields, in the form's order; or at most 20 faults and, where
 *   there are more, one that says how many
 */
export function readPlan(text: string | Uint8Array): PlanRead {
  const parsed = parseText(text)
  if (!parsed.ok) return { ok: false, faults: parsed.faults.list() }
  const faults = new Faults()
  if (!checkHeader(parsed.value, faults)) return { ok: false, faults: faults.list() }
  const plan = readForm(PLAN_FORM, parsed.value, faults)
  if (plan !== undefined) checkPlan(plan, faults)
  return plan !== undefined && faults.count === 0 ? { ok: true, plan } : { ok: false, faults: faults.list() }
}

export type PlanRead =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Every fault in how a plan in memory fits its form; empty where it can be written and read again. */
export function faultsOf(plan: Plan): readonly Fault[] {
  const faults = new Faults()
  if (readForm(PLAN_FORM, plan, faults) !== undefined) checkPlan(plan, faults)
  return faults.list()
}

const FORMAT = 'weighbridge-plan'
const VERSION = 1

/** Whether the file is ours and of a version that can be read; a fault says why not. */
function checkHeader(value: unknown, faults: Faults): boolean {
  const own = (name: string): unknown =>
    typeof value === 'object' && value !== null && Object.hasOwn(value, name)
      ? (value as Record<string, unknown>)[name]
      : undefined
  const format = own('format')
  if (format !== FORMAT) {
    const found = format === undefined ? 'it names no format' : `its format is ${shown(format)}`
    faults.add('not-ours', undefined, found, `choose a plan file, whose format is "${FORMAT}"`)
    return false
  }
  const version = own('version')
  const place = { above: undefined, name: 'version' }
  if (typeof version === 'number' && version > VERSION) {
    const problem = `made by a newer Weighbridge (version ${version} of the format; this one reads ${VERSION})`
    faults.add('newer-version', place, problem, 'open it with the newer one')
    return false
  }
  if (version !== VERSION) {
    const found = version === undefined ? 'the version is missing' : `the version is ${shown(version)}`
    faults.add('bad-version', place, found, `write ${VERSION}, or choose a whole file`)
    return false
  }
  return true
}
