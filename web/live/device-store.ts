/**
 * A store of this browser that outlives the page. What `put` has resolved for is on the disk: each change is a transaction
 * of its own, asked to be durable, and answered only when it is complete.
 *
 * A browser may close a store under an open page, when somebody clears what it keeps: it is then opened anew, empty, and
 * `onLost` tells whoever holds the entries, so that they can put them again.
 */
import { type IDBPDatabase, type IDBPObjectStore, openDB } from 'idb'

export interface DeviceStore<V> {
  values(): Promise<V[]>
  entries(): Promise<[string, V][]>
  get(key: string): Promise<V | undefined>
  /** Rejects with `QuotaExceededError` where the device has no room. */
  put(key: string, value: V): Promise<void>
  /** As `put`, but only where something lies under the key already. */
  replace(key: string, value: V): Promise<void>
  drop(key: string): Promise<void>
  onLost(listener: () => void): void
}

type WritableTable = IDBPObjectStore<unknown, [string], string, 'readwrite'>

/** A browser may never answer, where another page holds the store in an older form: it is then as good as none. */
const OPENS_WITHIN_MS = 5000

/** Rejects where this browser has no such store, or will not open it. */
export async function openDeviceStore<V>(database: string, table: string): Promise<DeviceStore<V>> {
  const lostListeners = new Set<() => void>()
  let opening: Promise<IDBPDatabase> | undefined

  function open(): Promise<IDBPDatabase> {
    opening ??= inTime(
      openDB(database, 1, {
        upgrade: (fresh) => void fresh.createObjectStore(table),
        terminated() {
          opening = undefined
          for (const listener of lostListeners) listener()
        },
      }),
    ).catch((error: unknown) => {
      opening = undefined
      throw error
    })
    return opening
  }

  /** Answered when it is on the disk: a request that went well may still be undone with its transaction. */
  async function change(work: (table: WritableTable) => Promise<unknown>): Promise<void> {
    const transaction = (await open()).transaction(table, 'readwrite', { durability: 'strict' })
    await Promise.all([work(transaction.store), transaction.done])
  }

  await (await open()).count(table)
  return {
    values: async () => (await open()).getAll(table),
    async entries() {
      const reading = (await open()).transaction(table)
      const [keys, values] = await Promise.all([reading.store.getAllKeys(), reading.store.getAll()])
      return keys.map((key, index): [string, V] => [String(key), values[index]])
    },
    get: async (key) => (await open()).get(table, key),
    put: (key, value) => change((store) => store.put(value, key)),
    replace: (key, value) =>
      change(async (store) => {
        if ((await store.getKey(key)) !== undefined) await store.put(value, key)
      }),
    drop: (key) => change((store) => store.delete(key)),
    onLost: (listener) => void lostListeners.add(listener),
  }
}

function inTime<V>(work: Promise<V>): Promise<V> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error('The browser does not answer.')), OPENS_WITHIN_MS)
    work.then(resolve, reject).finally(() => clearTimeout(timer))
  })
}
