/**
 * A device's browser: one origin with its store, its locks, its cookie, and the pages open in it. What a page finds on
 * `globalThis` is its own browser's.
 */
import 'fake-indexeddb/auto'
import { forceCloseDatabase, IDBFactory, IDBObjectStore } from 'fake-indexeddb'
import { makeLocks } from '../web/live/locks'
import { failRequests, type NetworkedPage, network, request } from './network'
import { cutLines } from './sockets'
import { after, NOBODY, type Realm, realmNow } from './world'

/** What can happen once to what is being put on the device under a key. */
export const ON_THE_SHELF = ['no room', 'transaction undone', 'page killed as it is written'] as const
export type OnTheShelf = (typeof ON_THE_SHELF)[number]

export interface Browser {
  name: string
  /** The server's, which no page can read. */
  cookie: string
  /** The pages' own. */
  jar: Map<string, string>
  linkUp: boolean
  /** Of the pages it has kept of the app. */
  build: number
  clockAheadMs: number
  pages: BrowserPage[]
  factory: IDBFactory
  storage: Map<string, string>
  locks: ReturnType<typeof makeLocks>
  /** What a completed transaction has left, by database and key. */
  durable: Set<string>
  /** By key. */
  armed: Map<string, OnTheShelf>
  hit(what: OnTheShelf, key: string): void
  /** How often its store was lost, and of how many of these its pages were told. */
  losses: number
  lossesTold: number
  /** How often it became a new device to the server. */
  cookiesLost: number
}

export interface BrowserPage extends NetworkedPage {
  device: Browser
  connections: IDBDatabase[]
  indexedDB: Pick<IDBFactory, 'open'>
  navigator: { locks: ReturnType<ReturnType<typeof makeLocks>['of']>; onLine: boolean }
}

export function openBrowser(name: string, hit: Browser['hit']): Browser {
  return {
    name,
    cookie: '',
    jar: new Map(),
    linkUp: true,
    build: 0,
    clockAheadMs: 0,
    pages: [],
    factory: new IDBFactory(),
    storage: new Map(),
    locks: makeLocks((page, what) => void after(0, page as Realm, what)),
    durable: new Set(),
    armed: new Map(),
    hit,
    losses: 0,
    lossesTold: 0,
    cookiesLost: 0,
  }
}

export function openPage(device: Browser, name: string): BrowserPage {
  const connections: IDBDatabase[] = []
  const { life } = network
  if (device.linkUp && life && !life.dead) device.build = life.build
  const page: BrowserPage = {
    name,
    device,
    dead: false,
    isServer: false,
    build: device.build,
    badAir: false,
    ahead: () => device.clockAheadMs,
    connections,
    indexedDB: {
      open(...asked) {
        if (page.dead) throw new DOMException('The page is gone.', 'InvalidStateError')
        const { factory } = device
        const opening = factory.open(...asked)
        opening.addEventListener('success', () => {
          if (page.dead) opening.result.close()
          // Lost while it was being opened.
          else if (factory !== device.factory)
            after(0, page, () => forceCloseDatabase(opening.result as never))
          else connections.push(opening.result)
        })
        return opening
      },
    },
    navigator: { locks: undefined as never, onLine: true },
  }
  page.navigator.locks = device.locks.of(page)
  device.pages.push(page)
  return page
}

/** Closed, or killed: what it had not finished writing is undone. */
export function closePage(page: BrowserPage): void {
  page.dead = true
  const { device, connections } = page
  device.pages = device.pages.filter((other) => other !== page)
  for (const connection of connections) {
    for (const transaction of unfinished(connection)) transaction.abort()
    connection.close()
  }
  device.locks.close(page)
  cutLines((other) => other === page, 'transport close', 1)
}

interface Unfinished {
  db: IDBDatabase
  _state: string
  abort(): void
}
const unfinished = (connection: IDBDatabase): Unfinished[] =>
  (
    connection as unknown as { _rawDatabase: { transactions: Unfinished[] } }
  )._rawDatabase.transactions.filter(({ db, _state }) => db === connection && _state !== 'finished')

/** The store alone is gone, or with everything else of the origin. */
export function loseStore(device: Browser, everything: boolean): void {
  device.losses += 1
  device.durable.clear()
  device.factory = new IDBFactory()
  if (everything) {
    device.storage.clear()
    device.jar.clear()
    device.cookie = ''
    device.cookiesLost += 1
  }
  for (const page of device.pages)
    for (const connection of page.connections.splice(0)) {
      for (const transaction of unfinished(connection)) transaction.abort()
      after(0, page, () => forceCloseDatabase(connection as never))
    }
  // Long after every page has been told.
  const { losses } = device
  after(100, NOBODY, () => {
    if (device.losses === losses) device.lossesTold = losses
  })
}

export function linkDown(device: Browser): void {
  device.linkUp = false
  cutLines((page) => (page as BrowserPage).device === device, 'ping timeout', 45_000)
  failRequests(({ page }) => (page as BrowserPage).device === device)
}

const pageNow = (): BrowserPage | undefined => {
  const realm = realmNow()
  return realm.isServer || realm === NOBODY ? undefined : (realm as BrowserPage)
}

/** Gives every page its own browser, for good. */
export function takeOverBrowserGlobals(hooks: {
  kill(page: BrowserPage): void
  reload(page: BrowserPage): void
}): void {
  const give = (name: string, get: () => unknown) =>
    Object.defineProperty(globalThis, name, { configurable: true, get })
  give('indexedDB', () => pageNow()?.indexedDB)
  give('navigator', () => pageNow()?.navigator)
  give('document', () => {
    const page = pageNow()
    return (
      page && {
        querySelector: () => null,
        get cookie() {
          return [...page.device.jar].map((pair) => pair.join('=')).join('; ')
        },
        set cookie(text: string) {
          const [name = '', value = ''] = (text.split(';')[0] ?? '').split('=')
          page.device.jar.set(name, value)
        },
      }
    )
  })
  give('location', () => {
    const page = pageNow()
    return page && { reload: () => hooks.reload(page) }
  })
  give('localStorage', () => {
    const page = pageNow()
    return (
      page && {
        getItem: (key: string) => page.device.storage.get(key) ?? null,
        setItem: (key: string, value: string) => void page.device.storage.set(key, value),
      }
    )
  })
  globalThis.fetch = ((path: string, init?: RequestInit) => {
    const page = pageNow()
    if (!page) throw new Error(`Nobody asks for ${path}.`)
    return request(page, path, init)
  }) as typeof fetch
  watchWrites(hooks.kill)
}

/** Sees what is put and dropped, lets happen to it what is armed, and notes what is on the disk. */
function watchWrites(kill: (page: BrowserPage) => void): void {
  const { put, delete: drop } = IDBObjectStore.prototype
  const durableName = (store: IDBObjectStore, key: unknown) => `${store.transaction.db.name} ${String(key)}`
  IDBObjectStore.prototype.put = function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
    const page = pageNow() as BrowserPage
    const { device } = page
    const what = isSeen(this) ? undefined : device.armed.get(String(key))
    if (what !== undefined) {
      device.armed.delete(String(key))
      device.hit(what, String(key))
    }
    if (what === 'no room') throw new DOMException('No room.', 'QuotaExceededError')
    const request = put.call(this as never, value, key as never) as unknown as IDBRequest<IDBValidKey>
    const { transaction } = this
    const { losses } = device
    if (what === 'transaction undone') request.addEventListener('success', () => transaction.abort())
    if (what === 'page killed as it is written') request.addEventListener('success', () => kill(page))
    transaction.addEventListener('complete', () => {
      if (device.losses === losses) device.durable.add(durableName(this, key))
    })
    return request
  } as never
  IDBObjectStore.prototype.delete = function (this: IDBObjectStore, key: IDBValidKey) {
    const { device } = pageNow() as BrowserPage
    this.transaction.addEventListener('complete', () => device.durable.delete(durableName(this, key)))
    return drop.call(this as never, key as never)
  } as never
}
const isSeen = (store: IDBObjectStore): boolean => store.transaction.db.name.startsWith('paintmark-seen')
