import { type IDBPDatabase, openDB } from 'idb'
import { type Kept, kept, notKept, type TextStorage } from './storage'

/**
 * Text kept in the browser's IndexedDB. The database is opened at first use and again whenever it was
 * closed under us (site data cleared, a newer page, a full disk that was freed).
 * @param name of the database; tests give each its own
 */
export function browserStorage(name = 'weighbridge'): TextStorage {
  let opening: Promise<IDBPDatabase> | undefined
  const forget = () => {
    opening?.then(
      (database) => database.close(),
      () => {},
    )
    opening = undefined
  }
  const open = (): Promise<IDBPDatabase> => {
    opening ??= openDB(name, 1, {
      upgrade: (database) => {
        database.createObjectStore(TEXTS)
      },
      // A newer page may need the database to itself.
      blocking: forget,
      terminated: forget,
    })
    return opening
  }
  const attempt = async <T>(work: (database: IDBPDatabase) => Promise<T>, again = true): Promise<Kept<T>> => {
    if (typeof indexedDB === 'undefined') return notKept('blocked')
    try {
      return kept(await work(await open()))
    } catch (error) {
      forget()
      // A connection that was closed under us; a fresh one may do.
      if (again && nameOf(error) === 'InvalidStateError') return attempt(work, false)
      return failureOf(error)
    }
  }
  return {
    get: (key) => attempt((database) => database.get(TEXTS, key)),
    set: (key, text) => attempt((database) => write(database, (texts) => texts.put(text, key))),
    delete: (key) => attempt((database) => write(database, (texts) => texts.delete(key))),
    list: (prefix) =>
      attempt(async (database) => {
        const keys = await database.getAllKeys(TEXTS, IDBKeyRange.bound(prefix, `${prefix}\uffff`))
        return keys.map(String)
      }),
  }
}

const TEXTS = 'texts'

/** Resolves when the change is on the disk, not only in the browser's buffers. */
async function write(
  database: IDBPDatabase,
  change: (texts: {
    put: (text: string, key: string) => unknown
    delete: (key: string) => unknown
  }) => unknown,
): Promise<undefined> {
  const transaction = database.transaction(TEXTS, 'readwrite', { durability: 'strict' })
  await Promise.all([change(transaction.store), transaction.done])
  return undefined
}

const nameOf = (error: unknown): string =>
  error instanceof Error || error instanceof DOMException ? error.name : ''

function failureOf(error: unknown) {
  const name = nameOf(error)
  if (name === 'QuotaExceededError') return notKept('full')
  if (['SecurityError', 'InvalidStateError', 'UnknownError'].includes(name)) return notKept('blocked', name)
  return notKept('failed', name || String(error))
}
