import type { Plan, Take } from '../../document/plan'

/**
 * The ways of changing a plan that every edit goes through. Edits are pure: they return a new plan that
 * shares what did not change, and the very same plan when nothing did.
 */

/** The plan with one take changed. @throws RangeError when there is no such take */
export function changeTake(plan: Plan, takeId: string, change: (take: Take) => Take): Plan {
  return patch(plan, { takes: changeOne(plan.takes, takeId, change) })
}

/** The list with the thing of that id changed. @throws RangeError when there is no such thing */
export function changeOne<T extends { readonly id: string }>(
  list: readonly T[],
  id: string,
  change: (thing: T) => T,
): readonly T[] {
  const thing = oneOf(list, id)
  const changed = change(thing)
  return changed === thing ? list : list.with(list.indexOf(thing), changed)
}

/** The list without the thing of that id. @throws RangeError when there is no such thing */
export function without<T extends { readonly id: string }>(list: readonly T[], id: string): readonly T[] {
  const thing = oneOf(list, id)
  return list.filter((other) => other !== thing)
}

/** The thing of that id. @throws RangeError when there is no such thing */
export function oneOf<T extends { readonly id: string }>(list: readonly T[], id: string): T {
  const thing = list.find((other) => other.id === id)
  if (thing !== undefined) return thing
  throw new RangeError(`there is no "${id}" among ${list.map((other) => other.id).join(', ') || 'none'}`)
}

/** The thing with some fields replaced; fields whose new value says the same stay as they are. */
export function patch<T extends object>(thing: T, changes: Partial<T>): T {
  const names = Object.keys(changes) as (keyof T)[]
  const different = names.filter((name) => !same(thing[name], changes[name]))
  if (different.length === 0) return thing
  const changed = { ...thing }
  for (const name of different) changed[name] = changes[name] as T[keyof T]
  return changed
}

/** Whether two plain values say the same; shared parts are not looked into. */
function same(a: unknown, b: unknown): boolean {
  if (a === b) return true
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return Object.is(a, b)
  if (Array.isArray(a) !== Array.isArray(b)) return false
  const names = Object.keys(a)
  return (
    names.length === Object.keys(b).length &&
    names.every(
      (name) =>
        Object.hasOwn(b, name) &&
        same((a as Record<string, unknown>)[name], (b as Record<string, unknown>)[name]),
    )
  )
}
