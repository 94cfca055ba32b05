/** What was seen last is shown only where it is known to be of the log as it is. */
import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { openDeviceStore } from '../../../web/live/device-store'
import { makeSeen } from '../../../web/live/seen'

beforeEach(async () => {
  vi.stubGlobal('indexedDB', new IDBFactory())
  const store = await openDeviceStore('paintmark-seen-shop', 'rooms')
  await store.put('job:j1', { state: { version: 3 }, at: 0, build: '', epoch: 'first' })
  await store.put('job:j2', { state: { version: 1 }, at: 0, build: '' })
})
afterEach(() => void vi.unstubAllGlobals())

/** Of a page in a browser that was told of that epoch last. */
const seenBy = (last: string | undefined) =>
  makeSeen(Promise.resolve('shop'), { here: () => undefined, last: () => last })

test('of the epoch this browser was told of last it is shown', async () => {
  expect((await seenBy('first').load('job:j1'))?.state).toEqual({ version: 3 })
})

test('of another, or of one that was not known, it is not; nor where a cleared browser does not know which', async () => {
  expect(await seenBy('second').load('job:j1')).toBeUndefined()
  expect(await seenBy(undefined).load('job:j1')).toBeUndefined()
  for (const last of ['first', undefined]) expect(await seenBy(last).load('job:j2')).toBeUndefined()
})
