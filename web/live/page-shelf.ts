/**
 * A shelf that lasts: a store of this browser, one for each shop, named by the shop's own log, so that a demonstration and
 * a real shop at one address never see each other's. Nothing of it leaves this device but to that shop's server.
 *
 * Several pages of one device share it, and each sends what was entered on it: what is kept names its page, and a page
 * shows that it is open by a lock of its name. What a page left behind when it closed is taken over by the next that looks.
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

/** Not beyond loopback without TLS. */
const locks = (): LockManager | undefined => globalThis.navigator?.locks
const lockOf = (page: string) => `paintmark-page-${page}`

/** Rejects where this browser has no such store, or will not open it. */
export async function openPageShelf<E, S>(
  database: string,
  { keyOf, pack, unpack, lift = () => undefined }: Options<E, S>,
): Promise<Shelf<E>> {
  const store = await openDeviceStore<Kept<S>>(database, 'waiting')
  const page = uuid()
  // Held until the page is gone.
  void locks()
    ?.request(lockOf(page), () => new Promise<void>(() => undefined))
    .catch(() => undefined)
  const places = new Map<string, number>()
  let last = 0

  async function put(entry: E): Promise<void> {
    const key = keyOf(entry)
    const place = places.get(key) ?? ++last
    places.set(key, place)
    await store.put(key, { stored: await pack(entry), page, place })
  }

  return {
    lasting: true,
    async load() {
      const kept = (await store.values()).map((one) => lift(one) ?? one)
      for (const { place } of kept) last = Math.max(last, place)
      const open = await openPages()
      const left = kept
        .filter((one) => one.page !== page && !open.has(lockOf(one.page)))
        .sort((a, b) => a.place - b.place)
      const entries = left.map(({ stored }) => unpack(stored))
      for (const [index, entry] of entries.entries()) {
        places.set(keyOf(entry), left[index]?.place ?? ++last)
        await put(entry)
      }
      return entries
    },
    put,
    async drop(key) {
      places.delete(key)
      await store.drop(key)
    },
    onLost: store.onLost,
  }
}

/** A browser without such locks counts every page as closed: what two pages send is the same, and counts once. */
async function openPages(): Promise<ReadonlySet<string | undefined>> {
  const { held = [] } = (await locks()?.query()) ?? {}
  return new Set(held.map(({ name }) => name))
}
