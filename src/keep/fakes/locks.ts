import type { PlanLocks } from '../locks'

/** Claims among pages that share the set. */
export function memoryLocks(held: Set<string> = new Set()): PlanLocks {
  return {
    claim: async (planId) => {
      if (held.has(planId)) return { kind: 'elsewhere' }
      held.add(planId)
      return { kind: 'mine', release: () => held.delete(planId) }
    },
  }
}
