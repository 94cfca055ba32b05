/**
 * A shelf that lasts: a store of this browser, one for each shop, named by the shop's own log, so that a demonstration and
 * a real shop at one address never see each other's. Nothing of it leaves this device but to that shop's server.
 *
 * Several pages of one device share it, and each sends what was entered on it: what is kept names its page, and a page
 * shows that it is open by a lock of its name. What a page left behind when it closed another takes over.
 */
import { v7 as uuid } from 'uuid'
import { openDeviceStore } from './device-store'
import type { Shelf } from './retry-queue'

interface Kept<S> {
  stored: S
  page: string
  /** Counts up on this device, so that the order they came in is known whatever its clock did. */
  place: number
}

interface Options<E, S> {
  keyOf(entry: E): string
  pack(entry: E): S | Promise<S>
  unpack(stored: S): E
  /** As a page of an earlier main left it. */
  lift?(old: unknown): Kept<S> | undefined
}

const PAGE = 'paintmark-page-'
const lockOf = (page: string) => `${PAGE}${page}`

/** Rejects where this browser has no such store, or will not open it. */
export async function openPageShelf<E, S>(
  database: string,
  { keyOf, pack, unpack, lift = () => undefined }: Options<E, S>,
): Promise<Shelf<E>> {
  const store = await openDeviceStore<Kept<S>>(database, 'waiting')
  const page = uuid()
  // Not beyond loopback without TLS.
  const locks: LockManager | undefined = globalThis.navigator?.locks
  // Held until the page is gone.
  void locks?.request(lockOf(page), () => new Promise<void>(() => undefined)).catch(() => undefined)
  const places = new Map<string, number>()
  const awaited = new Set<string>()
  const leftListeners = new Set<() => void>()
  let last = 0

  async function packed(entry: E): Promise<[string, Kept<S>]> {
    const key = keyOf(entry)
    const place = places.get(key) ?? ++last
    places.set(key, place)
    return [key, { stored: await pack(entry), page, place }]
  }

  const somethingLeft = () => {
    for (const listener of leftListeners) listener()
  }
  /** Its lock is to be had when it has closed: shared, so that whoever else waited for it does not pass for it. */
  function awaitEndOf(lock: string): void {
    if (lock === lockOf(page) || awaited.has(lock)) return
    awaited.add(lock)
    locks?.request(lock, { mode: 'shared' }, somethingLeft).catch(() => undefined)
  }
  // Taken from here by the next page that opens: what that one leaves behind one day is to be waited for too.
  void locks
    ?.request(`paintmark-newest-of-${database}`, { steal: true }, () => new Promise<void>(() => undefined))
    .catch(somethingLeft)

  return {
    lasting: true,
    async load() {
      const kept = (await store.values()).map((one) => lift(one) ?? one)
      for (const { place } of kept) last = Math.max(last, place)
      const others = kept.filter((one) => one.page !== page)
      const open = await openPages(locks)
      for (const lock of open) awaitEndOf(lock)
      const left = others.filter((one) => !open.has(lockOf(one.page))).sort((a, b) => a.place - b.place)
      const entries = left.map(({ stored }) => unpack(stored))
      for (const [index, entry] of entries.entries()) {
        places.set(keyOf(entry), left[index]?.place ?? ++last)
        // Another page may have sent it since it was read here: what is gone is not put again.
        await store.replace(...(await packed(entry)))
      }
      return entries
    },
    all: async () => (await store.values()).map((one) => unpack((lift(one) ?? one).stored)),
    async put(entry) {
      await store.put(...(await packed(entry)))
    },
    async drop(key) {
      places.delete(key)
      await store.drop(key)
    },
    onLost: store.onLost,
    onLeft: (listener) => void leftListeners.add(listener),
  }
}

/** The locks of them. A browser without such counts every page as closed: what two pages send is the same, and counts once. */
async function openPages(locks: LockManager | undefined): Promise<ReadonlySet<string>> {
  const { held = [] } = (await locks?.query()) ?? {}
  return new Set(held.flatMap(({ name, mode }) => (name?.startsWith(PAGE) && mode !== 'shared' ? name : [])))
}
