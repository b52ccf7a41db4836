/** Who may write a plan: of all pages that have it open, one. */
export interface PlanLocks {
  /** Claims a plan for this page, for as long as it is open or until it is released. */
  readonly claim: (planId: string) => Promise<Claim>
}

export type Claim =
  | { readonly kind: 'mine'; readonly release: () => void }
  /** Another page of this browser has it open. */
  | { readonly kind: 'elsewhere' }
  /** The browser cannot tell; `message` says so to the user. */
  | { readonly kind: 'unguarded'; readonly message: string }

/**
 * Claims by Web Locks, which the browser gives up by itself when a page goes.
 * @param locks `navigator.locks`; undefined on plain http
 */
export function browserLocks(locks: LockManager | undefined): PlanLocks {
  return { claim: (planId) => (locks === undefined ? Promise.resolve(UNGUARDED) : claimBy(locks, planId)) }
}

const UNGUARDED: Claim = {
  kind: 'unguarded',
  message:
    'On this address the browser cannot tell whether the plan is open in another tab: keep it open in one.',
}

function claimBy(locks: LockManager, planId: string): Promise<Claim> {
  return new Promise((resolve) => {
    locks
      .request(`weighbridge/plan/${planId}`, { ifAvailable: true }, (lock) => {
        if (lock === null) {
          resolve({ kind: 'elsewhere' })
          return undefined
        }
        // The lock is held until this promise is resolved.
        return new Promise<void>((release) => resolve({ kind: 'mine', release }))
      })
      .catch(() => resolve(UNGUARDED))
  })
}
