import 'fake-indexeddb/auto'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { browserStorage } from '../../src/keep/browser-storage'
import { failingStorage, memoryStorage } from '../../src/keep/fakes/storage'
import type { TextStorage } from '../../src/keep/storage'

let names = 0
const fresh = (): TextStorage => browserStorage(`test-${names++}`)

describe.each([
  ['in memory', (): TextStorage => memoryStorage()],
  ['of the browser', fresh],
])('storage %s', (_, make) => {
  it('gives back what was set, until it is deleted', async () => {
    const storage = make()
    expect(await storage.get('a')).toEqual({ ok: true, value: undefined })
    expect(await storage.set('a', 'text é 🪨')).toEqual({ ok: true, value: undefined })
    expect(await storage.get('a')).toEqual({ ok: true, value: 'text é 🪨' })
    await storage.set('a', 'newer')
    expect(await storage.get('a')).toEqual({ ok: true, value: 'newer' })
    await storage.delete('a')
    expect(await storage.get('a')).toEqual({ ok: true, value: undefined })
  })

  it('lists the keys that start so, in order', async () => {
    const storage = make()
    for (const key of ['plan/b/a', 'plan/a/b', 'plan/a/a', 'planet', 'shelf/a']) await storage.set(key, '')
    expect(await storage.list('plan/')).toEqual({ ok: true, value: ['plan/a/a', 'plan/a/b', 'plan/b/a'] })
    expect(await storage.list('nothing')).toEqual({ ok: true, value: [] })
  })
})

describe('storage of the browser', () => {
  afterEach(() => {
    vi.unstubAllGlobals()
    vi.restoreAllMocks()
  })

  it('is there again for the next page', async () => {
    const name = `test-${names++}`
    await browserStorage(name).set('a', 'kept')
    expect(await browserStorage(name).get('a')).toEqual({ ok: true, value: 'kept' })
  })

  it('says that it is blocked where the browser has none', async () => {
    const storage = fresh()
    vi.stubGlobal('indexedDB', undefined)
    expect(await storage.set('a', '')).toMatchObject({ ok: false, failure: { code: 'blocked' } })
  })

  it.each([
    ['QuotaExceededError', 'full'],
    ['SecurityError', 'blocked'],
    ['UnknownError', 'blocked'],
    ['DataError', 'failed'],
  ])('says at a %s that it is %s, and works again afterwards', async (name, code) => {
    const storage = fresh()
    await storage.set('a', 'before')
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no', name)
    })
    expect(await storage.set('a', 'after')).toMatchObject({ ok: false, failure: { code } })
    put.mockRestore()
    expect(await storage.get('a')).toEqual({ ok: true, value: 'before' })
    expect(await storage.set('a', 'after')).toMatchObject({ ok: true })
  })

  it('opens the database again when it was closed under it', async () => {
    const storage = fresh()
    await storage.set('a', 'kept')
    const transaction = IDBDatabase.prototype.transaction
    vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementationOnce(function (
      this: IDBDatabase,
      ...args
    ) {
      this.close()
      return transaction.apply(this, args)
    })
    expect(await storage.get('a')).toEqual({ ok: true, value: 'kept' })
  })

  it('makes way for a newer page', async () => {
    const name = `test-${names++}`
    const storage = browserStorage(name)
    await storage.set('a', 'kept')
    const deleted = new Promise<string>((resolve) => {
      const request = indexedDB.deleteDatabase(name)
      request.onsuccess = () => resolve('deleted')
      request.onblocked = () => resolve('blocked')
    })
    expect(await deleted).toBe('deleted')
    expect(await storage.get('a')).toEqual({ ok: true, value: undefined })
  })
})

it('failing storage fails at the writes it is told to', async () => {
  const below = memoryStorage()
  const storage = failingStorage((write) => [undefined, 'full', 'torn', 'lost'][write - 1] as never, below)
  expect(await storage.set('a', '1234')).toMatchObject({ ok: true })
  expect(await storage.set('b', '1234')).toMatchObject({ ok: false, failure: { code: 'full' } })
  expect(await storage.set('c', '1234')).toMatchObject({ ok: true })
  expect(await storage.set('d', '1234')).toMatchObject({ ok: true })
  expect([...below.texts]).toEqual([
    ['a', '1234'],
    ['c', '12'],
  ])
})
