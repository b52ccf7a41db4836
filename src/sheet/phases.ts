import type { PhaseRow, SheetRow } from './types'

/**
 * The phases of every row in lanes, so that a phase's bracket stays in one place from its first row to its
 * last while others overlap it. All rows have as many lanes; an empty one is null.
 */
export function phaseLanes(rows: readonly SheetRow[]): (PhaseRow | null)[][] {
  const running: (string | null)[] = []
  const lanes = rows.map(({ phases }) => {
    const row: (PhaseRow | null)[] = []
    for (const phase of phases.filter(({ begins }) => !begins)) {
      const lane = running.indexOf(phase.id)
      if (lane >= 0) row[lane] = phase
    }
    running.forEach((_, lane) => {
      if (!row[lane]) running[lane] = null
    })
    for (const phase of phases.filter(({ begins }) => begins)) {
      const free = running.indexOf(null)
      const lane = free < 0 ? running.length : free
      running[lane] = phase.id
      row[lane] = phase
    }
    return row
  })
  return lanes.map((row) => running.map((_, lane) => row[lane] ?? null))
}
