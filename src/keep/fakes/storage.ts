import { type Kept, kept, notKept, type StorageFailure, type TextStorage } from '../storage'

/** Text kept in memory, for tests and for where the browser keeps nothing. */
export function memoryStorage(texts: Map<string, string> = new Map()): TextStorage & {
  readonly texts: Map<string, string>
} {
  return {
    texts,
    get: async (key) => kept(texts.get(key)),
    set: async (key, text) => {
      texts.set(key, text)
      return kept(undefined)
    },
    delete: async (key) => {
      texts.delete(key)
      return kept(undefined)
    },
    list: async (prefix) => kept([...texts.keys()].filter((key) => key.startsWith(prefix)).sort()),
  }
}

/**
 * Storage whose writes go wrong when asked. What goes wrong at a write, counted from 1:
 * a failure code refuses it, `torn` keeps only half of the text and says it was kept, `lost` keeps nothing
 * and says it was kept.
 */
export function failingStorage(
  wrong: (write: number, key: string) => StorageFailure['code'] | 'torn' | 'lost' | undefined,
  below: TextStorage = memoryStorage(),
): TextStorage & { readonly writes: number } {
  let writes = 0
  return {
    ...below,
    get writes() {
      return writes
    },
    set: async (key, text): Promise<Kept<undefined>> => {
      writes += 1
      const what = wrong(writes, key)
      if (what === undefined) return below.set(key, text)
      if (what === 'lost') return kept(undefined)
      if (what === 'torn') return below.set(key, text.slice(0, text.length / 2))
      return notKept(what)
    },
  }
}
