/**
 * Entries on a device's own disk: kept only when the disk has answered, there again after a reload in their order, each
 * sent by the page it was made on while that is open, and put again when the browser has thrown them away.
 */
import 'fake-indexeddb/auto'
import { forceCloseDatabase, IDBFactory, IDBObjectStore } from 'fake-indexeddb'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import type { Answer } from '../../../shared/protocol'
import { openDeviceStore } from '../../../web/live/device-store'
import { openEntryShelf } from '../../../web/live/entry-shelf'
import { commandIdOf, makeOutbox, type QueuedCommand } from '../../../web/live/outbox'
import { openPhotoShelf } from '../../../web/live/photo-shelf'
import { makeLocks } from './locks'

const entry = (id: string, by = 'ana'): QueuedCommand => ({
  stream: 'job:j1',
  command: { commandId: id, signInId: `sign-in of ${by}`, doneAt: 1, type: 'ClaimStep', stepId: 'caps' },
  by,
})
const fine: Answer = { ok: true, version: 1, events: [] }
const until = (so: () => unknown) => vi.waitFor(so, { timeout: 10_000, interval: 5 })

/** A page with its outbox; `up` is whether anything gets through. */
function openPage(up: boolean, opened?: ReturnType<typeof openEntryShelf>) {
  const page = nextPage()
  const shelf = opened ?? openEntryShelf('shop')
  const sent: QueuedCommand[] = []
  let there = up
  const outbox = makeOutbox({
    async send(queued) {
      if (!there) throw new Error('no link')
      sent.push(queued)
      return fine
    },
    linked: () => there,
    shelf,
    wait: () => new Promise(() => undefined),
  })
  return {
    outbox,
    sent,
    ids: () => sent.map(commandIdOf),
    close: () => locks.close(page),
    waiting: () => outbox.entries().map(commandIdOf),
    up() {
      there = true
      outbox.wake()
    },
  }
}

const onDisk = async () => (await openDeviceStore('paintmark-entries-shop', 'waiting')).values()

/** The locks of the browser whose pages are open; each page opened has its own part in them. */
let locks = makeLocks()
let pages: object[] = []
function nextPage(): object {
  const page = {}
  pages.push(page)
  vi.stubGlobal('navigator', { locks: locks.of(page) })
  return page
}
function closeAll(): void {
  for (const page of pages.splice(0)) locks.close(page)
  nextPage()
}

/** A browser's store with nothing in it; what is opened of it is noted. */
let opened: IDBDatabase[] = []
function newStore(): IDBFactory {
  const factory = new IDBFactory()
  const open = factory.open.bind(factory)
  factory.open = (...args) => {
    const request = open(...args)
    request.addEventListener('success', () => opened.push(request.result))
    return request
  }
  return factory
}

beforeEach(() => {
  opened = []
  vi.stubGlobal('indexedDB', newStore())
  locks = makeLocks()
  pages = []
  nextPage()
})
afterEach(() => {
  vi.restoreAllMocks()
  vi.unstubAllGlobals()
})

describe('through a reload', () => {
  test('all is there again in the order it was entered, whatever the clock did to its ids, and is sent once', async () => {
    const before = openPage(false)
    for (const id of ['c9', 'c1', 'c5']) void before.outbox.add(entry(id, id === 'c5' ? 'ben' : 'ana'))
    await until(() => expect(before.outbox.isKept('c5')).toBe(true))
    closeAll()
    const after = openPage(true)
    void after.outbox.add(entry('c0'))
    await until(() => expect(after.ids()).toEqual(['c9', 'c1', 'c5', 'c0']))
    expect(after.sent.map(({ command }) => command.signInId)).toEqual([
      'sign-in of ana',
      'sign-in of ana',
      'sign-in of ben',
      'sign-in of ana',
    ])
    await until(async () => expect(await onDisk()).toEqual([]))
    closeAll()
    const third = openPage(true)
    await third.outbox.add(entry('c2'))
    expect(third.ids()).toEqual(['c2'])
  })

  test('a refusal is there again with its sentence, and is not sent again', async () => {
    const shelf = openEntryShelf('shop')
    const refused = { ...entry('c1'), refused: { code: 'needs_open', sentence: 'First the other.' } }
    await (await shelf).put(refused)
    closeAll()
    const after = openPage(true)
    await after.outbox.add(entry('c2'))
    expect(after.ids()).toEqual(['c2'])
    expect(after.outbox.entries()).toEqual([refused])
  })
})

describe('two pages of one device', () => {
  test('each sends its own; what one leaves behind the other takes over when it closes', async () => {
    const first = openPage(false)
    void first.outbox.add(entry('c1'))
    await until(() => expect(first.outbox.isKept('c1')).toBe(true))
    const second = openPage(true)
    await second.outbox.add(entry('c2'))
    expect(second.ids()).toEqual(['c2'])
    first.close()
    await until(() => expect(second.ids()).toEqual(['c2', 'c1']))
    await until(async () => expect(await onDisk()).toEqual([]))
  })

  test('also what a page leaves behind that was opened later, while a third goes on', async () => {
    const first = openPage(true)
    await first.outbox.add(entry('c1'))
    const keeping = async (id: string) => {
      const page = openPage(false)
      void page.outbox.add(entry(id))
      await until(() => expect(page.outbox.isKept(id)).toBe(true))
      return page
    }
    const second = await keeping('c2')
    const third = await keeping('c3')
    second.close()
    await until(() => expect(first.ids()).toContain('c2'))
    third.close()
    await until(() => expect(first.ids()).toEqual(['c1', 'c2', 'c3']))
    await until(async () => expect(await onDisk()).toEqual([]))
  })

  test('though others waited for its end as well', async () => {
    const first = openPage(false)
    void first.outbox.add(entry('c1'))
    await until(() => expect(first.outbox.isKept('c1')).toBe(true))
    const others = [openPage(true), openPage(true)]
    // The photos of each page wait in the same way, and are given the lock in the same moment.
    for (const _ of others) await (await openPhotoShelf('shop')).load()
    await Promise.all(others.map(({ outbox }, index) => outbox.add(entry(`d${index}`))))
    first.close()
    await until(() => expect(others.some(({ sent }) => sent.map(commandIdOf).includes('c1'))).toBe(true))
    await until(async () => expect(await onDisk()).toEqual([]))
  })

  test('what another page sent while it was being taken over is not put again', async () => {
    const shelf = await openEntryShelf('shop')
    await shelf.put(entry('c1'))
    closeAll()
    const next = await openEntryShelf('shop')
    const replaced = vi.spyOn(IDBObjectStore.prototype, 'getKey')
    const loading = next.load()
    await (await openDeviceStore('paintmark-entries-shop', 'waiting')).drop('c1')
    await loading
    expect(replaced).toHaveBeenCalledOnce()
    expect(await onDisk()).toEqual([])
  })
})

describe('kept is said only of what is', () => {
  test('not before the transaction is complete, which is asked to be durable', async () => {
    const shelf = await openEntryShelf('shop')
    const asked = vi.spyOn(opened[0] as IDBDatabase, 'transaction')
    const page = openPage(false, Promise.resolve(shelf))
    void page.outbox.add(entry('c1'))
    expect(page.outbox.isKept('c1')).toBe(false)
    await until(() => expect(page.outbox.isKept('c1')).toBe(true))
    expect(asked).toHaveBeenCalledWith('waiting', 'readwrite', { durability: 'strict' })
  })

  test('a transaction undone after its request went well: not kept, told, and sent all the same', async () => {
    const put = IDBObjectStore.prototype.put
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (
      this: IDBObjectStore,
      ...args: unknown[]
    ) {
      const request = put.apply(this as never, args as never)
      request.onsuccess = () => this.transaction.abort()
      return request
    } as never)
    const page = openPage(false)
    const answer = page.outbox.add(entry('c1'))
    await until(() => expect(page.outbox.unkept()).toEqual(['failed']))
    expect(page.outbox.isKept('c1')).toBe(false)
    page.up()
    expect(await answer).toEqual(fine)
    expect(page.outbox.unkept()).toEqual([])
  })

  test('no room: told so', async () => {
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('No room.', 'QuotaExceededError')
    })
    const page = openPage(false)
    void page.outbox.add(entry('c1'))
    await until(() => expect(page.outbox.unkept()).toEqual(['full']))
  })

  test('a browser that never answers: told so, and sent all the same', async () => {
    vi.stubGlobal('indexedDB', { open: () => new IDBOpenDBRequest() })
    vi.useFakeTimers()
    const page = openPage(false)
    const answer = page.outbox.add(entry('c1'))
    await vi.advanceTimersByTimeAsync(10_000)
    vi.useRealTimers()
    expect(page.outbox.unkept()).toEqual(['no_store'])
    page.up()
    expect(await answer).toEqual(fine)
  })

  test('a browser that keeps nothing: told so', async () => {
    vi.stubGlobal('indexedDB', undefined)
    const page = openPage(false)
    void page.outbox.add(entry('c1'))
    await until(() => expect(page.outbox.unkept()).toEqual(['no_store']))
    expect(page.outbox.isKept('c1')).toBe(false)
  })

  test('the browser throws all of it away under an open page: it is put again', async () => {
    const page = openPage(false)
    void page.outbox.add(entry('c1'))
    void page.outbox.add(entry('c2'))
    await until(() => expect(page.outbox.isKept('c2')).toBe(true))
    vi.stubGlobal('indexedDB', newStore())
    for (const database of opened) forceCloseDatabase(database as never)
    await until(() => expect(page.outbox.isKept('c2')).toBe(false))
    await until(() => expect(page.outbox.isKept('c2')).toBe(true))
    closeAll()
    const after = openPage(true)
    await until(() => expect(after.ids()).toEqual(['c1', 'c2']))
  })
})
