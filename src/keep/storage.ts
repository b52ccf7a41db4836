/** Text kept by key in the browser. Failing is expected: storage may be full, blocked or cleared. */
export interface TextStorage {
  /** The text under a key; undefined where there is none. */
  readonly get: (key: string) => Promise<Kept<string | undefined>>
  readonly set: (key: string, text: string) => Promise<Kept<undefined>>
  readonly delete: (key: string) => Promise<Kept<undefined>>
  /** The keys that start so, in order. */
  readonly list: (prefix: string) => Promise<Kept<readonly string[]>>
}

export type Kept<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly failure: StorageFailure }

export interface StorageFailure {
  /**
   * - `full`: the browser's space is used up.
   * - `blocked`: the browser keeps nothing for this page.
   * - `changed`: what was read back is not what was written.
   * - `failed`: anything else.
   */
  readonly code: 'full' | 'blocked' | 'changed' | 'failed'
  /** One sentence for the screen: what happened and what to do. */
  readonly message: string
}

export const kept = <T>(value: T): Kept<T> => ({ ok: true, value })

export const notKept = (
  code: StorageFailure['code'],
  detail = '',
): { ok: false; failure: StorageFailure } => ({
  ok: false,
  failure: { code, message: `${MESSAGES[code]}${detail && ` (${detail})`}` },
})

const MESSAGES: Readonly<Record<StorageFailure['code'], string>> = {
  full: 'The browser has no room left for plans: save this one to a file, then delete plans or other data.',
  blocked:
    'The browser keeps nothing for this page: save the plan to a file, or allow site data for this page.',
  changed: 'The browser did not keep what was written: save the plan to a file.',
  failed: 'The browser could not keep the plan: save it to a file.',
}
