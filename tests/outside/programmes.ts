import { TOTAL_LIMIT } from '../../src/weigh/constants'
import type { ContactSystem } from '../../src/weigh/system'
import { momentOf, neededBy, type Stance, verticesOf } from '../weigh/by-hand'

/*
 * The linear programmes of ranges and regions for an outside solver, written out from the definition: eight
 * pyramid edges a vertex and its own split force, force and moment balanced, loads within their limits and all
 * together within three body weights. Forces over W, lengths over L.
 */

export interface Row {
  readonly terms: readonly number[]
  readonly sense: '=' | '<='
  readonly bound: number
}

/** A force that a contact can give with a normal part of 1, and its moment. */
export interface Generator {
  /** The contact, by its place among the stance's. */
  readonly c: number
  readonly wrench: readonly number[]
}

/** Every generator of a stance whose split `system` holds. */
export function generators({ contacts, body }: Stance, system: ContactSystem): Generator[] {
  return verticesOf(contacts, body).flatMap(({ contact, arm }, j) => {
    const c = contacts.indexOf(contact)
    const axis = (a: number, i: number) => system.axes[9 * c + 3 * a + i] as number
    const force = (a: number, b: number) =>
      [0, 1, 2].map((i) => axis(0, i) + a * axis(1, i) + b * axis(2, i)) as unknown as [
        number,
        number,
        number,
      ]
    const edges = Array.from({ length: 8 }, (_, k) => {
      const angle = (k * Math.PI) / 4
      return force(contact.friction * Math.cos(angle), contact.friction * Math.sin(angle))
    })
    const [n, u, v] = [0, 1, 2].map((a) => system.force[3 * j + a] as number) as [number, number, number]
    return [...edges, ...(n > 1e-12 ? [force(u / n, v / n)] : [])].map((f) => ({
      c,
      wrench: [...f, ...momentOf(arm, f)],
    }))
  })
}

/** The rows of the ranges of a stance: what the generators give is the wrench it needs, less the push. */
export function rangeRows(
  { body }: Stance,
  system: ContactSystem,
  push: Float64Array,
  columns: readonly Generator[],
): Row[] {
  return [
    ...neededBy(body).map(
      (bound, i): Row => ({
        terms: columns.map(({ wrench }) => wrench[i] as number),
        sense: '=',
        bound: bound - (push[i] as number),
      }),
    ),
    ...limitRows(columns, system, 0),
  ]
}

/** The rows of the load limits, with `extra` columns that bear nothing. */
export function limitRows(columns: readonly Generator[], system: ContactSystem, extra: number): Row[] {
  const loads = Array.from({ length: system.contacts }, () => 0)
  for (let c = 0; c < system.contacts; c++)
    for (let j = system.first[c] as number; j < (system.first[c + 1] as number); j++)
      loads[c] = (loads[c] as number) + (system.force[3 * j] as number)
  const total = loads.reduce((sum, load) => sum + load, 0)
  const pad = Array<number>(extra).fill(0)
  return [
    { terms: [...columns.map(() => 1), ...pad], sense: '<=', bound: Math.max(TOTAL_LIMIT, total) },
    ...loads.map(
      (load, c): Row => ({
        terms: [...columns.map((one) => (one.c === c ? 1 : 0)), ...pad],
        sense: '<=',
        bound: Math.max(load, system.limit[c] as number),
      }),
    ),
  ]
}
