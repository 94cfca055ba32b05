/** A log that was restored from a backup: what it took since is sent again, once, in its order, and the page begins anew. */
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Answer, LogEpoch } from '../../../shared/protocol'
import { keepAcknowledged } from '../../../web/live/acknowledged'
import { openDeviceStore } from '../../../web/live/device-store'
import { openEntryShelf } from '../../../web/live/entry-shelf'
import { makeEpochs } from '../../../web/live/epochs'
import { commandIdOf, makeOutbox, type QueuedCommand } from '../../../web/live/outbox'

beforeEach(() => {
  const stored = new Map<string, string>()
  vi.stubGlobal('indexedDB', new IDBFactory())
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => stored.get(key) ?? null,
    setItem: (key: string, value: string) => void stored.set(key, value),
    removeItem: (key: string) => void stored.delete(key),
  })
})
afterEach(() => void vi.unstubAllGlobals())

const entry = (id: string): QueuedCommand => ({
  stream: 'job:j1',
  command: { commandId: id, signInId: 's', doneAt: 1, type: 'ClaimStep', stepId: 'caps' },
  by: 'ana',
})
const until = (so: () => unknown) => vi.waitFor(so, { timeout: 10_000, interval: 5 })
const epoch = (id: string, coveredSeq = 0): LogEpoch => ({ id, number: 1, coveredSeq })
const openStore = async () => keepAcknowledged(await openDeviceStore('paintmark-taken-shop', 'entries'))
const kept = async () => (await (await openStore()).all()).map(commandIdOf)

/** A page; every command it sends is taken at the next place of the log, unless `says` has another answer for it. */
function openPage(says: Record<string, Answer> = {}, isStillOurs = true) {
  const log: string[] = []
  const outbox = makeOutbox({
    async send(queued) {
      const id = commandIdOf(queued)
      if (!says[id]) log.push(id)
      return says[id] ?? { ok: true, version: 1, events: [], seq: log.length }
    },
    shelf: openEntryShelf('shop'),
    wait: () => new Promise(() => undefined),
  })
  const did: string[] = []
  const { told } = makeEpochs({
    shopKnown: Promise.resolve('shop'),
    shopKey: () => 'shop',
    isStillOurs: async () => isStillOurs,
    acknowledged: openStore(),
    outbox,
    forgetSeen: async () => void did.push('forgets'),
    reload: () => did.push('loads anew'),
  })
  return { outbox, told, did, log }
}

test('what no backup holds is kept; what one holds is let go', async () => {
  const page = openPage()
  await page.told(epoch('first'))
  for (const id of ['c9', 'c1', 'c5']) await page.outbox.add(entry(id))
  await until(async () => expect(await kept()).toEqual(['c9', 'c1', 'c5']))
  await page.told(epoch('first', 2))
  expect(await kept()).toEqual(['c5'])
  expect(page.did).toEqual([])
})

test('another epoch: all of it is on the shelf again in its order before the page is loaded anew', async () => {
  const before = openPage()
  await before.told(epoch('first'))
  for (const id of ['c9', 'c1', 'c5']) await before.outbox.add(entry(id))
  await until(async () => expect(await kept()).toHaveLength(3))
  await before.told(epoch('second', 1))
  expect(before.did).toEqual(['forgets', 'loads anew'])
  await until(() => expect(before.log.slice(3)).toEqual(['c9', 'c1', 'c5']))
  // Taken in the new one, they wait for its backups: what the old one covered says nothing.
  await until(() => expect(before.outbox.entries()).toEqual([]))
  await before.told(epoch('second', 4))
  await until(async () => expect(await kept()).toEqual(['c1', 'c5']))
  expect(before.did).toHaveLength(2)
})

test('a page opened after the restore does the same, and only the first time', async () => {
  const before = openPage()
  await before.told(epoch('first'))
  await before.outbox.add(entry('c1'))
  await until(async () => expect(await kept()).toEqual(['c1']))
  const after = openPage()
  await after.told(epoch('second'))
  expect(after.did).toEqual(['forgets', 'loads anew'])
  await until(() => expect(after.log).toEqual(['c1']))
  const third = openPage()
  await third.told(epoch('second'))
  await third.outbox.add(entry('c2'))
  expect([third.did, third.log]).toEqual([[], ['c2']])
  // The first page is still open, and of the log that is gone.
  await before.told(epoch('second'))
  expect(before.did).toEqual(['forgets', 'loads anew'])
})

test('a browser that was cleared under an open page: the page still knows which log it is of', async () => {
  const page = openPage()
  await page.told(epoch('first'))
  localStorage.removeItem('paintmark-epoch-shop')
  await page.outbox.add(entry('c1'))
  await until(async () => expect(await kept()).toEqual(['c1']))
  await page.told(epoch('second'))
  expect(page.did).toEqual(['forgets', 'loads anew'])
  await until(() => expect(page.log).toEqual(['c1', 'c1']))
})

test('a page that was opened before another page was told of the restore is of the log as it was then', async () => {
  const before = openPage()
  await before.told(epoch('first'))
  const without = openPage()
  await before.told(epoch('second'))
  // Its first word, with signal again.
  await without.told(epoch('second'))
  expect(without.did).toEqual(['forgets', 'loads anew'])
})

test('what another epoch took goes again also where no page knows of that one any more', async () => {
  const before = openPage()
  await before.told(epoch('first'))
  await before.outbox.add(entry('c1'))
  await until(async () => expect(await kept()).toEqual(['c1']))
  localStorage.removeItem('paintmark-epoch-shop')
  const after = openPage()
  await after.told(epoch('second'))
  await until(() => expect(after.log).toEqual(['c1']))
  expect(after.did).toEqual([])
  await until(async () => expect(await kept()).toEqual(['c1']))
  // It is of the second by now.
  await after.told(epoch('second'))
  expect(after.log).toEqual(['c1'])
})

test('another shop at the address: nothing of this one is touched', async () => {
  const before = openPage()
  await before.told(epoch('first'))
  await before.outbox.add(entry('c1'))
  await until(async () => expect(await kept()).toEqual(['c1']))
  const after = openPage({}, false)
  await after.told(epoch('another'))
  expect([after.did, after.log, await kept()]).toEqual([[], [], ['c1']])
})

test('what the restored log refuses is told and not kept for the next time', async () => {
  const no: Answer = { ok: false, code: 'already_claimed', data: {}, sentence: 'Bo has it.' }
  const before = openPage()
  await before.told(epoch('first'))
  await before.outbox.add(entry('c1'))
  await until(async () => expect(await kept()).toEqual(['c1']))
  const after = openPage({ c1: no })
  await after.told(epoch('second'))
  await until(() =>
    expect(after.outbox.entries()).toEqual([
      { ...entry('c1'), refused: { code: no.code, sentence: no.sentence } },
    ]),
  )
  await until(async () => expect(await kept()).toEqual([]))
})
